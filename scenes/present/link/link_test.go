package link_test

import (
	"bytes"
	"compress/flate"
	"encoding/base64"
	"io"
	"strings"
	"testing"

	"annuloscope/scenes/present/link"

	"pgregory.net/rapid"
)

func TestAnyDocumentComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		data := rapid.SliceOf(rapid.Byte()).Draw(t, "document")
		f := link.Encode(data)
		back, err := link.Decode(f)
		if err != nil || !bytes.Equal(back, data) {
			t.Fatalf("%q: %v, %v", f, back, err)
		}
		if strings.ContainsAny(f, "#?&%+/ \"<>") {
			t.Fatalf("%q holds a character that an address does not carry as it is", f)
		}
		if got := link.In("see https://example.org/teach/#" + f + " for it"); got != f {
			t.Fatalf("found %q in a text", got)
		}
	})
}

// The packing is the one that the documentation names: raw deflate in base64url, read here by hand.
func TestPackingIsAsDocumented(t *testing.T) {
	f := link.Encode([]byte("hello, hello"))
	raw, err := base64.RawURLEncoding.DecodeString(strings.TrimPrefix(f, "state=1."))
	if err != nil {
		t.Fatal(err)
	}
	data, err := io.ReadAll(flate.NewReader(bytes.NewReader(raw)))
	if err != nil || string(data) != "hello, hello" {
		t.Errorf("%q %v", data, err)
	}
}

func TestDamagedLinksAreRefusedWithAReason(t *testing.T) {
	good := link.Encode([]byte(strings.Repeat("a document of some length ", 40)))
	var bomb bytes.Buffer
	w, _ := flate.NewWriter(&bomb, 9)
	_, _ = w.Write(make([]byte, 4<<20))
	_ = w.Close()
	for name, c := range map[string][2]string{
		"cut off":        {good[:len(good)-9], "copy the whole link"},
		"no state":       {"words", "begin with state="},
		"future version": {"state=9." + good[8:], "version"},
		"bad letters":    {"state=1.%%%%", "damaged"},
		"too long":       {"state=1." + strings.Repeat("A", 2<<20), "at most"},
		"grows huge":     {"state=1." + base64.RawURLEncoding.EncodeToString(bomb.Bytes()), "unpacks to more"},
	} {
		if _, err := link.Decode(c[0]); err == nil || !strings.Contains(err.Error(), c[1]) {
			t.Errorf("%s: %v, want %q", name, err, c[1])
		}
	}
}

// Whatever is in an address, decoding neither panics nor returns more than the limit, and what it accepts comes back
// the same when packed again.
func FuzzDecode(f *testing.F) {
	f.Add("")
	f.Add("state=1.")
	f.Add("#state=1.AAAA")
	f.Add(link.Encode([]byte(`{"version":1}`)))
	f.Fuzz(func(t *testing.T, fragment string) {
		data, err := link.Decode(fragment)
		if err != nil {
			return
		}
		if len(data) > 1<<20 {
			t.Fatalf("%d bytes", len(data))
		}
		back, err := link.Decode(link.Encode(data))
		if err != nil || !bytes.Equal(back, data) {
			t.Fatalf("%v %v", back, err)
		}
	})
}
