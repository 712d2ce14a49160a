package trial

import (
	"fmt"
	"slices"
	"strings"

	"blanch/sim"
)

// What looking the patient over showed, and what treats it.

// finding is something of the patient, and what was tried for it.
type finding struct {
	said  string
	tried int  // remedies, a bit each
	now   bool // shown by the last look
	done  bool // something was done since
}

const (
	lookOverEvery = 10 * sim.Minute
	nothingNew    = "nothing new"
	worksWithin   = 8 * sim.Minute // a remedy is given this long before the rate goes up (assumed)
)

func (l *learner) seePatient(said string) {
	if said == nothingNew {
		return
	}
	for i := range l.findings {
		if f := &l.findings[i]; f.said == said {
			f.now, f.done = true, false
			return
		}
	}
	l.findings = append(l.findings, finding{said: said, now: true})
}

// lookOver looks the patient over.
func (l *learner) lookOver() turn {
	for i := range l.findings {
		l.findings[i].now = false
	}
	l.lookNow, l.lookedOver = false, l.now()
	if l.does(act("look-over")) {
		return acted
	}
	return passed
}

// remedy is an act that helps a patient, with the beginnings of words that
// call for it.
type remedy struct {
	act   string
	words []string
}

// remedies are what a bedside has.
var remedies = []remedy{
	{"press", []string{"bleed", "blood", "soak", "wound", "ooz", "haemorr", "dressing"}},
	{"less-sedation", []string{"sedat", "asleep", "drows", "propofol", "midazolam", "rous", "opioid", "morphine"}},
	{"lay-flat", []string{"sits", "sitting", "sat ", "upright", "propped", "head of the bed", "leans", "bolt"}},
	{"fluid", []string{"dry", "thirst", "urine", "drain", "diarrh", "vomit", "fluid", "mottl", "sweat", "neck veins", "veins of the neck", "pale", "palms", "flat veins"}},
}

// calls counts the words of a finding that call for a remedy. What is denied,
// or is as it was, calls for none.
func calls(said string, words []string) (n int) {
	for clause := range strings.FieldsFuncSeq(strings.ToLower(said), func(r rune) bool { return strings.ContainsRune(".,;:", r) }) {
		clause = " " + strings.TrimSpace(clause) + " "
		if slices.ContainsFunc([]string{" no ", " not ", " nothing ", " without ", " as it was ", " as before ", " unchanged "}, func(w string) bool { return strings.Contains(clause, w) }) {
			continue
		}
		for _, w := range words {
			if strings.Contains(clause, " "+w) {
				n++
			}
		}
	}
	return n
}

// nextRemedy is what to try next for a finding, -1 when nothing is left: first
// what most of its words call for; what none calls for only while the
// pressure is low.
func (l *learner) nextRemedy(f *finding) int {
	best, most := -1, 0
	for i, r := range remedies {
		if f.tried&(1<<i) != 0 {
			continue
		}
		if n := calls(f.said, r.words); n > most || best < 0 && n == most && l.shown < l.order.TargetMmHg && !f.calls() {
			best, most = i, n
		}
	}
	return best
}

// calls says that the words of a finding call for some remedy.
func (f *finding) calls() bool {
	return slices.ContainsFunc(remedies, func(r remedy) bool { return calls(f.said, r.words) > 0 })
}

// treatPatient treats what looking the patient over showed, and looks again
// whether it is gone.
func (l *learner) treatPatient() turn {
	for i := range l.findings {
		f := &l.findings[i]
		if !f.now || f.done {
			continue
		}
		r := l.nextRemedy(f)
		if r < 0 {
			f.now = false
			continue
		}
		f.tried |= 1 << r
		f.done = true
		a := act(remedies[r].act)
		if who := l.helper(sim.Nurse, sim.Doctor); who >= 0 && l.here[who] && !l.busy[who] && remedies[r].act == "press" {
			a.By = l.p.people[who].id // and one's own hands are free for the rest
		}
		if l.does(a) {
			l.eased, l.lookNow = l.now(), true
			l.reasons++
			return acted
		}
	}
	if !l.lookNow || slices.Contains(l.busy, true) {
		return passed
	}
	return l.lookOver()
}

// tellReasons tells a doctor what was found and done.
func (l *learner) tellReasons() turn {
	if l.reasons == 0 || l.lookNow {
		return passed
	}
	return l.ask("review", fmt.Sprint("reason", l.reasons), toldOfReason)
}
