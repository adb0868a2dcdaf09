package words

// trustGerman holds what is said about keeping the state.
var trustGerman = map[string]string{
	"message.unkept":  "Die Arbeit kann nicht für den nächsten Start aufbewahrt werden: {why}. Sie bleibt auf dem Bildschirm; es wird wieder versucht.",
	"message.kept":    "Die Arbeit wird wieder aufbewahrt.",
	"message.damaged": "Der Stand vom letzten Mal ist nicht lesbar. Er liegt jetzt als {file} daneben; der erste Fall ist offen.",
}
