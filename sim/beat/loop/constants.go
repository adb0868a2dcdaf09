package loop

const (
	// expLinear (dimensionless): argument beyond which the exponential passive curve goes on as its tangent. Chosen: at
	// 7 the curve stands at 1100 times its scale, beyond any pressure of interest.
	expLinear = 7.0
	// resistanceFloor (mmHg·s/mL) in series with every valve, so that the slope of the square-root law stays finite at
	// zero. Chosen: at 1000 mL/s it costs 0.001 mmHg.
	resistanceFloor = 1e-6
	// stageTolerance (mL): largest volume residual left in a stage. Chosen: far below the periodicity tolerance.
	stageTolerance = 1e-10
	// stageIterations: Newton iterations allowed in a stage. Chosen; two to four are usual, ten at a valve event.
	stageIterations = 60
	// overshoot (dimensionless): a stage step is shortened when the derivative along it turns by more than this share.
	overshoot = 0.5
	// searchIterations of one shortening. Chosen: the interval shrinks at least tenfold in all but contrived cases.
	searchIterations = 12
	// insufficient (dimensionless): a step with the exact derivative that leaves more than this share of the defect is
	// followed by plain beats. slow: a Broyden step that leaves more than this share calls for a new derivative. Chosen.
	insufficient = 0.7
	slow         = 0.3
)
