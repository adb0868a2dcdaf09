package link

import (
	"bytes"
	"compress/flate"
	"encoding/base64"
	"errors"
	"fmt"
	"io"
	"strings"
)

// Limits. A link longer than mostLink is refused before it is unpacked; a document larger than mostDocument is what
// package study refuses too.
const (
	name         = "state="
	version      = "1."
	mostLink     = 1 << 20 // characters; chosen
	mostDocument = 1 << 20 // bytes
)

// Encode returns the fragment (without '#') that holds the document.
func Encode(document []byte) string {
	var b bytes.Buffer
	w, err := flate.NewWriter(&b, flate.BestCompression)
	if err == nil {
		if _, err = w.Write(document); err == nil {
			err = w.Close()
		}
	}
	if err != nil {
		panic("link: " + err.Error()) // a bytes.Buffer never fails
	}
	return name + version + base64.RawURLEncoding.EncodeToString(b.Bytes())
}

// Is tells whether a fragment, with or without '#', is meant to hold a state.
func Is(fragment string) bool { return strings.HasPrefix(strings.TrimPrefix(fragment, "#"), name) }

// In finds a link's fragment in a text such as a whole address or a saved link; empty if there is none.
func In(text string) string {
	i := strings.Index(text, "#"+name)
	if i < 0 {
		return ""
	}
	f := text[i+1:]
	if j := strings.IndexAny(f, " \t\r\n\"'<>"); j >= 0 {
		f = f[:j]
	}
	return f
}

// Decode returns the document in a fragment. An error says what is wrong with the link.
func Decode(fragment string) ([]byte, error) {
	if len(fragment) > mostLink {
		return nil, fmt.Errorf("link: %d characters, at most %d are read", len(fragment), mostLink)
	}
	packed, ok := strings.CutPrefix(strings.TrimPrefix(fragment, "#"), name)
	if !ok {
		return nil, errors.New("link: it holds no state: what follows # must begin with " + name)
	}
	v, packed, ok := strings.Cut(packed, ".")
	if !ok || v+"." != version {
		return nil, fmt.Errorf("link: version %.8q is unknown, this program reads version %s", v, strings.TrimSuffix(version, "."))
	}
	raw, err := base64.RawURLEncoding.DecodeString(strings.TrimRight(packed, "="))
	if err != nil {
		return nil, errors.New("link: damaged, perhaps cut off when it was copied; copy the whole link")
	}
	data, err := io.ReadAll(io.LimitReader(flate.NewReader(bytes.NewReader(raw)), mostDocument+1))
	if err != nil {
		return nil, errors.New("link: damaged, perhaps cut off when it was copied; copy the whole link")
	}
	if len(data) > mostDocument {
		return nil, fmt.Errorf("link: it unpacks to more than %d bytes", mostDocument)
	}
	return data, nil
}
