package meshes

// How things without a thickness are drawn, mm and counts; all chosen for pictures and printing.
const (
	annulusRadiusMM = 0.8
	deviceRadiusMM  = 0.6
	around          = 24 // vertices round a tube
	across          = 24 // vertices of a leaflet from annulus to margin
	weldMM          = 1e-6
)

// MaxThicknessMM bounds the thickness of the leaflets' closed option; a leaflet has about 1 mm. Chosen.
const MaxThicknessMM = 3
