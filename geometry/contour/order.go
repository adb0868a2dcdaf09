package contour

import (
	"fmt"
	"math"
	"sort"

	"annuloscope/geometry"
	"gonum.org/v1/gonum/spatial/r3"
)

// orderByAngle sorts closed contour points by their angle round the centre of their best-fit plane, counter-clockwise
// about its normal. It returns the order, the angles in that order, the mean radius and the widest angle without points.
func orderByAngle(points []r3.Vec) (order []int, angle []float64, radius, gapDeg float64) {
	plane := geometry.FitPlanePoints(points)
	x, y := plane.Axes(r3.Vec{X: 1})
	centre := plane.Origin
	order = make([]int, len(points))
	raw := make([]float64, len(points))
	// The mean of uneven points drifts to where they are dense; the centre of the polygon through them does not, but
	// needs their order first. Three rounds settle it.
	for range 3 {
		for i, p := range points {
			d := r3.Sub(p, centre)
			raw[i], order[i] = math.Atan2(r3.Dot(d, y), r3.Dot(d, x)), i
		}
		sort.SliceStable(order, func(i, j int) bool { return raw[order[i]] < raw[order[j]] })
		centre = polygonCentre(points, order)
	}
	angle = make([]float64, len(points))
	for i, k := range order {
		angle[i] = raw[k]
		radius += r3.Norm(r3.Sub(plane.Project(points[k]), plane.Project(centre))) / float64(len(points))
		if i > 0 {
			gapDeg = math.Max(gapDeg, (angle[i]-angle[i-1])*180/math.Pi)
		}
	}
	gapDeg = math.Max(gapDeg, (angle[0]+2*math.Pi-angle[len(angle)-1])*180/math.Pi)
	return order, angle, radius, gapDeg
}

// polygonCentre is the centre of mass of the closed polygon through the points in the given order.
func polygonCentre(points []r3.Vec, order []int) r3.Vec {
	var sum r3.Vec
	total := 0.0
	for i, k := range order {
		p, q := points[k], points[order[(i+1)%len(order)]]
		l := r3.Norm(r3.Sub(q, p))
		sum = r3.Add(sum, r3.Scale(l/2, r3.Add(p, q)))
		total += l
	}
	if total == 0 {
		return points[0]
	}
	return r3.Scale(1/total, sum)
}

// chain orders the points of an open curve along the longest path of their minimum spanning tree, and returns them with
// their position along it (mm) and their place in the order given. Points beside the path take the position where their branch leaves it. More than
// maxChainPoints are first averaged in cubic cells.
func chain(points []r3.Vec, radii []float64) (p []r3.Vec, r, at []float64, index []int) {
	if len(points) > maxChainPoints {
		points, radii = cellMeans(points, radii)
	}
	parent, order := spanningTree(points)
	edge := func(i int) float64 { return r3.Norm(r3.Sub(points[i], points[parent[i]])) }
	// Ends of the longest path: the farthest point from any point, then the farthest from that one.
	root := farthestInTree(parent, order, edge, order[0])
	end := farthestInTree(parent, order, edge, root)
	dist := treeDistances(parent, order, edge, root)
	fromEnd := treeDistances(parent, order, edge, end)
	length := dist[end]
	along := make([]float64, len(points))
	index = make([]int, len(points))
	for i := range points { // where the branch to i leaves the path from root to end
		along[i] = (dist[i] - fromEnd[i] + length) / 2
		index[i] = i
	}
	sort.SliceStable(index, func(a, b int) bool { return along[index[a]] < along[index[b]] })
	for _, i := range index {
		p, at = append(p, points[i]), append(at, along[i])
		if radii != nil {
			r = append(r, radii[i])
		}
	}
	return p, r, at, index
}

// spanningTree returns the parent of each point in the minimum spanning tree (−1 at the root) and an order in which
// parents come before children (Prim's algorithm).
func spanningTree(points []r3.Vec) (parent, order []int) {
	n := len(points)
	parent, best := make([]int, n), make([]float64, n)
	in := make([]bool, n)
	for i := range best {
		best[i], parent[i] = math.Inf(1), -1
	}
	best[0] = 0
	for range n {
		at := -1
		for i := range n {
			if !in[i] && (at < 0 || best[i] < best[at]) {
				at = i
			}
		}
		in[at] = true
		order = append(order, at)
		for i, q := range points {
			if d := r3.Norm2(r3.Sub(q, points[at])); !in[i] && d < best[i] {
				best[i], parent[i] = d, at
			}
		}
	}
	return parent, order
}

// treeDistances returns the distance through the tree from one point to all.
func treeDistances(parent, order []int, edge func(int) float64, from int) []float64 {
	d := make([]float64, len(parent))
	for i := range d {
		d[i] = math.Inf(1)
	}
	d[from] = 0
	for i := from; parent[i] >= 0; i = parent[i] { // up to the root of the tree
		d[parent[i]] = d[i] + edge(i)
	}
	for _, i := range order { // down to everything else
		if math.IsInf(d[i], 1) {
			d[i] = d[parent[i]] + edge(i)
		}
	}
	return d
}

func farthestInTree(parent, order []int, edge func(int) float64, from int) int {
	at := from
	d := treeDistances(parent, order, edge, from)
	for i := range d {
		if d[i] > d[at] {
			at = i
		}
	}
	return at
}

// cellMeans averages points in cubic cells of a 300th of their diagonal, in the order of first appearance.
func cellMeans(points []r3.Vec, radii []float64) ([]r3.Vec, []float64) {
	lo, hi := points[0], points[0]
	for _, p := range points {
		lo = r3.Vec{X: math.Min(lo.X, p.X), Y: math.Min(lo.Y, p.Y), Z: math.Min(lo.Z, p.Z)}
		hi = r3.Vec{X: math.Max(hi.X, p.X), Y: math.Max(hi.Y, p.Y), Z: math.Max(hi.Z, p.Z)}
	}
	size := r3.Norm(r3.Sub(hi, lo)) / 300
	if size == 0 {
		return points, radii
	}
	index := map[[3]int]int{}
	var sum []r3.Vec
	var rsum, count []float64
	for i, p := range points {
		d := r3.Scale(1/size, r3.Sub(p, lo))
		key := [3]int{int(d.X), int(d.Y), int(d.Z)}
		k, ok := index[key]
		if !ok {
			k = len(sum)
			index[key] = k
			sum, rsum, count = append(sum, r3.Vec{}), append(rsum, 0), append(count, 0)
		}
		sum[k] = r3.Add(sum[k], p)
		if radii != nil {
			rsum[k] += radii[i]
		}
		count[k]++
	}
	for k := range sum {
		sum[k] = r3.Scale(1/count[k], sum[k])
		rsum[k] /= count[k]
	}
	if radii == nil {
		rsum = nil
	}
	return sum, rsum
}

// bins averages points (sorted by u) so that at most maxKnots distinct parameters are left, at least a thousandth of the
// mean spacing apart. Weights are the numbers of points.
func bins(u []float64, p []r3.Vec, period float64) (ub []float64, pb []r3.Vec, w []float64) {
	span := period
	if period == 0 {
		span = u[len(u)-1] - u[0]
	}
	width := 1e-3 * span / float64(min(len(u), maxKnots))
	if len(u) > maxKnots {
		width = span / (maxKnots + 1)
	}
	start := u[0]
	for i, x := range u {
		if i == 0 || x-start > width {
			start = x
			ub, pb, w = append(ub, 0), append(pb, r3.Vec{}), append(w, 0)
		}
		k := len(ub) - 1
		ub[k] += x
		pb[k] = r3.Add(pb[k], p[i])
		w[k]++
	}
	for k := range ub {
		ub[k] /= w[k]
		pb[k] = r3.Scale(1/w[k], pb[k])
	}
	// The last bin of a closed curve may touch the first one of the next turn.
	if n := len(ub); period != 0 && n > 3 && ub[0]+period-ub[n-1] < width {
		k := n - 1
		total := w[0] + w[k]
		ub[0] = (w[0]*ub[0] + w[k]*(ub[k]-period)) / total
		pb[0] = r3.Scale(1/total, r3.Add(r3.Scale(w[0], pb[0]), r3.Scale(w[k], pb[k])))
		w[0] = total
		ub, pb, w = ub[:k], pb[:k], w[:k]
	}
	return ub, pb, w
}

// checkPoints rejects what is no set of points and returns it scaled to mm.
func checkPoints(points []r3.Vec, scale float64, least int) ([]r3.Vec, error) {
	if scale == 0 {
		scale = 1
	}
	if !(scale > 0) || math.IsInf(scale, 0) {
		return nil, fmt.Errorf("contour: Scale = %g must be positive: 1 for mm, 10 for cm, 1000 for m", scale)
	}
	if len(points) < least || len(points) > maxPoints {
		return nil, fmt.Errorf("contour: %d points are outside %d to %d", len(points), least, maxPoints)
	}
	out := make([]r3.Vec, len(points))
	for i, p := range points {
		q := r3.Scale(scale, p)
		if s := math.Abs(q.X) + math.Abs(q.Y) + math.Abs(q.Z); math.IsNaN(s) || s > 1e6 {
			return nil, fmt.Errorf("contour: point %d = (%g, %g, %g) is not finite or beyond 1000 m: correct it", i+1, p.X, p.Y, p.Z)
		}
		out[i] = q
	}
	return out, nil
}

// checkLength tells a unit mistake by the length of the curve.
func checkLength(what string, length, lo, hi float64) error {
	if length >= lo && length <= hi {
		return nil
	}
	for _, unit := range []struct {
		name  string
		scale float64
	}{{"cm", 10}, {"m", 1000}, {"inch", 25.4}, {"µm", 0.001}} {
		if l := length * unit.scale; l >= 60 && l <= 250 { // where annuli and veins are found
			return fmt.Errorf("contour: %s = %.4g is outside %g to %g mm; the points look like %s: set Scale to %g", what, length, lo, hi, unit.name, unit.scale)
		}
	}
	return fmt.Errorf("contour: %s = %.4g is outside %g to %g mm: check the points and their unit", what, length, lo, hi)
}
