package verify

// Run makes every comparison, in a fixed order.
func Run() []Row {
	var rows []Row
	for _, group := range []func() []Row{hydraulics, bonds, formulas, grades, threeCompartments, fourChambers, strips, annuli,
		surfaces, compression, delay, grids, patients, beats, stages, systole, tissues, whole, clips, imports, engines} {
		rows = append(rows, group()...)
	}
	return rows
}

// Failed counts the rows with the verdict FAIL.
func Failed(rows []Row) int { return Count(rows)[Fail] }

// Count counts the rows by verdict.
func Count(rows []Row) map[Verdict]int {
	n := map[Verdict]int{}
	for _, r := range rows {
		n[r.Verdict]++
	}
	return n
}
