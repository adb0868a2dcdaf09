package raster

// Tuned constants of this package.
const (
	// subpixels: places per pixel at which a glyph may start. Chosen: at four, a letter sits at most 1/8 px off,
	// which the eye does not see; each place costs one cached mask.
	subpixels = 4
	// glyphBytes: size of the glyph masks kept before the cache starts afresh, bytes. Chosen: the whole interface at
	// one scale needs under 1 MB; a figure at four times under 8 MB.
	glyphBytes = 16 << 20
	// joinStep: largest angle between spokes of a round join, radians, for a radius of one pixel; it shrinks with the
	// root of the radius so that the chord stays within 0.1 px of the arc. Chosen.
	joinStep = 0.8
	// gentleBend: cosine of the largest bend (about 20°) at which a stroke's pieces share a mitred corner, which is
	// then 1.5 % of half the width beyond the round one. Chosen: invisible below 10 px of width.
	gentleBend = 0.94
	// bandRows: rows of the depth buffer worked on at once. Chosen by measurement: depth and colour of one band stay
	// in the second-level cache, and memory does not grow with the height of a figure.
	bandRows = 64
	// curveBias: how much nearer the eye a curve counts than it is, mm, besides half its width, so that a curve lying
	// on a surface is not swallowed by the flat triangles between its points. Chosen for meshes with edges of about
	// 1 mm on radii above 5 mm (sagitta 0.03 mm) and curves a little below the surface.
	curveBias = 0.3
	// scenesKept: pictures of unchanged scenes kept though not in the last frame. Chosen: switching back to a screen.
	scenesKept = 2
)

// The light: two soft lamps fixed to the eye, so that turning the valve does not turn the light. All invented.
const (
	ambient  = 0.34 // share that reaches every place
	keyLight = 0.60 // lamp up left behind the eye
	filling  = 0.20 // lamp to the right
	wrap     = 0.35 // how far light reaches round the edge, share of the cosine
	rimShare = 0.30 // darkening where the surface turns away, so that shape reads
)
