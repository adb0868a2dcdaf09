package repair

import "annuloscope/sim/anatomy"

// Kind names a repair.
type Kind string

// The repairs.
const (
	SinusBand     Kind = "sinus-band"
	SinusRods     Kind = "sinus-rods"
	EdgeClip      Kind = "edge-clip"
	EdgeStitch    Kind = "edge-stitch"
	PosteriorBand Kind = "posterior-band"
	FullRing      Kind = "full-ring"
	Papillary     Kind = "papillary-relocation"
	Ventricle     Kind = "ventricular-reshaping"
	Unloading     Kind = "unloading"
)

// Parameter describes one number of a repair.
type Parameter struct {
	Key                     string
	Unit                    string
	Min, Max, Default, Step float64
	Meaning                 string
}

// Spec describes one kind of repair.
type Spec struct {
	Kind       Kind
	Title      string
	Meaning    string
	ClosesOff  string // what it makes harder later, in words with its source
	Source     string
	Parameters []Parameter
}

const common = "common practice, no source"

// Specs lists every kind, in the order in which people meet them.
func Specs() []Spec { return append([]Spec(nil), specs...) }

// specs is the table of Specs; nothing changes it.
var specs = []Spec{
	{SinusBand, "Sinus band", "Two anchors in the coronary sinus and great cardiac vein with a tether between them that is shortened.",
		"The vein may no longer take a pacing lead, and no second device. Leaflets and annulus stay untouched: clip, ring, surgery or a catheter valve remain possible.", common, []Parameter{
			{"proximal_mm", "mm", 0, 100, 12, 1, "Station of the anchor nearer the mouth"},
			{"distal_mm", "mm", 20, 150, 84, 1, "Station of the far anchor"},
			{"shortening_mm", "mm", 0, 40, 20, 0.5, "How much the tether is shortened"},
			{"grip_n", "N", 0.2, 20, 8, 0.5, "Pull at which an anchor begins to slip"},
			{"slack_mm", "mm", 0, 15, 0, 0.5, "Tether length taken up before it pulls"},
			{"radial_n_per_mm", "N/mm", 0, 0.4, 0.04, 0.01, "Outward push of an anchor on the vein per mm of its length"},
			{"delay_days", "d", 0, 120, 0, 1, "Half-time of a delayed shortening (0: at once)"},
			{"day", "d", 0, 365, 365, 1, "Days since placement"},
			{"separated", "1", 0, 1, 0, 1, "1: the tether has separated and pulls no more"},
		}},
	{SinusRods, "Sinus rods", "Straightening rods in the coronary sinus: the ends press outward, the middle forward.",
		"The vein takes no pacing lead while the rods stay. They can be taken out; everything else remains possible.", common, []Parameter{
			{"proximal_mm", "mm", 0, 100, 12, 1, "Station of the end nearer the mouth"},
			{"distal_mm", "mm", 20, 150, 80, 1, "Station of the far end"},
			{"count", "1", 1, 3, 2, 1, "How many rods"},
			{"stiffness_n_mm2", "N·mm²", 20, 2000, 300, 20, "Bending stiffness of one rod"},
			{"trial", "1", 0, 1, 0, 1, "1: on trial: leak and artery are told with and without the rods, then keep them or withdraw them"},
		}},
	{EdgeClip, "Edge clip", "Holds the two leaflet edges together over a width: one opening becomes two.",
		"Every clip costs opening, so a further clip may narrow the valve too much. A surgeon later often replaces instead of repairing. A catheter valve needs the bond cut or detached first. A band in the vein or on the annulus may still be added.", common, []Parameter{
			{"position", "1", -0.85, 0.85, 0, 0.01, "Where along the line: −1 anterolateral, +1 posteromedial"},
			{"width_mm", "mm", 2, 10, 5, 0.5, "Width held"},
			{"reach_mm", "mm", 1, 15, 8, 0.5, "Widest gap that can be grasped"},
			{"leaflet_held_mm", "mm", 0, 12, 6, 0.5, "Length of leaflet held (below 5: poor grip)"},
			{"detached", "1", 0, 1, 0, 1, "1: holds one leaflet only"},
		}},
	{EdgeStitch, "Edge stitch", "A surgical stitch joining the two edges at one place.",
		"A clip beside it finds less edge, and a catheter valve meets two openings. Without a ring the annulus goes on widening and the stitch carries the pull: see bond tension and remaining width of the annulus.", common, []Parameter{
			{"position", "1", -0.85, 0.85, 0, 0.01, "Where along the line"},
			{"width_mm", "mm", 1, 8, 3, 0.5, "Width joined"},
		}},
	{PosteriorBand, "Posterior band", "A band fixed on the posterior annulus itself (direct annuloplasty), shortened.",
		"A band in the vein adds little afterwards. A catheter valve later finds no closed ring to hold in. Clip and surgery remain possible.", common, []Parameter{
			{"downsizing_pct", "%", 0, 40, 15, 1, "Shortening of the posterior annulus"},
		}},
	{FullRing, "Full ring", "A surgical ring of a given size: the reference for what an annuloplasty can do.",
		"The ring bounds the opening for good: a clip in a small ring may narrow it too much, and a band in the vein does nothing more. A catheter valve can be placed in the ring.", common, []Parameter{
			{"size_mm", "mm", 22, 42, 30, 1, "Commissural inner width of the ring"},
			{"stiffness", "1", 0.05, 1, 1, 0.05, "Share of a rigid ring's stiffness"},
		}},
	{Papillary, "Papillary relocation", "Draws a papillary muscle tip back towards the annulus.",
		"It needs an operation, and a second one at the muscles is harder. The annulus is untouched: band, ring and clip remain possible.", common, []Parameter{
			{"anterolateral_mm", "mm", 0, 10, 3, 0.5, "How far the anterolateral tip is drawn back"},
			{"posteromedial_mm", "mm", 0, 10, 3, 0.5, "How far the posteromedial tip is drawn back"},
		}},
	{Ventricle, "Ventricular reshaping", "Makes the ventricle's base smaller: papillary muscles nearer, annulus support smaller.",
		"It needs an operation or an implant in the ventricle, which may be in the way of later ones. The valve is untouched: band, ring and clip remain possible.", common, []Parameter{
			{"reduction_pct", "%", 0, 30, 10, 1, "Reduction of the ventricle's width"},
		}},
	{Unloading, "Unloading", "Medication or resynchronisation: a smaller ventricle and lower resistance.",
		"Nothing. It comes before any device, and what it changes must be waited for before a device is chosen.", common, []Parameter{
			{"resistance_pct", "%", 0, 40, 15, 1, "Fall of the body's resistance"},
			{"volume_pct", "%", 0, 30, 8, 1, "Fall of the ventricle's volume"},
			{"papillary_mm", "mm", 0, 4, 0.8, 0.1, "How far the papillary muscles move back"},
		}},
}

// Find returns the spec of a kind.
func Find(k Kind) (Spec, bool) {
	for _, s := range specs {
		if s.Kind == k {
			return s, true
		}
	}
	return Spec{}, false
}

func names() []string {
	var n []string
	for _, s := range specs {
		n = append(n, string(s.Kind))
	}
	return n
}

var nearest = anatomy.Nearest
