// Package casefile reads and writes a case: a patient and the ordered repairs, as YAML or JSON (which YAML contains).
//
// The decoder is strict: an unknown key, a wrong type, a unit in a value, a number out of range, a duplicate key, an
// alias, more than one document, a file that is too large, binary or truncated each give one *fault.Field with line and
// column. Keys are the paths of anatomy.Parameters, nested at the dots. What a file leaves out keeps the default of
// the invented normal adult.
//
//	annuloscope: 1
//	name: my-case
//	mechanism: functional
//	annulus:
//	  septal_lateral_mm: 37
//	repairs:
//	  - kind: sinus-band
//	    shortening_mm: 20
package casefile
