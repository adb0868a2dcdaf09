package gallery

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"math"

	"annuloscope/scenes/present/desk"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/figure"
	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/theme"
)

// Stages of a job, as words: figure.stage.NAME.
const (
	Solving = "solving"
	Drawing = "drawing"
	Packing = "packing"
)

// Job makes one file in slices. Use Gallery.Start.
type Job struct {
	Order Order
	Stage string // what it is at
	Done  int    // steps of the stage done …
	Total int    // … of so many

	g     *Gallery
	steps []func() (more bool, err error)
	out   bytes.Buffer
	err   error
}

// Start begins a job. The gallery belongs to it until it is done.
func (g *Gallery) Start(o Order) (*Job, error) {
	if err := o.Check(); err != nil {
		return nil, err
	}
	j := &Job{Order: o.withDefaults(), g: g, Stage: Solving, Total: 1}
	j.then(j.settle, j.work)
	switch o.Format {
	case PNG, SVG:
		j.picture()
	case GIF, ZIP:
		if err := j.film(); err != nil {
			return nil, err
		}
	case PDF:
		g.d.U.T = theme.Projector() // white, for paper
		j.handout()
	}
	return j, nil
}

func (j *Job) then(steps ...func() (bool, error)) { j.steps = append(j.steps, steps...) }

// Step does a little and tells whether the job is done. Where an answer is still being computed it does nothing.
func (j *Job) Step() (done bool) {
	if len(j.steps) == 0 {
		return true
	}
	more, err := j.steps[0]()
	if err != nil {
		j.err, j.steps = err, nil
		return true
	}
	if !more {
		j.steps = j.steps[1:]
	}
	return len(j.steps) == 0
}

// Result is the finished file, or why there is none.
func (j *Job) Result() (name string, data []byte, err error) {
	if len(j.steps) > 0 {
		return "", nil, errors.New("gallery: the file is not finished")
	}
	if j.err != nil {
		return "", nil, j.err
	}
	return j.Order.Name(j.g.d.S.Case.Name), j.out.Bytes(), nil
}

// say is a step of its own that names the stage, so that the person reads it before a longer step begins.
func (j *Job) say(stage string, total int) func() (bool, error) {
	return func() (bool, error) {
		j.at(stage, 0, total)
		return false, nil
	}
}

func (j *Job) at(stage string, done, total int) { j.Stage, j.Done, j.Total = stage, done, total }

// settle waits for the report.
func (j *Job) settle() (bool, error) {
	s := j.g.d.S
	s.Poll()
	if s.Updating() || s.Settling() {
		return true, nil
	}
	if s.Failure != nil {
		return false, s.Failure
	}
	j.g.d.Hold(j.g.d.V.Mode)
	return false, nil
}

// work solves what else the figure needs.
func (j *Job) work() (bool, error) {
	return j.g.Work(j.Order.What), nil
}

// picture draws, paints and encodes, each a step of its own.
func (j *Job) picture() {
	var l *draw.List
	var st figure.Stamp
	var m *image.RGBA
	j.then(j.say(Drawing, 1), func() (bool, error) {
		l = j.Order.Screen
		if j.Order.What != Screen {
			l = new(draw.List)
			j.g.Draw(l, j.Order.What, j.Order.Width, j.Order.Height)
		}
		st = j.g.Stamp(j.Order.What)
		return false, nil
	})
	if j.Order.Format == SVG {
		j.then(func() (bool, error) { return false, figure.SVG(&j.out, l, st) })
		return
	}
	j.then(func() (_ bool, err error) {
		m, err = figure.Paint(l, st, j.Order.options())
		return false, err
	}, j.say(Packing, 1), func() (bool, error) { return false, figure.Encode(&j.out, m, st) })
}

// film adds the frames and packs them.
func (j *Job) film() error {
	g, o := j.g, &j.Order
	g.film = true
	knob, known := g.d.S.Knob(o.Knob)
	if o.Knob != "" && !known {
		return fmt.Errorf("gallery: no number %q to change", o.Knob)
	}
	if o.Knob != "" && !(o.From >= knob.Min && o.From <= knob.Max && o.To >= knob.Min && o.To <= knob.Max && o.From != o.To) {
		return fmt.Errorf("gallery: %s from %g to %g; allowed are two different values from %g to %g %s", o.Knob, o.From, o.To, knob.Min, knob.Max, knob.Unit)
	}
	var film *figure.Film
	var archive *figure.Archive
	i, asked := 0, false
	j.then(func() (bool, error) { // the stamp needs the solved report
		st := moving(g.Stamp(o.What), *o, knob)
		if o.Hundredths == 0 {
			o.Hundredths = j.pace()
		}
		var err error
		if o.Format == GIF {
			film, err = figure.NewFilm(o.Hundredths, st, o.options())
		} else {
			archive, err = figure.NewArchive("frame", o.Frames, st, o.options())
		}
		return false, err
	}, func() (bool, error) {
		j.at(Drawing, i, o.Frames)
		if o.Knob == "" {
			g.d.V.Mode, g.d.V.Phase = desk.Beat, float64(i)/float64(o.Frames)
		} else if ready, err := j.change(knob, i, &asked); err != nil || !ready {
			return true, err
		}
		l := new(draw.List)
		g.Draw(l, o.What, o.Width, o.Height)
		var err error
		if film != nil {
			err = film.Add(l)
		} else {
			err = archive.Add(l)
		}
		i, asked = i+1, false
		j.Done = i
		return i < o.Frames, err
	})
	packed := 0
	j.then(func() (bool, error) {
		if archive != nil {
			return false, archive.Write(&j.out)
		}
		j.at(Packing, packed, o.Frames)
		packed++
		if more, err := film.Pack(); more || err != nil {
			return true, err
		}
		return false, film.Write(&j.out)
	})
	return nil
}

// change turns the number to its value in frame i and tells whether the answer is there.
func (j *Job) change(k study.Knob, i int, asked *bool) (ready bool, err error) {
	o, s := &j.Order, j.g.d.S
	if !*asked {
		v := o.From + (o.To-o.From)*float64(i)/float64(o.Frames-1)
		if k.Step > 0 && k.Step >= 1 { // whole steps where the number has no smaller ones
			v = math.Round(v/k.Step) * k.Step
		}
		if err := s.Turn(o.Knob, v, i > 0); err != nil {
			return false, err
		}
		*asked = true
	}
	s.Poll()
	if s.Updating() || s.Settling() {
		return false, nil
	}
	return true, s.Failure
}

// pace is how long a frame shows: the beat at its own rate, a sweep in three seconds; at least 2/100 s, since many viewers
// show shorter frames slowly (common practice, no source).
func (j *Job) pace() int {
	seconds := 3.0
	if j.Order.Knob == "" {
		seconds = 60 / j.g.d.S.Case.Patient.Heart.RatePerMin / j.g.d.V.Speed
	}
	return max(2, int(math.Round(100*seconds/float64(j.Order.Frames))))
}

// handout draws the pictures one at a time and writes the page.
func (j *Job) handout() {
	var h *figure.Handout
	j.then(func() (bool, error) {
		j.at(Drawing, 0, 4)
		h = j.g.Handout(j.Order.What)
		return false, nil
	}, func() (bool, error) {
		j.Done++
		return h.PaintNext()
	}, j.say(Packing, 1), func() (bool, error) {
		return false, figure.PDF(&j.out, h)
	})
}
