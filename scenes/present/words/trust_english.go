package words

// trustEnglish holds what is said about keeping the state.
var trustEnglish = map[string]string{
	"message.unkept":  "Your work cannot be kept for the next start: {why}. It stays on the screen and is tried again.",
	"message.kept":    "Your work is being kept again.",
	"message.damaged": "The state of last time cannot be read. It is set aside as {file}; the first patient is open.",
}
