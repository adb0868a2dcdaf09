package calibrate

import "testing"

func TestFit(t *testing.T) {
	c, rep := Fit()
	t.Logf("%+v", c)
	for _, s := range rep.Steps {
		t.Logf("%+v", s)
	}
	for _, r := range rep.Rows {
		t.Logf("%+v", r)
	}
	t.Log(rep.Parameters, rep.Prior, rep.Fitted)
	for k, s := range rep.Singular {
		t.Logf("sv %.3f %.2f", s, rep.Directions[k])
	}
	t.Log(rep.SecantNPerMM)
}
