package command_test

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"annuloscope/cmd/annuloscope/command"
	"annuloscope/sim/valve"
)

var constant = regexp.MustCompile(`(?m)^\s+([A-Z]\w+):\s+([-0-9.e+]+),`)

// Running the command reproduces the committed constants file: the same constants within 1e-5 and, numbers aside, the
// same text.
func TestCalibrateFitReproducesTheConstants(t *testing.T) {
	file := filepath.Join(t.TempDir(), "default.go")
	code, out, errs := run("calibrate", "fit", "-o", file)
	if code != command.Done || !strings.Contains(errs, valve.Notice) || !strings.Contains(out, "Singular values") || !strings.Contains(out, valve.Notice) {
		t.Fatalf("exit %d: %s\n%s", code, errs, out)
	}
	made, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	committed, err := os.ReadFile(filepath.Join("..", "..", "..", "sim", "ring", "default.go"))
	if err != nil {
		t.Fatal(err)
	}
	a, b := constant.FindAllStringSubmatch(string(made), -1), constant.FindAllStringSubmatch(string(committed), -1)
	if len(a) != 18 || len(b) != len(a) {
		t.Fatalf("%d constants made, %d committed, want 18", len(a), len(b))
	}
	for i := range a {
		x, _ := strconv.ParseFloat(a[i][2], 64)
		y, _ := strconv.ParseFloat(b[i][2], 64)
		if a[i][1] != b[i][1] || !(math.Abs(x-y) <= 1e-5*y) {
			t.Errorf("made %s, committed %s", a[i][0], b[i][0])
		}
	}
	number := regexp.MustCompile(`[-+]?[0-9][-+.0-9e]*`)
	strip := func(b []byte) string {
		return strings.Join(strings.Fields(number.ReplaceAllString(string(b), "#")), " ")
	}
	if strip(made) != strip(committed) {
		t.Error("the text of the committed file is not what the command writes; write it anew: annuloscope calibrate fit -o sim/ring/default.go")
	}
}

// A row without a published figure says null, and the gap is predicted less published.
func TestCalibratePredict(t *testing.T) {
	code, out, errs := run("calibrate", "predict", "--json")
	var v struct {
		Rows []struct {
			Name           string
			Published, Gap *float64
			Predicted      float64
		}
	}
	if err := json.Unmarshal([]byte(out), &v); code != command.Done || err != nil || len(v.Rows) < 15 {
		t.Fatalf("exit %d, %v, %s", code, err, errs)
	}
	unknown := 0
	for _, r := range v.Rows {
		if r.Published == nil {
			unknown++
		} else if math.Abs(r.Predicted-*r.Published-*r.Gap) > 1e-9 {
			t.Errorf("%s: gap %g", r.Name, *r.Gap)
		}
	}
	if unknown != 2 {
		t.Errorf("%d rows without a published figure, want 2", unknown)
	}
}

// A delayed band tells its days, a trade its anchors; both carry the caution and refuse what they cannot do.
func TestFollowupAndTrade(t *testing.T) {
	code, out, errs := run("followup", "deep-artery", "--repair", "sinus-band,delay_days=42", "--days", "112", "--step", "56", "--json")
	var v struct {
		Notice string              `json:"notice"`
		Rows   []valve.FollowUpDay `json:"rows"`
		Late   *float64            `json:"late_compression_day"`
	}
	if err := json.Unmarshal([]byte(out), &v); code != command.Done || err != nil || v.Notice != valve.Notice || len(v.Rows) != 3 || v.Rows[2].Day != 112 || v.Late == nil {
		t.Errorf("exit %d, %v, %s\n%s", code, err, errs, out)
	}
	code, out, errs = run("trade", "functional", "--repair", "sinus-band")
	if code != command.Done || !strings.Contains(out, "equal tension") || !strings.HasSuffix(out, valve.Notice+"\n") || len(strings.Split(out, "\n")) < 12 {
		t.Errorf("exit %d %s\n%s", code, errs, out)
	}
	for _, bad := range []struct {
		args []string
		code int
		says string
	}{
		{[]string{"calibrate", "predict", "--case", "normal"}, command.BadCase, "tight"},
		{[]string{"followup", "functional"}, command.BadCase, "sinus-band"},
		{[]string{"followup", "functional", "--days", "400"}, command.Usage, "1 to 365"},
		{[]string{"followup", "functional", "--step", "0"}, command.Usage, "1 to 100"},
		{[]string{"trade", "functional"}, command.BadCase, "sinus band"},
		{[]string{"trade", "functional", "--repair", "sinus-band,shortening_mm=0"}, command.BadCase, "does not pull"},
	} {
		if code, out, errs := run(bad.args...); code != bad.code || !strings.Contains(errs, bad.says) || out != "" {
			t.Errorf("%v: exit %d, want %d: %s", bad.args, code, bad.code, errs)
		}
	}
}
