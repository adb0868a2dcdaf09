package beat

import "testing"

func TestRestingConverges(t *testing.T) {
	r, err := Solve(Resting())
	if err != nil || r.Status != Converged {
		t.Fatalf("err %v, status %v", err, r.Status)
	}
	if !(r.ConservationErrorML < 1e-6) {
		t.Errorf("conservation error %g mL", r.ConservationErrorML)
	}
}
