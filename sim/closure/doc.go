// Package closure solves the leaflets of the mitral valve in systole: sections across the closure line, coupled along the
// free margin, under ventricular pressure.
//
// # Use
//
//	closure.BuildLine(&in.Line, annulus, &papillary, 0)        // sections from a closed annulus polyline
//	fitted, report := closure.Fit(&baseline, targets)          // or Template(&in): normal lengths, no targets
//	var w closure.Workspace                                    // one per goroutine, reused: no allocation when warm
//	w.Solve(fitted, &current, clips, &result)
//	w.Curve3(&current.Line, i, closure.Posterior, points)      // leaflet curves of the last solve
//	w2.Course(fitted, &current, clips, result, closure.TetheredPhases(), &course)
//
// Fit reproduces tenting depth, mean contact and effective orifice; Solve predicts only what changes from there. What the
// baseline's State and papillary shifts hold is part of what was measured. Workspace.Reset makes the next solve cold, so
// that it depends on nothing before; warm and cold agree to 1e-8 mm (see Limits).
//
// # Model
//
// Every station s in [−1, 1] is a plane (X towards lateral, Z towards the atrium). Unknown are the junction J of the
// leaflets and the signed overlap σ; contact c and gap g follow from c·g = ε², c − g = σ. Each leaflet is an arc from the
// annulus, tangent (but for a kink) to its straight tail, which runs on as a chord to the papillary point. Arc tension
// T = p·d/(2 sin t). Three equations a section: both leaflets' lengths, and the smaller tail equals the contact. Pressure
// acts from the annulus to the narrowest point; the tail below is straight in contact and in gap alike, so there is one
// formulation and no switch between branches.
//
// The margin is a string of tension MarginTension: its curvature along the line is a closing or opening force on each
// leaflet, answered by the kink T·sin δ = f. In contact a closing force is screened (it presses, it moves nothing), an
// opening force peels. A clip adds a saturating pull over its box; so the gap grows from zero at a bond over
// λ = √(MarginTension/k), k the stiffness of an open section (FitReport.CouplingLengthMM, about 3 mm). Newton's method on
// the block-tridiagonal system, step cap and backtracking, continuation from the baseline when it stalls.
//
// Leak: within a station the overlap is spread normally with the unevenness u, so the mean gap is E⁻(σ, u), the mean
// contact E⁻ + σ, both can be positive at once, and the leak never rises with contact. Anatomic orifice = ∫E⁻ along the
// line, effective = Contraction × anatomic. Beside a clip u shrinks by √(1−ρ²), ρ = grip·exp(−distance/λ).
//
// Fit: a template of the normal valve at the baseline's commissural width is led to the baseline's annulus; leaflet growth γ and a
// papillary displacement dm give depth and mean overlap (2×2 Newton); then a deficit D at the jet (widened, then more u,
// if it does not suffice; shape flattened, then less u, if it leaks too much) gives the orifice; the rest lengths follow
// in closed form. When γ and dm have no solution the closure line is placed by shape (FitByShape).
//
// Mechanisms: annulus and papillary points through the Line; chords elongated or ruptured (excess = 1.2 mm per mm to the
// nearest intact chord), beyond 15 mm or beyond what has a closed state clamped (ExcessClamped, found exactly: fold.go); posterior restriction =
// chords shorter; growth after the fit; calcification of severity v takes the share v of stretch, bending and grip.
// A clip is judged by the gap without clips: grip = hold·logistic((reach − gap)/0.25 mm)·healthy share; beyond its reach
// it grasps nothing. On one leaflet only it is a detachment and bonds nothing. Judge and SolveHeld part judging from pulling, for
// a caller whose annulus yields to the clip.
//
// # Measures
//
// Depth, tenting area (s = 0), tenting volume and billowing are measured from each section's own line between its annulus
// points, tenting below it, billowing above it. FlailGapMM is the free tip's distance to the other leaflet's curve,
// FlailWidthMM the length of line where that exceeds 1 mm. AnnulusForce is the change of the leaflets' pull: Annulus
// against the fitted baseline (pass this to the ring), AnnulusClip against the same state without clips. OrificeLow and
// OrificeHigh say how far the prediction moves with MarginTension 0.4–1.6 N and the jet's width × 4/6–9/6, each variant
// fitted to the same targets, combined as root of squares: a cheap estimate (solved to 1e-3 mm, grips kept); it holds no
// error of the targets, so it has no width at the baseline.
//
// # Invented
//
// No measurement stands behind these (constants.go): margin tension, jet shape and width, unevenness 0.7 mm, deficit,
// screening δ, clip stiffness and greatest pull, grip rounding, contraction 0.8, BellyShare, rupture slope, the strain
// laws' toe, the prolapse course, the template's contact and junction. BellyShare is this package's own: marginal chords
// alone let the arcs bulge so far that tenting areas come out at a third of the published and moved papillary muscles hardly
// change the leak; basal and strut chords, not modelled one by one, hold the belly to 0.4 of that bulge. With it growth, tenting area and volume
// of a functional valve lie near anatomy.md S01 and S22; a normal valve's tenting area (0.3 cm²) stays below S22 (0.95).
//
// # Limits
//
// Sections are planes: no motion along the line, no real commissures (the line ends at CommissureLimit of the half
// width and the rest counts as closed), no strut or basal chords of their own, pressure below the throat ignored. Lateral
// anterior flail (A1, A3) runs away early: at 8-9 mm excess. A clamped flail
// is held at the first fold of its path, or where the equations reach their floors (bearMost, foldAngle). Of 2,000 random valves 11 did not converge, all with chord faults and all flagged; cold and warm
// agreed in all others.
// A deficit fitted on top of a known flail stays when the chords are mended. Nothing here is validated; never for
// diagnosis or treatment.
package closure
