package valve

// The engines that close and open the leaflets. SectionsEngine answers at once; ShellEngine is solved behind it and
// takes its place in the report (Options.Engine, Solver.Settle).
const (
	SectionsEngine = "sections"
	ShellEngine    = "shell"
)

// Engines compares the two engines where both ran. Everything is in the units of the quantities named.
type Engines struct {
	Status        string       `json:"status"` // settled, or why the sections' numbers stand
	Before        []Difference `json:"before"`
	After         []Difference `json:"after"`
	Rounds        int          `json:"rounds"`             // of ring and shell
	RingResidualN float64      `json:"ring_residual_n"`    // largest change of the clips' pull on a node in the last round
	ResidualMM    float64      `json:"residual_mm"`        // rms step of the shell's last iteration, the worst of all states
	FitDepthMM    float64      `json:"fit_depth_mm"`       // what the shell's own depth missed of the sections' at the baseline
	FitOverlapMM  float64      `json:"fit_overlap_mm"`     // likewise of the mean overlap; added since
	FitOpening    float64      `json:"fit_opening_factor"` // measured opening over the shell's own, a factor on its areas
	FitGrowth     float64      `json:"fit_growth"`         // shell's leaflet lengths over those that the sections imply
	SlotMM2       [2]float64   `json:"slot_mm2"`           // the shell's own slot before and after: its closest distances along the line
	ProjectedMM2  [2]float64   `json:"projected_gap_mm2"`  // and the hole seen from the atrium, which under-reads a flail
	ChordLoadN    [2]float64   `json:"chord_load_n"`       // all chords together
	PapillaryN    [2]float64   `json:"papillary_force_n"`  // larger pull on one muscle
	TensionNMM    [2]float64   `json:"mean_tension_n_mm"`  // mean in-plane tension of the closed leaflets
}

// Difference is one number by both engines.
type Difference struct {
	Path     string  `json:"quantity"`
	Sections float64 `json:"sections"`
	Shell    float64 `json:"shell"`
	Less     float64 `json:"shell_less_sections"`
}

// compared are the quantities that Engines shows.
var compared = []string{"coaptation.contact_mm.mean", "coaptation.depth_mm", "regurgitation.effective_orifice_cm2", "opening.anatomic_area_cm2"}

func differences(sections, shell *State) []Difference {
	var out []Difference
	for _, path := range compared {
		q, ok := FindQuantity(path)
		if !ok {
			panic("valve: no quantity " + path)
		}
		a, b := q.Of(sections), q.Of(shell)
		out = append(out, Difference{path, a, b, b - a})
	}
	return out
}
