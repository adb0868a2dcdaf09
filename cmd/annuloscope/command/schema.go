package command

import "annuloscope/sim/casefile"

type schemaCmd struct{}

// Run prints the JSON Schema of a case file; the caution is in its description, so that the output stays JSON.
func (schemaCmd) Run(s *Streams) error {
	_, err := s.Out.Write(casefile.Schema())
	return err
}
