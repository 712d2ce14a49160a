package scoring

import "blanch/sim"

// The actions that facts are made from, besides those that rules name. A
// test holds them to the action table.
const (
	actFeel        = "feel"
	actJudge       = "judge"
	actDecide      = "decide"
	actMoveCuff    = "move-cuff"
	actInfiltrate  = "infiltrate"
	actThrough     = "antidote-through"
	actAnswerCall  = "answer"
	actDeclineCall = "decline"
	actFlush       = "flush"
	actBloodReturn = "blood-return"
	actQuery       = "query-order"
	actHang        = "hang"
	actWrite       = "write"
	actPull        = "pull"
)

// secondCheckAct is the action by which a second person checks something.
var secondCheckAct = map[string]string{"bag": "check-bag", "pump": "check-pump"}

// antidote is the drug that is put into tissue, never run through a line.
const antidote = "phentolamine"

// showsSign says that an entry is a finding that shows the sign. Any sign
// will do for "leak".
func showsSign(e *sim.Entry, sign string) bool {
	if e.Kind != sim.Found || e.Own || !sim.Abnormal(e.What, e.Word, e.Value) {
		return false
	}
	return sign == "leak" || sim.SignOf(e.What) == sign
}

// judged is the verdict that an entry gives on a line, empty for others.
func judged(e *sim.Entry) string {
	if e.Kind != sim.Done || e.Act != actJudge {
		return ""
	}
	return e.Word
}

// isPressure says that an entry shows the mean pressure.
func isPressure(e *sim.Entry) bool {
	return e.Kind == sim.Reading && e.What == "mean pressure"
}
