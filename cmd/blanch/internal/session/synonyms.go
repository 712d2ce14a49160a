package session

// synonyms are words of the trade that no sentence has, with words that lead
// to the sentence that is meant.
var synonyms = map[string]string{
	"adrenaline": "epinephrine", "noradrenaline": "norepinephrine",
	"aspirate": "draw back", "withdraw": "draw back", "titrate": "set rate", "increase": "set rate", "decrease": "set rate", "wean": "set rate",
	"speed": "set rate", "iv": "line", "drip": "line", "cannulate": "insert cannula", "site": "line", "resite": "choose",
	"remove": "pull", "palpate": "feel", "inspect": "uncover", "ultrasound": "scan ultrasound", "us": "scan ultrasound",
	"elevate": "raise", "antidote": "infiltrate draw", "phentolamine": "draw up phentolamine infiltrate", "document": "write notes", "chart": "write notes",
	"phone": "call", "ring": "call", "handoff": "hand over", "handover": "hand over", "dilute": "mix", "bolus": "fluid bolus", "bp": "pressure",
}
