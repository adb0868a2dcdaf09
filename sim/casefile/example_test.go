package casefile_test

import (
	"fmt"

	"annuloscope/sim/casefile"
)

// A case file states only what differs from the invented normal adult; numbers carry their unit in their name.
func ExampleDecode() {
	c, err := casefile.Decode([]byte(`
annuloscope: 1
name: my-case
mechanism: functional
annulus:
  septal_lateral_mm: 36
repairs:
  - kind: sinus-band
    shortening_mm: 20
`))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(c.Patient.Annulus.SeptalLateralMM, c.Patient.Annulus.CommissuralMM, c.Repairs[0].Value("shortening_mm"))

	_, err = casefile.Decode([]byte("annuloscope: 1\nannulus:\n  height_mm: 90\n"))
	fmt.Println(err)
	// Output:
	// 36 39 20
	// line 3, column 14: annulus.height_mm: out of range (given: 90); allowed: 0 to 14 mm; give a number in that range
}

// Update changes numbers in place and leaves the rest of the file as its author wrote it.
func ExampleUpdate() {
	text := []byte("# bench heart\nannuloscope: 1\nannulus:\n  height_mm: 5 # by hand\n")
	c, err := casefile.Decode(text)
	if err != nil {
		fmt.Println(err)
		return
	}
	if err := c.Set("annulus.height_mm", 6.5); err != nil {
		fmt.Println(err)
		return
	}
	text, err = casefile.Update(text, c)
	fmt.Print(string(text), err)
	// Output:
	// # bench heart
	// annuloscope: 1
	// annulus:
	//   height_mm: 6.5 # by hand
	// <nil>
}
