package session

import (
	"fmt"
	"strings"

	"blanch/cmd/blanch/internal/fold"
	"blanch/sim"
	"blanch/sim/quantity"
)

// Caution is said at the start of every attempt.
const Caution = "For training only: an invented patient and a teaching model of adults. It never advises on a real patient; local policy and licensed practice decide."

// Skin is what this program cannot teach.
const Skin = "It does not teach what blanching looks like on skin: photographs of several skin tones and a real arm do."

// Reflections are the questions asked before the marks are shown.
func (s *Session) Reflections() []string {
	out := make([]string, len(s.a.Case.Reflect))
	for i, q := range s.a.Case.Reflect {
		out[i] = oneLine(q)
	}
	return out
}

// Reflect keeps the answer to the n-th question, from 0. An empty one is not
// kept.
func (s *Session) Reflect(n int, answer string) {
	answer = oneLine(strings.ToValidUTF8(answer, ""))
	if answer == "" || n < 0 || n >= len(s.reflects) || s.sheet != "" {
		return
	}
	s.save(s.rec.Do(int64(s.e.Now()), reflectSaid(n, answer)), s.e.Now())
	s.draft = ""
	s.reflects[n] = answer
}

// Answered says whether the n-th question has an answer.
func (s *Session) Answered(n int) bool { return n < len(s.reflects) && s.reflects[n] != "" }

// Finish marks the attempt, closes the recording and returns the sheet. It is
// for an attempt that is over, and may be called again. Unsaved says whether
// the recording could be closed.
func (s *Session) Finish() string {
	if s.sheet == "" {
		s.sheet = s.marks()
		s.save(s.rec.Ended(int64(s.e.Now()), s.Journal(), s.sheet), s.e.Now())
	}
	return s.sheet
}

// marks is the sheet as text: what the rules say, the sums and where the
// numbers came from.
func (s *Session) marks() string { return Sheet(s.a, s.e.Result()) }

// Sheet marks a run and writes the sheet with its sums.
func Sheet(a *Attempt, r *sim.Result) string {
	var b strings.Builder
	b.WriteString(verdicts(a, r))
	for i, sum := range sums(a, r) {
		if i == 0 {
			b.WriteString("\nSums\n")
		}
		b.WriteString(sum)
	}
	b.WriteString("\n" + origin(r))
	return b.String()
}

// verdicts are what the rules say.
func verdicts(a *Attempt, r *sim.Result) string {
	return strings.TrimRight(a.marker.Mark(r).Text(r), "\n") + "\n"
}

// origin is where the numbers of a run came from.
func origin(r *sim.Result) string {
	return fmt.Sprintf("Seed %d, engine revision %d.\n%s\n", r.Seed, sim.Revision, indented("", Skin))
}

// sums sets what was given against what the engine computed.
func sums(a *Attempt, r *sim.Result) []string {
	var out []string
	for _, ans := range r.Answers {
		text := ans.ID
		key, kg := a.marker.Key(r, ans)
		for _, q := range a.Case.Ask {
			if q.ID != ans.ID {
				continue
			}
			text += ": " + oneLine(q.Text)
			if u, err := quantity.ParseUnit(q.Point); err == nil {
				if v, err := key.In(u); err == nil {
					key = quantity.Quantity{Value: v, Unit: u}
				}
			}
		}
		key.Value = legible(key.Value)
		given := fmt.Sprintf("you gave %q at %s", ans.Raw, ans.At.Clock())
		if ans.At == sim.Never {
			given = "you gave no answer"
		}
		working := ans.Working
		if kg > 0 {
			weight := func(kg float64) string { return " x " + quantity.Number(kg) + " kg" }
			working = strings.Replace(working, weight(a.Case.Patient.WeightKG), weight(kg), 1) +
				fmt.Sprintf(", by the %s weight as the policy doses", a.Policy.DosingWeight)
		}
		out = append(out, fmt.Sprintf("%s\n%s\n", indented("  ", text), indented("    ", fmt.Sprintf("%s, so %s; %s.", working, key, given))))
	}
	return out
}

// legible rounds a computed value to what somebody would write down.
func legible(v float64) float64 {
	switch {
	case v >= 10:
		return quantity.Round(v, 0.1)
	case v >= 1:
		return quantity.Round(v, 0.01)
	}
	return quantity.Round(v, 0.001)
}

// Journal is the whole attempt as text, hidden entries included, with the
// answers to the questions for reflection. It is for after the end.
func (s *Session) Journal() string {
	var b strings.Builder
	b.WriteString(Journal(s.entries))
	if s.stopped {
		fmt.Fprintf(&b, "%-7s  You stopped the case here.\n", s.e.Now().Exact())
	}
	for i, q := range s.Reflections() {
		if s.reflects[i] != "" {
			fmt.Fprintf(&b, "Reflection: %s\n    %s\n", q, s.reflects[i])
		}
	}
	return b.String()
}

// textWidth is what the stored texts are folded to.
const textWidth = 78

// indented breaks prose into lines behind a lead.
func indented(lead, text string) string {
	return strings.Join(fold.Rows(lead, lead, text, textWidth), "\n")
}
