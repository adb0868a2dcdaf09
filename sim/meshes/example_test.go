package meshes_test

import (
	"bytes"
	"fmt"

	"annuloscope/geometry/meshio"
	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/meshes"
	"annuloscope/sim/valve"
)

// Meshes of a solved state, with their fields and units, written where the caller likes.
func ExampleParts() {
	r, err := valve.Solve(casefile.Case{Patient: anatomy.Normal()}, valve.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range meshes.Parts(&r.Scene.After, &r.Scene.Before, meshes.Options{ThicknessMM: 1}) {
		var file bytes.Buffer
		if err := meshio.WriteVTP(&file, p.Mesh, meshio.VTPOptions{Meta: []meshio.Meta{{Key: "caution", Value: r.Notice}}}); err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(p.Name, "closed:", p.Mesh.Watertight(), "fields:", len(p.Mesh.Fields) > 0)
	}
	// Output:
	// annulus closed: true fields: true
	// leaflet-anterior-solid closed: true fields: true
	// leaflet-posterior-solid closed: true fields: true
	// vein closed: true fields: true
	// artery closed: true fields: true
}

// The curves of a state, as `annuloscope import` reads them.
func ExampleCurves() {
	r, err := valve.Solve(casefile.Case{Patient: anatomy.Normal()}, valve.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range meshes.Curves(&r.Scene.Before, false) {
		fmt.Println(c.Name, "closed:", c.Line.Closed, "radii:", c.Line.Radii != nil)
	}
	// Output:
	// annulus-curve closed: true radii: false
	// sinus-curve closed: false radii: true
	// artery-curve closed: false radii: true
}
