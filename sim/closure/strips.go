package closure

// PressedStrips is the section model on the one contact problem with a closed form (physics.md D5): two bulged
// inextensible strips, each of length 2·lambda over a span of 2, pressed together at the distance g from their plane.
// Lengths are shares of the half span. It returns the arc's half angle (radians), its radius and the half width of the
// contact; ok is false when the section has no solution. The strips are taken so large (half span 1 m) that the
// roundings of contact and tip (constants.go) vanish.
func PressedStrips(lambda, g float64) (angle, radius, contact float64, ok bool) {
	const a, pressure = 1000.0, 0.01
	var p system
	p.resize(1)
	p.spacing, p.pressure = 1, pressure
	for k, sg := range side {
		p.sec[0].leaf[k] = leafletIn{a: Point{-sg * g * a, a}, p: Point{0, -a}, length: lambda * a, chord: a, bulge: 1}
	}
	p.x[0] = vec3{0, 0.6 * a, 0.6 * a}
	if _, ok := p.newton(200); !ok {
		return 0, 0, 0, false
	}
	o := &p.out[0]
	return 2 * o.leaf[0].t, o.leaf[0].tens / pressure / a, p.x[0][1] / a, true
}
