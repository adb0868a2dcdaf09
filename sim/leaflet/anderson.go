package leaflet

// anderson accelerates the fixed point x ← x + f(x) by combining the last few steps (D. G. Anderson, Journal of the
// ACM 12, 1965; from memory): the combination whose residual is smallest in the least-squares sense.
type anderson struct {
	df, dx     [andersonDepth][]float64
	lastF      []float64
	lastStep   []float64
	count, pos int
	primed     bool
}

func (a *anderson) init(n int) {
	for i := range a.df {
		a.df[i], a.dx[i] = make([]float64, n), make([]float64, n)
	}
	a.lastF, a.lastStep = make([]float64, n), make([]float64, n)
}

func (a *anderson) clear() { a.count, a.pos, a.primed = 0, 0, false }

// improve replaces the residual f by the accelerated step.
func (a *anderson) improve(f []float64) {
	if a.primed {
		df, dx := a.df[a.pos], a.dx[a.pos]
		for i, v := range f {
			df[i] = v - a.lastF[i]
			dx[i] = a.lastStep[i]
		}
		a.pos = (a.pos + 1) % andersonDepth
		a.count = min(a.count+1, andersonDepth)
	}
	copy(a.lastF, f)
	a.primed = true
	if n := a.count; n > 0 {
		var g [andersonDepth][andersonDepth + 1]float64
		for i := range n {
			for j := range i + 1 {
				g[i][j] = dot(a.df[i], a.df[j])
				g[j][i] = g[i][j]
			}
			g[i][n] = dot(a.df[i], f)
		}
		trace := 0.0
		for i := range n {
			trace += g[i][i]
		}
		for i := range n {
			g[i][i] += 1e-10*trace + 1e-300
		}
		if gamma, ok := solveSmall(&g, n); ok {
			for k := range n {
				c, df, dx := gamma[k], a.df[k], a.dx[k]
				for i := range f {
					f[i] -= c * (df[i] + dx[i])
				}
			}
		}
	}
	copy(a.lastStep, f)
}

// solveSmall solves the n×n system in the first columns of g with the right-hand side in column n, by elimination.
func solveSmall(g *[andersonDepth][andersonDepth + 1]float64, n int) (x [andersonDepth]float64, ok bool) {
	for k := range n {
		if !(g[k][k] > 0) {
			return x, false
		}
		for i := k + 1; i < n; i++ {
			r := g[i][k] / g[k][k]
			for j := k; j <= n; j++ {
				g[i][j] -= r * g[k][j]
			}
		}
	}
	for k := n - 1; k >= 0; k-- {
		sum := g[k][n]
		for j := k + 1; j < n; j++ {
			sum -= g[k][j] * x[j]
		}
		x[k] = sum / g[k][k]
	}
	return x, true
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i, v := range a {
		sum += v * b[i]
	}
	return sum
}
