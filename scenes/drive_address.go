package scenes

import (
	"fmt"
	"strconv"
	"strings"

	"annuloscope/scenes/pace"
)

// Driven is what a page that drove itself tells: the times, or why there are none.
type Driven struct {
	pace.Summaries
	Error string `json:"error,omitempty"`
}

// mostMoves is how often an address may have a control moved. Chosen, as the bench command has it.
const mostMoves = 10000

// Address writes what a page's address asks for after "?bench=": ID,MOVES and, for each choice, CONTROL=VALUE.
func (d *Drive) Address() string {
	parts := []string{d.ID, strconv.Itoa(d.Moves)}
	for _, c := range d.Choose {
		parts = append(parts, c.ID+"="+c.Value)
	}
	return strings.Join(parts, ",")
}

// ParseDrive reads what Address writes. An error names the part, its value, what is allowed, and an example.
func ParseDrive(text string) (*Drive, error) {
	const example = "; write for example bench=repair/sinus-band/shortening_mm,120,engine=1"
	parts := strings.Split(text, ",")
	if len(parts) < 2 || parts[0] == "" {
		return nil, fmt.Errorf("bench=%s: allowed: the id of a slider and the number of moves, parted by a comma%s", text, example)
	}
	n, err := strconv.Atoi(parts[1])
	if err != nil || n < 1 || n > mostMoves {
		return nil, fmt.Errorf("bench, moves: %q; allowed: a whole number from 1 to %d%s", parts[1], mostMoves, example)
	}
	d := &Drive{ID: parts[0], Moves: n}
	for _, p := range parts[2:] {
		id, value, ok := strings.Cut(p, "=")
		if !ok || id == "" || value == "" {
			return nil, fmt.Errorf("bench, choice: %q; allowed: CONTROL=VALUE%s", p, example)
		}
		d.Choose = append(d.Choose, Choice{id, value})
	}
	return d, nil
}
