package program

// AddScene puts a scene of a test behind the others, as assemble does with those of the program.
func (p *Program) AddScene(name string, s Scene) {
	p.names, p.scenes = append(p.names, name), append(p.scenes, s)
}
