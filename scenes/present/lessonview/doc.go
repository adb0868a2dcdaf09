// Package lessonview is the scene of the lessons: the list of lessons with a person's progress, and one lesson page by
// page. A prediction is committed before the model's answer can be seen; then the lesson's plans are solved beside the
// screen and shown.
//
// Every piece of text, number and picture is a control with a name, so that the page's HTML side and a screen reader meet
// the whole lesson in its order. Progress holds which pages were seen and what was predicted, nothing about the person;
// it is handed to a keeper of its own and never shared with a link.
package lessonview
