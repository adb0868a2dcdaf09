package command

import "errors"

// serveCmd is not in the page, which is what it would serve.
type serveCmd struct{}

func (serveCmd) Run(*Streams) error { return errors.New("the page cannot serve itself") }
