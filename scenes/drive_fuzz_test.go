package scenes_test

import (
	"reflect"
	"testing"

	"annuloscope/scenes"
)

// Any address is refused or read; what was read is written and read again as the same.
func FuzzDrive(f *testing.F) {
	for _, s := range []string{"", "a,1", "repair/sinus-band/shortening_mm,120,engine=1", "a,+3,b=c=d", "a,3,=", "a,99999999999999999999", "a\x00,3,\xff=1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		d, err := scenes.ParseDrive(text)
		if err != nil {
			return
		}
		again, err := scenes.ParseDrive(d.Address())
		if err != nil || !reflect.DeepEqual(again, d) {
			t.Errorf("%q was read as %+v, written as %q and read as %+v, %v", text, d, d.Address(), again, err)
		}
	})
}
