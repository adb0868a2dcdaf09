// Package grade holds every rule a number is compared with: grades of leak and stenosis, flags after a repair, and
// historical selection rules for edge repair. Each result carries its rule in words and its source; thresholds
// recalled without a readable source say "from memory", trade habits "common practice, no source".
//
// Grades read effective areas only and planimetry rules anatomic areas only: the types (units.EffectiveCM2,
// units.AnatomicCM2) make a mix-up a compile error. A measure that is not available is NaN (grade.Unknown).
//
// When the interval of the orifice spans two classes no overall grade is given. Criteria that point to different
// classes are shown as discordant; the overall class is then the lower median of the criteria, our own rule.
//
// Teaching only. Nothing here is a verdict on a person.
package grade
