package command

import (
	"fmt"

	"annuloscope/assets/licence"
	"annuloscope/sim/valve"
)

type licencesCmd struct{}

// Run prints the licences of what the program carries.
func (licencesCmd) Run(s *Streams) error {
	_, err := fmt.Fprintf(s.Out, "%s\n%s\n", licence.Text, valve.Notice)
	return err
}
