package valve

// Version is the program's version, the newest entry of the changelog in the README.
const Version = "0.1.0"

// schemaName is the schema of case files and reports.
const schemaName = "annuloscope/1"
