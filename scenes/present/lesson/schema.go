package lesson

import (
	"encoding/json"

	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
)

// SchemaID names the schema of a lesson's front matter; it is a name, not an address that answers.
const SchemaID = "urn:annuloscope:lesson:1"

type object = map[string]any

// Schema returns the JSON Schema (draft 2020-12) of a lesson's front matter, of an original or of a translation. What
// depends on several keys (plans named, units, one right choice) only Parse and Check can say.
func Schema() []byte {
	text := func(about string) object {
		return object{"type": "string", "minLength": 1, "maxLength": mostText, "description": about}
	}
	number := func(lo, hi float64, about string) object {
		return object{"type": "number", "minimum": lo, "maximum": hi, "description": about}
	}
	closed := func(about string, required []string, properties object) object {
		o := object{"type": "object", "properties": properties, "additionalProperties": false, "description": about}
		if len(required) > 0 {
			o["required"] = required
		}
		return o
	}
	array := func(items any, about string) object {
		return object{"type": "array", "items": items, "description": about}
	}
	set := object{}
	for _, q := range anatomy.Parameters() {
		set[q.Path] = number(q.Min, q.Max, q.Meaning+"; "+q.Unit)
	}
	for _, c := range anatomy.Choices() {
		set[c.Path] = object{"enum": c.Options, "description": c.Meaning}
	}
	var patient object
	if err := json.Unmarshal(casefile.Schema(), &patient); err != nil {
		panic("lesson: " + err.Error())
	}
	delete(patient, "$id")
	delete(patient, "$schema")
	plan := object{"anyOf": []any{
		closed("a case to be solved", []string{"title", "case"}, object{"title": text("as shown over its numbers"),
			"case":    object{"anyOf": []any{object{"type": "string", "description": "a built-in case"}, patient}},
			"set":     closed("numbers of the patient that are changed", nil, set),
			"repairs": array(object{"type": "string", "pattern": "^[a-z-]+(,[a-z_]+=[-0-9.]+)*$"}, "as on the command line: kind,key=value,…")}),
		text("in a translation: the title alone")}}
	choice := closed("one answer", []string{"text"}, object{"text": text("read before the model answers: no gaps"),
		"when": text("a condition; exactly one choice must be right; left out in a translation"), "because": text("shown to whoever took it, may have gaps")})
	guess := closed("a number to guess", []string{"of", "unit", "from", "to", "within"}, object{"of": text("an expression"), "unit": text("its unit"),
		"from": number(-1e6, 1e6, "least"), "to": number(-1e6, 1e6, "greatest"), "step": number(1e-3, 1e6, "step of the slider"),
		"decimals": object{"type": "integer", "minimum": 0, "maximum": mostDecimals}, "within": number(0, 1e6, "how far off still counts as right")})
	table := func() object {
		return object{"plans": array(object{"type": "string"}, "names of plans"), "quantities": array(object{"type": "string"}, "paths of the glossary"),
			"chart": text("a quantity drawn as bars"), "picture": text("a plan drawn before and after"),
			"phase": object{"enum": []string{"systole", "diastole"}}, "view": object{"enum": []string{"atrium", "ventricle", "side", "axis"}}}
	}
	after := table()
	after["choices"], after["number"] = array(choice, "2 to 6 answers"), guess
	root := closed("The front matter of a lesson. Educational only: not for diagnosis or treatment planning.", []string{"annuloscope_lesson", "name", "language", "title", "summary"}, object{
		"annuloscope_lesson": object{"const": Version, "description": "version of this form"},
		"translates":         object{"type": "boolean", "default": false, "description": "true: texts only; everything computed is the original's"},
		"name":               object{"type": "string", "pattern": nameForm.String(), "description": "the same in every language"},
		"language":           object{"enum": []string{"en", "de"}},
		"order":              object{"type": "integer", "minimum": 1, "maximum": 999, "description": "place in the list"},
		"title":              text("title of the lesson"),
		"summary":            text("one or two sentences for the list"),
		"minutes":            object{"type": "integer", "minimum": 1, "maximum": 60},
		"sources":            object{"type": "object", "additionalProperties": text("citation"), "description": "key: citation"},
		"plans":              object{"type": "object", "propertyNames": object{"pattern": planForm.String()}, "additionalProperties": plan, "description": "what is computed"},
		"expect":             array(text("a condition"), "what the text says about the model"),
		"prediction":         closed("asked before the reveal", nil, object{"choices": array(choice, "2 to 6 answers"), "number": guess}),
		"computation":        closed("shown at the reveal", nil, table()),
		"evidence": array(closed("a published result beside the model's", nil, object{"finding": text("what was found"), "citation": text("author, journal, year"),
			"source": text("sheet and row"), "subjects": text("how many"), "followed": text("how many were followed to the end"), "published": number(-1e6, 1e6, "the published number"),
			"spread": text("as published"), "unit": text("of the number"), "decimals": object{"type": "integer", "minimum": 0, "maximum": mostDecimals},
			"model": text("an expression"), "note": text("why the two may differ")}), "evidence cards"),
		"explore": closed("free exploration", nil, object{"plan": text("whose case is opened"), "scene": object{"enum": []string{"valve", "strip", "beat"}},
			"controls": array(object{"type": "string"}, "ids of controls: anatomy/PATH, group/NAME, repair/KIND/KEY")}),
		"transfer": closed("the transfer question", nil, after),
	})
	root["$schema"], root["$id"], root["title"] = "https://json-schema.org/draft/2020-12/schema", SchemaID, "Lesson of Annuloscope, front matter"
	out, err := json.MarshalIndent(root, "", "  ")
	if err != nil {
		panic("lesson: " + err.Error()) // words and numbers only
	}
	return append(out, '\n')
}
