package lessonview_test

import (
	"bytes"
	"testing"

	"annuloscope/scenes/present/lessonview"
)

// Kept progress of any content: refused, or what is left of it writes and reads back to the same bytes.
func FuzzReadProgress(f *testing.F) {
	f.Add(lessonview.Progress{}.Encode())
	f.Add([]byte(`{"version":1,"lessons":[{"lesson":"artery","seen":3,"prediction":{"choice":2}},{"lesson":"artery"},{"lesson":"x","seen":-1}]}`))
	f.Add([]byte(`{"version":1,"lessons":[{"lesson":"x","transfer":{"choice":0,"number":1e300}}]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		p, err := lessonview.ReadProgress(data)
		if err != nil {
			return
		}
		again, err := lessonview.ReadProgress(p.Encode())
		if err != nil || !bytes.Equal(again.Encode(), p.Encode()) {
			t.Fatalf("does not read back: %v\n%s\n%s", err, p.Encode(), again.Encode())
		}
	})
}
