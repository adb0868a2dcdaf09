// Package meshio writes meshes and curves to an io.Writer and reads measured polylines from an io.Reader. It opens no
// file itself. Lengths are millimetres in every format; each format says so in its own way:
//
//   - binary STL: the 80-byte header carries the title and "mm educational only";
//   - VTP (VTK XML polydata): field data strings "units", "notice" and whatever provenance the caller gives;
//   - CSV: leading # lines.
//
// Readers take CSV (x, y, z and optionally radius), legacy VTK polydata (ASCII or binary) and VTP (ASCII or base64
// inline, uncompressed). They refuse more than MaxBytes or MaxPoints, never panic on bad data, and name the line (or for
// binary data the array) of the mistake and the fix.
package meshio
