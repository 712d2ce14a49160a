package scoring

import (
	"blanch/scenarios"
)

// Meaning is one name of a closed list, and what it stands for.
type Meaning struct{ Name, Says string }

// Argument is one text argument of a fact.
type Argument struct {
	StandsAs string // as in the signature: "line"
	What     string // what its names are called: "role of a line"
	Names    []Meaning
	Where    string // where the names are found, when the file or the table of actions has them
}

// Arguments are the text arguments of a fact, in order.
func (f Fact) Arguments() []Argument {
	var out []Argument
	for _, s := range f.args {
		out = append(out, s.argument())
	}
	return out
}

// LineRoles says which line each role means.
func LineRoles() []Meaning { return roles.argument().Names }

// argument is the set as a reader meets it.
func (s set) argument() Argument {
	a := Argument{StandsAs: s.standIn(), What: s.what(), Where: elsewhere[s]}
	if a.Where != "" {
		return a
	}
	for _, name := range s.names(&scenarios.Case{}) {
		a.Names = append(a.Names, Meaning{name, meanings[s][name]})
	}
	return a
}

// elsewhere are the sets whose names stand in the case or in a table of
// their own.
var elsewhere = map[set]string{
	acts:  `"blanch explain action" lists the names`,
	sums:  `the names under "ask" of the case and of its fragments`,
	calls: `the names under "calls" of the case`,
	drugs: `the drug of the order, and those under "also ordered"`,
}

var meanings = map[set]map[string]string{
	roles: {
		firstPressor: "The peripheral line that carried a vasopressor before any other did. There is none before a pump has run one.",
		pressor:      "Every peripheral line that carried a vasopressor at any time of the run; the first act on any of them counts.",
		leaking:      "Every line that leaks in truth at some time of the run, found or not. What was done on it before it leaked counts too, so a rule about the answer asks from recognised on.",
		second:       "The line that was in place first besides the first pressor line, peripheral or central; one that lay there when the case opened counts. There is none before a peripheral line has carried a vasopressor.",
		central:      "Every central line that was placed.",
	},
	signs: {
		"swelling":    "The place is swollen.",
		"blanching":   "The skin is pale.",
		"coolness":    "The skin is cool.",
		"tightness":   "The place is tight.",
		"pain":        "It hurts or burns, and the patient can say so.",
		"slow-refill": "The colour comes back slowly after a press.",
		"leak":        "Any of them: the first sign of a leak.",
	},
	verdicts: {
		"leaking":  "Fluid runs beside the vein.",
		"sound":    "Nothing is wrong with the line.",
		"inflamed": "The vein is inflamed.",
		"blocked":  "The cannula is blocked.",
		"out":      "The cannula has come out.",
		"unsure":   "The learner cannot tell.",
	},
	plans: {
		"stay peripheral":        "The infusion stays on a peripheral line.",
		"ask for central access": "A central line is to be asked for.",
		"use another site":       "The infusion is to go to another peripheral line.",
		"wean the vasopressor":   "The dose is to come down until it can stop.",
	},
	requests: {
		"central-access":   "That somebody places a central line.",
		"antidote":         "An order for the antidote.",
		"review":           "That somebody comes and looks.",
		"surgical-opinion": "That a surgeon comes and looks at the arm.",
		"advice":           "What to do next.",
	},
	given: {
		"who":          "Who the patient is, and who calls.",
		"reason":       "What the matter is.",
		"pressure":     "The pressure and its course.",
		"drug":         "Which drug runs.",
		"dose":         "At what dose.",
		"line":         "Through which line.",
		"time-running": "For how long it has run.",
		"site":         "What the site looks and feels like.",
		"done-so-far":  "What has been done.",
		"lines-tried":  "Which lines were tried.",
		"plan":         "What is meant to be done next.",
	},
	people: {
		anyone:       "Every person who can be called.",
		"nurse":      "Another nurse.",
		"doctor":     "One who can prescribe.",
		"operator":   "One who places lines.",
		"surgeon":    "One who is asked about an arm that leaked.",
		"colleague":  "One who lends a hand.",
		"pharmacist": "One who is asked about drugs and bags.",
	},
	checks: {
		"bag":               "The bag, before it runs.",
		"pump":              "The pump, before it first runs.",
		"set-up":            "Bag and pump, at the first start.",
		"new-bag":           "Each further bag.",
		"new-concentration": "Each bag of another strength.",
		"changeover":        "The pump, after it was moved to another line.",
		"handover":          "Each running pump, when the patient is handed over.",
	},
	sharings: {
		"flush":             "A flush.",
		"other-vasopressor": "Another vasopressor.",
	},
}
