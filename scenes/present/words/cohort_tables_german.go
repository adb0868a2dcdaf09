package words

// cohortTablesGerman translates texts of definition tables about imported geometry.
var cohortTablesGerman = map[string]string{
	"gradenote.imported geometry is not graded": "Eingelesene Geometrie wird nicht eingestuft.",
}
