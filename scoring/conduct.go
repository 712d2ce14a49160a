package scoring

import (
	"regexp"
	"slices"

	"blanch/scenarios"
	"blanch/sim"
)

// What a policy can want beyond the first checks and doses: facts of how
// lines, bags and antidotes were used.

// sharedLine counts what else went through a peripheral line after it had
// carried a vasopressor.
func (r *record) sharedLine(what string) int {
	n := 0
	if what == "flush" {
		for i := range r.done(actFlush, func(e *sim.Entry) bool {
			line := r.lineOf(e)
			return line >= 0 && !r.Lines[line].Central && r.Lines[line].Pressor < e.At
		}) {
			r.rests(i)
			n++
		}
		return n
	}
	drugs := map[int][]string{} // that have run, by line
	for _, run := range r.pressorRuns() {
		line, drug := r.lineAt(run.Subject, run.From), r.drugOf(run.Bag)
		if line < 0 || r.Lines[line].Central || slices.Contains(drugs[line], drug) {
			continue
		}
		if len(drugs[line]) > 0 {
			r.rests(run.Entry)
			n++
		}
		drugs[line] = append(drugs[line], drug)
	}
	return n
}

// mayShare says whether the policy lets it through a line that has carried a
// vasopressor. What it does not say, it allows.
func (r *record) mayShare(what string) bool {
	switch r.policy.SharedWith {
	case "nothing":
		return false
	case "flush":
		return what == "flush"
	}
	return true
}

// oldestBag is the longest that a bag still ran after it was made up.
func (r *record) oldestBag() Span {
	oldest, entry := sim.Time(0), -1
	for _, run := range r.pressorRuns() {
		for _, b := range r.Bags {
			if age := r.until(run) - b.MixedAt; b.ID == run.Bag && age > oldest {
				oldest, entry = age, b.Entry
			}
		}
	}
	r.rests(entry)
	return spanOf(oldest)
}

// bloodReturnRunning counts the tests of blood return at a peripheral line
// through which a vasopressor ran.
func (r *record) bloodReturnRunning() int {
	return r.countOf(r.done(actBloodReturn, func(e *sim.Entry) bool {
		line := r.lineOf(e)
		return line >= 0 && !r.Lines[line].Central && slices.ContainsFunc(r.pressorThrough(line), func(s stretch) bool {
			return s.from < e.At && e.At <= s.to
		})
	}))
}

// antidoteWanted is the first moment at which the policy called for the
// antidote.
func (r *record) antidoteWanted() Moment {
	signs := r.policy.AntidoteFor
	if len(signs) == 0 || slices.Contains(signs, "leak") {
		return r.recognised()
	}
	return r.at(r.firstEntry(sim.Found, func(e *sim.Entry) bool {
		return r.onLeak(e) && slices.ContainsFunc(signs, func(sign string) bool { return showsSign(e, sign) })
	}))
}

// antidoteAccepted says whether all that was put into the tissue was of a
// drug, and in all a dose, that the policy accepts.
func (r *record) antidoteAccepted() bool {
	sums := map[string]float64{}
	for _, i := range r.antidotes() {
		r.rests(i)
		b, ok := r.syringe(i)
		if !ok {
			return false
		}
		sums[b.Drug] += r.Journal[i].Value * b.Nominal / 1000
	}
	for name, mg := range sums {
		limits, ok := r.policy.OtherAntidotes[name]
		if name == antidote {
			limits, ok = r.policy.AntidoteMG, true
		}
		if !ok || mg < limits[0]-slack || mg > limits[1]+slack {
			return false
		}
	}
	return len(sums) > 0
}

// aGrade is how a grade is written in the notes.
var aGrade = regexp.MustCompile(`(?i)\bgrade [0-9]\b`)

// leakGraded says whether a grade was written down once the leak was
// recognised.
func (r *record) leakGraded() bool {
	from := r.recognised().time()
	return r.firstOf(r.done(actWrite, func(e *sim.Entry) bool { return aGrade.MatchString(e.Word) }), from).Known
}

// centralWanted is the first moment at which the policy wants central access
// asked for at once.
func (r *record) centralWanted() Moment {
	call, at, entry := r.policy.CallFor, sim.Never, -1
	note := func(t sim.Time, n int) {
		if t < at {
			at, entry = t, n
		}
	}
	runs := r.pressorRuns()
	for i, run := range runs {
		line := r.lineAt(run.Subject, run.From)
		over, limited := call.Over[r.drugOf(run.Bag)]
		if limited && line >= 0 && !r.Lines[line].Central && run.McgMin > over+slack {
			note(run.From, run.Entry)
		}
		var drugs []string
		for _, other := range runs[:i+1] {
			if drug := r.drugOf(other.Bag); (other.Entry == run.Entry || r.until(other) > run.From) && !slices.Contains(drugs, drug) {
				drugs = append(drugs, drug)
			}
		}
		if call.Vasopressors > 0 && len(drugs) >= call.Vasopressors {
			note(run.From, run.Entry)
		}
	}
	failed := 0
	for _, l := range r.Lines {
		if l.Central || l.Placed < sim.Never || l.Entry < 0 {
			continue
		}
		if failed++; call.Tries > 0 && failed == call.Tries {
			note(r.Journal[l.Entry].At, l.Entry)
		}
	}
	r.rests(entry)
	return momentAt(at)
}

// DosingKG is the weight that a policy reckons doses by: the actual one where
// the case does not give it.
func DosingKG(policy *scenarios.Policy, p sim.Patient) float64 {
	switch {
	case policy.DosingWeight == "ideal" && p.IdealKG > 0:
		return p.IdealKG
	case policy.DosingWeight == "stated" && p.StatedKG > 0:
		return p.StatedKG
	}
	return p.WeightKG
}

func (r *record) doseKG() float64 { return DosingKG(r.policy, r.Case.Patient) }
