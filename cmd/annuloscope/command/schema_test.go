package command_test

import (
	"encoding/json"
	"strings"
	"testing"
)

// The schema is JSON, says which draft it is, and carries the caution.
func TestSchema(t *testing.T) {
	code, out, errs := run("schema")
	var s map[string]any
	if err := json.Unmarshal([]byte(out), &s); code != 0 || err != nil || s["$schema"] != "https://json-schema.org/draft/2020-12/schema" {
		t.Fatalf("code %d, %v %s\n%.200s", code, err, errs, out)
	}
	if !strings.Contains(s["description"].(string), "Educational only") {
		t.Errorf("no caution in %v", s["description"])
	}
}
