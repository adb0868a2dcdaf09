// Package anatomy is the patient: every number a case may state about a heart, each with its path, unit, range,
// default, meaning and source in one table (Parameters).
//
// The table is the only list of parameters: the case decoder, the JSON Schema, the command line's --set, the sliders,
// the sweeps and the glossary are all built from it. All values are float64; choices (mechanism, dominance) are a
// separate short table. Lengths are millimetres, pressures mmHg, volumes mL. The state described is mid-systole unless
// a parameter says otherwise. Sources "S.." and "M.." are rows of ../shared/reference/anatomy.md, quoted in
// sim/MODEL.md; M rows are recalled from memory.
package anatomy
