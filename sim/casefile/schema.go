package casefile

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"

	"annuloscope/sim/anatomy"
	"annuloscope/sim/repair"
)

// SchemaID names the schema of case files; it is a name, not an address that answers.
const SchemaID = "urn:annuloscope:case:1"

// object is a JSON object of the schema.
type object = map[string]any

// Schema returns the JSON Schema (draft 2020-12) of a case file, built from the tables of anatomy and repair: every key,
// unit, range, default and meaning, and nothing else allowed. It cannot say what depends on several values (anchors in
// order and on the vein, measurements stated together, one repair of a kind); Decode checks that.
func Schema() []byte {
	root := object{
		"$schema":     "https://json-schema.org/draft/2020-12/schema",
		"$id":         SchemaID,
		"title":       "Case of Annuloscope",
		"description": "A patient and the ordered repairs done to it. Educational only: not for diagnosis or treatment planning. What is left out keeps the default of the invented normal adult.",
	}
	top := section(root)
	root["required"] = []string{"annuloscope"}
	top["annuloscope"] = object{"description": "version of this form", "type": "integer", "minimum": 1, "maximum": Version}
	// The decoder counts bytes, a schema counts characters: a long text in other letters passes the schema alone.
	top["name"] = object{"type": "string", "pattern": nameForm.String()}
	top["title"] = object{"type": "string", "maxLength": maxTextBytes, "pattern": textForm}
	top["note"] = object{"type": "string", "maxLength": maxTextBytes, "pattern": textForm}
	top["imported"] = object{"type": "boolean", "default": false, "description": "measured geometry: no grades, no selection rules"}
	for _, q := range anatomy.Choices() {
		place(root, q.Path, object{"enum": q.Options, "default": q.Default, "description": q.Meaning + " (" + q.Source + ")"})
	}
	for _, q := range anatomy.Parameters() {
		place(root, q.Path, quantity(q.Unit, q.Min, q.Max, q.Default, q.Meaning+" ("+q.Source+")"))
	}
	together := []string{"depth_mm", "contact_mm", "effective_orifice_cm2"} // Patient.Validate
	depend := object{}
	for _, key := range together {
		depend[key] = together
	}
	top["measured"].(object)["dependentRequired"] = depend
	var kinds []object
	for _, spec := range repair.Specs() {
		kinds = append(kinds, step(spec))
	}
	top["repairs"] = object{"type": "array", "maxItems": maxSteps, "items": object{"oneOf": kinds}, "description": "in the order in which they are done"}
	out, err := json.MarshalIndent(root, "", "  ")
	if err != nil {
		panic("casefile: " + err.Error()) // the tables hold only numbers and words
	}
	return append(out, '\n')
}

// The decoder's limits, which the schema repeats (tests compare the two).
const (
	maxTextBytes = 400
	maxSteps     = 12
	textForm     = `^[^\x00-\x09\x0b-\x1f]*$` // no control character but the end of a line
)

func quantity(unit string, low, high, def float64, meaning string) object {
	o := object{"type": "number", "minimum": low, "maximum": high, "description": fmt.Sprintf("%s; %s", meaning, unit)}
	if !math.IsNaN(def) {
		o["default"] = def
	}
	return o
}

// section makes o an object that allows only its properties, and returns those.
func section(o object) object {
	if p, ok := o["properties"].(object); ok {
		return p
	}
	p := object{}
	o["type"], o["properties"], o["additionalProperties"] = "object", p, false
	return p
}

// place puts a schema at a path, making the sections between.
func place(o object, path string, leaf object) {
	key, rest, more := strings.Cut(path, ".")
	p := section(o)
	if !more {
		p[key] = leaf
		return
	}
	child, ok := p[key].(object)
	if !ok {
		child = object{}
		p[key] = child
	}
	place(child, rest, leaf)
}

func step(spec repair.Spec) object {
	o := object{"title": spec.Title, "description": spec.Meaning + " (" + spec.Source + ")", "required": []string{"kind"}}
	p := section(o)
	p["kind"] = object{"const": string(spec.Kind)}
	for _, q := range spec.Parameters {
		v := quantity(q.Unit, q.Min, q.Max, q.Default, q.Meaning)
		if q.Whole() {
			v["multipleOf"] = 1
		}
		p[q.Key] = v
	}
	return o
}
