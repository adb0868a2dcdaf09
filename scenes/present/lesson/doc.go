// Package lesson reads, checks and runs lessons. A lesson is one Markdown file with a front matter in YAML; what each key
// and section means is told in assets/lessons/README.md, and Schema gives the front matter as JSON Schema.
//
// A lesson stores no answer and no number of the model. Its text has placeholders, its choices have conditions, its
// claims are expectations; all of them are expressions over the reports of the lesson's plans (expression.go), so that
// they are computed when the lesson runs, and Check fails, with line and column, when the text and the model no longer
// agree.
//
// The package is pure: a function that reads cases by name is handed in, plans are solved by whoever runs the lesson.
package lesson
