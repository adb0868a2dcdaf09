package command

import (
	"context"
	"errors"
	"os"
	"os/signal"
	"syscall"

	"annuloscope/scenes/page"
)

type serveCmd struct {
	Addr   string `help:"Address and port to answer at; port 0 takes a free one." default:"127.0.0.1:8080"`
	Frames string `help:"Which pages may show this one in a frame: none, self, any, or origins." default:"none"`
}

func (c *serveCmd) Run(s *Streams) error {
	frames, err := page.ParseFrames(c.Frames)
	if err != nil {
		return &exit{Usage, err}
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	site, err := page.Load(ctx, s.Err)
	if err != nil {
		return interrupted(ctx, err)
	}
	return interrupted(ctx, page.Serve(ctx, c.Addr, page.Handler(site, frames), s.Err))
}

// interrupted gives the exit code of an interrupt where that is why a command ended.
func interrupted(ctx context.Context, err error) error {
	if ctx.Err() != nil {
		return &exit{Interrupted, errors.New("interrupted")}
	}
	return err
}
