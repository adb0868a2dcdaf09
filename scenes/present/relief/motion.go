package relief

// Opening is how far the leaflets are open, 0 to 1, at a share of the beat from the start of systole. The course is
// chosen: closed in systole, wide in early filling, half closed between, wide again as the atrium contracts. The circulation's waves
// replace it where they are at hand.
func Opening(phase float64) float64 {
	phase -= float64(int(phase))
	course := [...][2]float64{{0, 0}, {0.40, 0}, {0.50, 1}, {0.58, 0.9}, {0.72, 0.45}, {0.82, 0.5}, {0.90, 0.85}, {1, 0}}
	for i := 1; i < len(course); i++ {
		a, b := course[i-1], course[i]
		if phase <= b[0] {
			t := (phase - a[0]) / (b[0] - a[0])
			t = t * t * (3 - 2*t)
			return a[1] + t*(b[1]-a[1])
		}
	}
	return 0
}

// Systole and Diastole are the phases in which the valve is held: the two solved states.
const (
	Systole  = 0.2
	Diastole = 0.5
)
