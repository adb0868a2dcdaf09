package command

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"annuloscope/assets"
	"annuloscope/scenes/present/lesson"
	"annuloscope/scenes/present/plain"
	"annuloscope/scenes/present/words"
	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/fault"
	"annuloscope/sim/valve"
)

type lessonCmd struct {
	List    lessonListCmd    `cmd:"" default:"1" help:"List the built-in lessons."`
	Check   lessonCheckCmd   `cmd:"" help:"Check lesson files: form, claims against the model, one right answer each. Without a file, every built-in lesson."`
	Show    lessonShowCmd    `cmd:"" help:"Print a lesson as text with its computed numbers, answers included."`
	Answers lessonAnswersCmd `cmd:"" help:"Print the answers and what each claim of a lesson is worth now."`
	Schema  lessonSchemaCmd  `cmd:"" help:"Print the JSON Schema of a lesson's front matter."`
}

// lessonSource is one lesson file and where it comes from.
type lessonSource struct {
	name string
	data []byte
}

// lessonSources reads the files named, or all built-in ones.
func lessonSources(files []string) ([]lessonSource, error) {
	var out []lessonSource
	if len(files) == 0 {
		for _, n := range assets.LessonFiles() {
			data, err := assets.Lessons.ReadFile("lessons/" + n)
			if err != nil {
				return nil, err
			}
			out = append(out, lessonSource{n, data})
		}
		return out, nil
	}
	for _, n := range files {
		data, err := readFile(n, lesson.MaxBytes+1)
		if err != nil {
			return nil, failWith(Failed, "reading %s: %w", n, err)
		}
		out = append(out, lessonSource{n, data})
	}
	return out, nil
}

// Lessons reads the built-in lessons and the files given, translations joined to their originals, in their order.
func Lessons(files ...string) ([]*lesson.Lesson, error) {
	builtIn := assets.LessonFiles()
	names := append(slices.Clone(builtIn), files...)
	return lesson.ReadAll(names, func(n string) ([]byte, error) {
		if slices.Contains(builtIn, n) && !slices.Contains(files, n) {
			return assets.Lessons.ReadFile("lessons/" + n)
		}
		return readFile(n, lesson.MaxBytes+1)
	}, Load)
}

func findLesson(name string, language string) (*lesson.Lesson, error) {
	var names []string
	if strings.HasSuffix(name, ".md") {
		sources, err := lessonSources([]string{name})
		if err != nil {
			return nil, err
		}
		l, err := lesson.Parse(sources[0].data, Load)
		if err != nil {
			return nil, named(name, err)
		}
		return lesson.Joined(l, builtInOriginal)
	}
	all, err := Lessons()
	if err != nil {
		return nil, err
	}
	var found *lesson.Lesson
	for _, l := range all {
		if l.Name == name && (found == nil || l.Language == language) {
			found = l
		}
		names = append(names, l.Name)
	}
	if found == nil {
		return nil, &fault.Field{Path: "lesson", Value: name, Problem: "no such lesson", Allowed: "a lesson's name (see lesson list) or a file ending in .md",
			Fix: "did you mean " + anatomy.Nearest(name, names) + "?"}
	}
	return found, nil
}

// builtInOriginal finds the original that a translation names.
func builtInOriginal(name string) (*lesson.Lesson, bool) {
	all, err := Lessons()
	if err != nil {
		return nil, false
	}
	for _, l := range all {
		if l.Name == name && l.Language == "en" {
			return l, true
		}
	}
	return nil, false
}

// solver solves each case once by the engine given, however many lessons use it.
func solver(f engineFlag) lesson.Solver {
	done, s := map[string]valve.Report{}, valve.NewSolver()
	return func(c casefile.Case) (valve.Report, error) {
		key := casefile.Hash(c)
		if r, ok := done[key]; ok {
			return r, nil
		}
		r, err := s.Solve(c, f.options(valve.Options{Circulation: true, Attribution: true}))
		if err == nil {
			done[key] = r
		}
		return r, err
	}
}

func named(file string, err error) error {
	var e lesson.Errors
	if !errors.As(err, &e) {
		return err
	}
	var lines []string
	for _, f := range e {
		lines = append(lines, file+": "+f.Error())
	}
	return &exit{BadCase, errors.New(strings.Join(lines, "\nannuloscope: "))}
}

type lessonListCmd struct{}

func (lessonListCmd) Run(s *Streams) error {
	all, err := Lessons()
	if err != nil {
		return err
	}
	for _, l := range all {
		if l.Language == "en" {
			fmt.Fprintf(s.Out, "%-22s %s (%d min)\n%-22s %s\n", l.Name, l.Title, l.Minutes, "", l.Summary)
		}
	}
	fmt.Fprintln(s.Out, "\n"+valve.Notice)
	return nil
}

type lessonCheckCmd struct {
	engineFlag
	Files []string `arg:"" optional:"" help:"Lesson files; all built-in ones when left out." name:"file"`
}

func (c *lessonCheckCmd) Run(s *Streams) error {
	sources, err := lessonSources(c.Files)
	if err != nil {
		return err
	}
	solve := solver(c.engineFlag)
	var bad []string
	var by []string
	for _, src := range sources {
		n, err := checkLesson(src, func(cs casefile.Case) (valve.Report, error) {
			r, err := solve(cs)
			by = append(by, r.Provenance.Engine)
			return r, err
		})
		if err != nil {
			bad = append(bad, named(src.name, err).Error())
			continue
		}
		fmt.Fprintf(s.Out, "%s: agrees with the model (%d plans)\n", src.name, n)
	}
	c.warnAny(s, by...)
	fmt.Fprintln(s.Out, "\n"+plain.Engines(c.name(), by...)+"\n"+valve.Notice)
	if len(bad) > 0 {
		return &exit{BadCase, errors.New(strings.Join(bad, "\nannuloscope: "))}
	}
	return nil
}

func checkLesson(src lessonSource, solve lesson.Solver) (plans int, err error) {
	l, err := lesson.Parse(src.data, Load)
	if err != nil {
		return 0, err
	}
	if l, err = lesson.Joined(l, builtInOriginal); err != nil {
		return 0, err
	}
	res, err := l.Solve(solve)
	if err != nil {
		return 0, err
	}
	return len(l.Plans), l.Check(res)
}

type lessonShowCmd struct {
	engineFlag
	Lesson   string `arg:"" help:"A built-in lesson's name, or a file."`
	Language string `default:"en" help:"en or de."`
}

func (c *lessonShowCmd) Run(s *Streams) error {
	l, res, by, err := solvedLesson(s, c.engineFlag, c.Lesson, c.Language)
	if err != nil {
		return err
	}
	fmt.Fprint(s.Out, l.Script(words.For(words.Language(c.Language)), res))
	fmt.Fprintln(s.Out, "\n"+by+"\n"+valve.Notice)
	return nil
}

type lessonAnswersCmd struct {
	engineFlag
	Lesson string `arg:"" help:"A built-in lesson's name, or a file."`
}

func (c *lessonAnswersCmd) Run(s *Streams) error {
	l, res, by, err := solvedLesson(s, c.engineFlag, c.Lesson, "en")
	if err != nil {
		return err
	}
	fmt.Fprint(s.Out, l.Answers(words.For(words.English), res))
	for _, line := range l.Claims(res) {
		fmt.Fprintln(s.Out, line)
	}
	fmt.Fprintln(s.Out, "\n"+by+"\n"+valve.Notice)
	return nil
}

// solvedLesson solves a lesson's plans and says by which engine.
func solvedLesson(s *Streams, f engineFlag, name, language string) (*lesson.Lesson, lesson.Results, string, error) {
	l, err := findLesson(name, language)
	if err != nil {
		return nil, nil, "", err
	}
	res, err := l.Solve(solver(f))
	if err != nil {
		return nil, nil, "", named(name, err)
	}
	var by []string
	for _, r := range res {
		by = append(by, r.Provenance.Engine)
	}
	f.warnAny(s, by...)
	return l, res, plain.Engines(f.name(), by...), nil
}

type lessonSchemaCmd struct{}

// Run prints the schema; the caution is in its description, so that the output stays JSON.
func (lessonSchemaCmd) Run(s *Streams) error {
	_, err := s.Out.Write(lesson.Schema())
	return err
}
