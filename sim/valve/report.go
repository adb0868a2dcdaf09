package valve

import "annuloscope/sim/units"

// Report is everything a solve says. All of the program's screens, files and words read it and compute no physics.
type Report struct {
	Notice    string             `json:"notice"`
	Before    State              `json:"before"`
	After     State              `json:"after"`
	Change    map[string]float64 `json:"change"` // after minus before, by Quantity.Path, where both apply
	Findings  []Finding          `json:"findings"`
	Selection []Criterion        `json:"selection"`       // historical selection rules on the state before treatment
	Later     []Later            `json:"later,omitempty"` // what the repairs close off
	// AfterRepair holds published flags for the opening after clips and stitches; empty without any.
	AfterRepair []Criterion `json:"after_repair,omitempty"`
	Provenance  Provenance  `json:"provenance"`
	Engines     *Engines    `json:"engines,omitempty"` // nil where the shell has not been solved

	// Attribution says where the shortening of a sinus device went; nil unless Options.Attribution asked for it and a
	// device pulls.
	Attribution *Attribution `json:"attribution,omitempty"`
	// Trial compares with and without rods on trial; nil unless Options.Attribution asked for it and rods are on trial.
	Trial *Trial `json:"trial,omitempty"`

	// Scene is the geometry behind the numbers, for pictures and meshes; it is not part of the JSON.
	Scene Scene `json:"-"`
}

// State is one state of the valve: the numbers a user meets. Keys carry their units.
type State struct {
	Annulus         Annulus       `json:"annulus"`
	AnnulusDiastole Annulus       `json:"annulus_diastole"`
	Coaptation      Coaptation    `json:"coaptation"`
	Regurgitation   Regurgitation `json:"regurgitation"`
	Opening         Opening       `json:"opening"`
	Sinus           Sinus         `json:"sinus"`
	Artery          Artery        `json:"artery"`
	Beat            Beat          `json:"beat"`
	Clips           []Clip        `json:"clips"`
	Laboratory      *Laboratory   `json:"laboratory,omitempty"` // nil in the quick tier
	Status          string        `json:"status"`               // "converged", or what did not
}

// Annulus measures one annulus.
type Annulus struct {
	SeptalLateralMM float64           `json:"septal_lateral_mm"`
	CommissuralMM   float64           `json:"commissural_mm"`
	PerimeterMM     float64           `json:"perimeter_mm"`
	AreaCM2         units.AnatomicCM2 `json:"area_cm2"`
	HeightMM        float64           `json:"height_mm"`
	HeightRatio     float64           `json:"height_ratio"`
}

// Profile is a length along the line: a summary and its value at three stations.
type Profile struct {
	Mean float64 `json:"mean,omitempty"`
	Min  float64 `json:"min,omitempty"`
	Max  float64 `json:"max,omitempty"`
	A1P1 float64 `json:"a1p1"`
	A2P2 float64 `json:"a2p2"`
	A3P3 float64 `json:"a3p3"`
}

// Coaptation says how the leaflets meet in mid-systole.
type Coaptation struct {
	ContactMM       Contact `json:"contact_mm"`
	GapMM           Gap     `json:"gap_mm"`
	DepthMM         float64 `json:"depth_mm"`
	TentingAreaCM2  float64 `json:"tenting_area_cm2"`
	TentingVolumeML float64 `json:"tenting_volume_ml"`
	BillowingMM     float64 `json:"billowing_mm"`
	FlailGapMM      float64 `json:"flail_gap_mm"`
	FlailWidthMM    float64 `json:"flail_width_mm"`
}

// Contact is the contact length along the line, never negative.
type Contact struct {
	Mean float64 `json:"mean"`
	Min  float64 `json:"min"`
	A1P1 float64 `json:"a1p1"`
	A2P2 float64 `json:"a2p2"`
	A3P3 float64 `json:"a3p3"`
}

// Gap is the gap along the line, never negative.
type Gap struct {
	Max  float64 `json:"max"`
	A1P1 float64 `json:"a1p1"`
	A2P2 float64 `json:"a2p2"`
	A3P3 float64 `json:"a3p3"`
}

// Regurgitation is the leak.
type Regurgitation struct {
	AnatomicOrificeCM2      units.AnatomicCM2     `json:"anatomic_orifice_cm2"`
	EffectiveOrificeCM2     units.EffectiveCM2    `json:"effective_orifice_cm2"` // mid-systole
	EffectiveOrificeMeanCM2 units.EffectiveCM2    `json:"effective_orifice_time_mean_cm2"`
	EffectiveOrificePeakCM2 units.EffectiveCM2    `json:"effective_orifice_peak_cm2"`
	OrificeIntervalCM2      [2]units.EffectiveCM2 `json:"orifice_interval_cm2"`
	Graded                  string                `json:"graded_orifice"` // which of the three the grade reads
	Course                  Course                `json:"course"`         // over systole
	VolumeML                float64               `json:"volume_ml"`
	Fraction                float64               `json:"fraction"`
	Grade                   Grade                 `json:"grade"`            // by the first of Grades
	Grades                  []Grade               `json:"grades,omitempty"` // every scheme of the mechanism, American first
	SchemesDisagree         bool                  `json:"schemes_disagree"` // on severe or not
}

// Course is the leak over systole (0 when the ventricle's pressure passes the atrium's, 1 when it falls below again).
type Course struct {
	Phase               []float64            `json:"phase"`
	EffectiveOrificeCM2 []units.EffectiveCM2 `json:"effective_orifice_cm2"`
	TentingVolumeML     []float64            `json:"tenting_volume_ml"`
	ContactMM           []float64            `json:"contact_mm"`
}

// gradedOrifice is Regurgitation.Graded: the moment at which flow convergence is measured (common practice, no source).
const gradedOrifice = "mid-systolic"

// Grade is the class of the leak by the scheme that fits its mechanism.
type Grade struct {
	Scheme     string      `json:"scheme"`
	Class      string      `json:"class"` // empty with a reason in Note when none is given
	Discordant bool        `json:"discordant"`
	Criteria   []Criterion `json:"criteria,omitempty"`
	Note       string      `json:"note,omitempty"`
}

// Criterion is one criterion of a grade or selection rule and what it says on its own.
type Criterion struct {
	Name   string  `json:"name"`
	Value  float64 `json:"value"`
	Unit   string  `json:"unit"`
	Rule   string  `json:"rule"`
	Says   string  `json:"says"`
	Source string  `json:"source"`
}

// Opening is the valve in mid-diastole.
type Opening struct {
	AnatomicAreaCM2  units.AnatomicCM2   `json:"anatomic_area_cm2"`
	OrificesCM2      []units.AnatomicCM2 `json:"orifices_cm2"` // anterolateral first
	EffectiveAreaCM2 units.EffectiveCM2  `json:"effective_area_cm2"`
	Contraction      float64             `json:"contraction_coefficient"`
	MeanGradientMMHg float64             `json:"mean_gradient_mmhg"`
	Stenosis         string              `json:"stenosis"`
	StenosisGrade    Grade               `json:"stenosis_grade"` // the same with its criteria
}

// Sinus is what a device in the coronary sinus does.
type Sinus struct {
	TensionN            float64 `json:"tension_n"`
	ShorteningMM        float64 `json:"shortening_mm"`
	TransmittedFraction float64 `json:"transmitted_fraction"`
	SlipMM              float64 `json:"slip_mm"`
	MaxContactNPerMM    float64 `json:"max_contact_n_per_mm"`
}

// Artery is what the circumflex suffers.
type Artery struct {
	MinClearanceMM       float64 `json:"min_clearance_mm"`
	ContactNPerMM        float64 `json:"contact_n_per_mm"`
	AnchorContactNPerMM  float64 `json:"anchor_contact_n_per_mm"`
	BandContactNPerMM    float64 `json:"band_contact_n_per_mm"`
	WorstViewNarrowing   float64 `json:"worst_view_narrowing_pct"`
	BestViewNarrowing    float64 `json:"best_view_narrowing_pct"`
	AreaLoss             float64 `json:"area_loss_pct"`
	FlowReserve          float64 `json:"flow_reserve"`
	Risk                 string  `json:"risk"` // low, possible, likely
	From                 string  `json:"from"` // anchor, band, rods, or empty
	BranchWorstNarrowing float64 `json:"branch_worst_view_narrowing_pct"`
	BandAlone            float64 `json:"band_alone_pct"`   // worst view with the anchors taken away
	AnchorAlone          float64 `json:"anchor_alone_pct"` // worst view with the band slack
}

// Beat is the circulation. Tier says which engine gave it.
type Beat struct {
	Tier         string  `json:"tier"` // "closed loop" or "orifice equation"
	EDVML        float64 `json:"edv_ml"`
	ESVML        float64 `json:"esv_ml"`
	EF           float64 `json:"ef"`
	ForwardSVML  float64 `json:"forward_sv_ml"`
	LAMeanMMHg   float64 `json:"la_mean_mmhg"`
	LAVMMHg      float64 `json:"la_v_mmhg"`
	ArterialMMHg float64 `json:"arterial_mean_mmhg"`
	RatePerMin   float64 `json:"rate_per_min"`
	// The closed loop alone gives these; 0 in the quick tier.
	EarlyWaveCMS     float64 `json:"early_wave_cm_s"`
	LungSystolicMMHg float64 `json:"lung_systolic_mmhg"`
}

// Clip is the state of one bond.
type Clip struct {
	Kind      string  `json:"kind"`
	Position  float64 `json:"position"`
	WidthMM   float64 `json:"width_mm"`
	GapMM     float64 `json:"gap_before_mm"`
	Held      float64 `json:"held"` // 0 not grasped … 1 held
	TensionN  float64 `json:"tension_n"`
	Opening   float64 `json:"diastolic_tension_n"`
	Condition string  `json:"condition"` // held, poor grip, not grasped, detached
}

// Finding is something worth saying about a state, in plain words.
type Finding struct {
	Code     string `json:"code"`
	Severity string `json:"severity"` // note, caution, failure
	Text     string `json:"text"`
	Source   string `json:"source,omitempty"`
	Fit      *Fit   `json:"fit,omitempty"` // the numbers behind "does not fit"
}

// Provenance says how a report came about.
type Provenance struct {
	Program    string  `json:"program"`
	Version    string  `json:"version"`
	CaseName   string  `json:"case"`
	CaseSHA256 string  `json:"case_sha256"`
	Schema     string  `json:"schema"`
	Imported   bool    `json:"imported,omitempty"` // measured geometry: no grades, no selection rules
	Engine     string  `json:"engine"`
	Iterations int     `json:"iterations"`
	Residual   float64 `json:"residual_n"`
	Tolerance  float64 `json:"tolerance_n"`
	Converged  bool    `json:"converged"`
	Status     string  `json:"status"`
}
