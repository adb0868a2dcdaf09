package scenes_test

import (
	"reflect"
	"strings"
	"testing"

	"annuloscope/scenes"
)

// What Address writes, ParseDrive reads.
func TestDriveInAnAddress(t *testing.T) {
	for _, d := range []scenes.Drive{{ID: "a/b", Moves: 1}, {ID: "repair/sinus-band/shortening_mm", Moves: 10000, Choose: []scenes.Choice{{ID: "engine", Value: "1"}, {ID: "field", Value: "2"}}}} {
		got, err := scenes.ParseDrive(d.Address())
		if err != nil || !reflect.DeepEqual(*got, d) {
			t.Errorf("%s: %+v, %v", d.Address(), got, err)
		}
	}
}

// A bad address is refused with the part, its value, what is allowed and an example.
func TestBadDriveAddress(t *testing.T) {
	for text, want := range map[string]string{"": "bench=: allowed: the id", "a": "bench=a: allowed: the id", ",3": "bench=,3: allowed: the id",
		"a,": `moves: ""; allowed: a whole number from 1 to 10000`, "a,0": `moves: "0"`, "a,10001": `moves: "10001"`, "a,x": `moves: "x"`,
		"a,3,": `choice: ""; allowed: CONTROL=VALUE`, "a,3,engine": `choice: "engine"`, "a,3,=1": `choice: "=1"`, "a,3,engine=": `choice: "engine="`} {
		if d, err := scenes.ParseDrive(text); err == nil || !strings.Contains(err.Error(), want) || !strings.Contains(err.Error(), "write for example bench=") {
			t.Errorf("%q: %+v, %v; want %s", text, d, err, want)
		}
	}
}
