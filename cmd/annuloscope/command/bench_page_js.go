package command

// inPage is for the native program, which starts the browser.
func (c *benchCmd) inPage(*Streams) ([]benchRow, string, error) {
	return nil, "", failWith(Usage, "--page is for the program outside the page")
}
