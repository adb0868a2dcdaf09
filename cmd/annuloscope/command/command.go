// Package command is the command line: it reads flags and files, calls the packages that do the work, and chooses the
// exit code. Data goes to standard output, messages to standard error; after an error nothing is on standard output.
package command

import (
	"errors"
	"fmt"
	"io"
	"os"

	"annuloscope/sim/fault"
	"annuloscope/sim/valve"

	"github.com/alecthomas/kong"
)

// Exit codes of the program (README, "Exit codes").
const (
	Done         = 0
	Failed       = 1
	Usage        = 2
	BadCase      = 3
	NotConverged = 4
	NoDisplay    = 5
	Interrupted  = 130
)

// Streams are where a command reads and writes.
type Streams struct {
	In       io.Reader
	Out, Err io.Writer
}

// exit is an error that carries its exit code.
type exit struct {
	code int
	err  error
}

func (e *exit) Error() string { return e.err.Error() }
func (e *exit) Unwrap() error { return e.err }

func failWith(code int, format string, args ...any) error {
	return &exit{code, fmt.Errorf(format, args...)}
}

type line struct {
	Quiet bool `short:"q" help:"Say nothing on standard error but errors. The caution stays in the data itself."`

	Open       openCmd       `cmd:"" default:"withargs" help:"Open the window (or, without a display, do the main job in words)."`
	Cases      casesCmd      `cmd:"" help:"List the built-in invented patients."`
	Solve      solveCmd      `cmd:"" help:"Solve a case before and after its repairs."`
	Laboratory laboratoryCmd `cmd:"" help:"What a laboratory would read off a case, beside what is true in the model."`
	Serve      serveCmd      `cmd:"" help:"Answer with the same program as a page, on this machine only unless told otherwise."`
	Compare    compareCmd    `cmd:"" help:"Compare up to three plans of repair with the untreated valve, and say what differs and why."`
	Figure     figureCmd     `cmd:"" help:"Draw a case to a file; needs no display."`
	Film       filmCmd       `cmd:"" help:"Draw one beat, or a number being changed, as a GIF or numbered pictures."`
	Handout    handoutCmd    `cmd:"" help:"Write one page (PDF) about a case or a comparison."`
	Bench      benchCmd      `cmd:"" help:"Time from input to picture: median, 95th and 99th percentile."`
	Parameters parametersCmd `cmd:"" help:"List every number of a patient with unit, range, default and source."`
	Repairs    repairsCmd    `cmd:"" help:"List every repair with its parameters."`
	Glossary   glossaryCmd   `cmd:"" help:"Define every number of a report."`
	Sweep      sweepCmd      `cmd:"" help:"Solve a case many times with some of its numbers changed (plan, run, merge)."`
	Cohort     cohortCmd     `cmd:"" help:"Draw virtual patients from published figures, treat them all alike, and sum up."`
	Version    versionCmd    `cmd:"" help:"Print the version."`
	Licences   licencesCmd   `cmd:"" help:"Print the licences of the modules and fonts that the program carries."`
	Verify     verifyCmd     `cmd:"" help:"Run every check against outside answers and show the table."`
	Schema     schemaCmd     `cmd:"" help:"Print the JSON Schema of a case file."`
	Lesson     lessonCmd     `cmd:"" help:"Lessons: list, check, show, answers."`
	Import     importCmd     `cmd:"" help:"Make a case from measured curves: annulus, and sinus and artery if there are any."`
	Set        setCmd        `cmd:"" help:"Change numbers of a case file; its comments stay."`
	Followup   followupCmd   `cmd:"" help:"Follow a sinus band that shortens over weeks: annulus, leak and artery by day."`
	Trade      tradeCmd      `cmd:"" help:"Move the far anchor of a sinus band along the vein: what it gains and what it costs the artery."`
	Calibrate  calibrateCmd  `cmd:"" help:"Where the ring's stiffnesses come from: fit, predictions without tuning, sensitivity."`
	Mesh       meshCmd       `cmd:"" help:"Write a state of a case as meshes (VTP with fields, and STL)."`
}

// Run runs the command line and returns the exit code.
func Run(args []string, s Streams) int {
	var cli line
	out := &buffered{w: s.Out}
	code := -1
	parser, err := kong.New(&cli, kong.Name("annuloscope"), kong.Description(
		"An interactive model of the mitral annulus, leaflets, coronary sinus and circumflex artery.\n\n"+valve.Notice),
		kong.Writers(out, s.Err), kong.Exit(func(c int) { code = c; panic(quit{}) }), kong.UsageOnError())
	if err != nil {
		fmt.Fprintln(s.Err, "annuloscope:", err)
		return Failed
	}
	ctx, err := parse(parser, args)
	if code >= 0 { // help was asked for and given
		return finish(out, s, code)
	}
	if err != nil {
		fmt.Fprintln(s.Err, "annuloscope:", err)
		fmt.Fprintln(s.Err, "Try: annuloscope --help")
		return Usage
	}
	err = ctx.Run(&Streams{In: s.In, Out: out, Err: quietable(s.Err, cli.Quiet)})
	return finishError(out, s, err)
}

type quit struct{}

// parse turns kong's exit (after --help) into an ordinary return.
func parse(p *kong.Kong, args []string) (ctx *kong.Context, err error) {
	defer func() {
		if r := recover(); r != nil {
			if _, ok := r.(quit); !ok {
				panic(r)
			}
		}
	}()
	return p.Parse(args)
}

func finishError(out *buffered, s Streams, err error) int {
	if err == nil {
		return finish(out, s, Done)
	}
	code := Failed
	var e *exit
	var f *fault.Field
	switch {
	case errors.As(err, &e):
		code = e.code
	case errors.As(err, &f):
		code = BadCase
	}
	if code != NotConverged {
		out.data = nil
	}
	fmt.Fprintln(s.Err, "annuloscope:", err)
	return finish(out, s, code)
}

func finish(out *buffered, s Streams, code int) int {
	if err := out.flush(); err != nil && code == Done {
		fmt.Fprintln(s.Err, "annuloscope: writing the output:", err)
		return Failed
	}
	return code
}

// buffered holds standard output back until the command has succeeded; a streaming command calls flush itself.
type buffered struct {
	w    io.Writer
	data []byte
}

func (b *buffered) Write(p []byte) (int, error) {
	b.data = append(b.data, p...)
	return len(p), nil
}

func (b *buffered) flush() error {
	_, err := b.w.Write(b.data)
	b.data = nil
	return err
}

func quietable(w io.Writer, quiet bool) io.Writer {
	if quiet {
		return io.Discard
	}
	return w
}

// Main runs the program on the process's own streams.
func Main() int { return Run(os.Args[1:], Streams{os.Stdin, os.Stdout, os.Stderr}) }
