package words

// Catalogues hands the message tables to tests.
func Catalogues() (en, de map[string]string) { return english, german }
