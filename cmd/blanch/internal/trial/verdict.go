package trial

import (
	"fmt"
	"slices"
	"strings"

	"blanch/scoring"
	"blanch/sim"
	"blanch/sim/quantity"
)

// Level is how much a finding matters.
type Level string

// Levels.
const (
	Fault   Level = "fault"   // the case should not be used as it is
	Caution Level = "caution" // the author should look at it
	Note    Level = "note"
)

// Finding is one thing that the trial says of the case.
type Finding struct {
	Level Level  `json:"level"`
	Code  string `json:"code"`
	Said  string `json:"said"`
	Shown *Shown `json:"shown_by,omitempty"`
}

// Shown is a run that shows a finding.
type Shown struct {
	Kind  string `json:"kind"`
	Seed  uint64 `json:"seed"`
	Again string `json:"again"` // the command that prints the run
}

// shownBy is the run, and how it is played again.
func (s *Study) shownBy(kind string, seed uint64) *Shown {
	return &Shown{kind, seed, fmt.Sprintf("blanch try %s --show %s --seed %d%s", s.Called, kind, seed, s.With)}
}

// large is where an effect is called large: 0.474, from memory of Romano and
// others (2006), who carried Cohen's thresholds over to Cliff's delta.
const large = 0.474

// ace is the share of runs that have to pass for a kind to have aced a case;
// an expert that passes in less than half has something against it (assumed).
const ace, half = 0.9, 0.5

// verdict says what is wrong with the case. What follows from a fault that
// is named already is not named again.
func (s *Study) verdict(r *Report, of func(kind string) []Run, walks []walked) []Finding {
	var out []Finding
	add := func(level Level, code string, run *Run, said string) {
		f := Finding{Level: level, Code: code, Said: said}
		if run != nil {
			f.Shown = s.shownBy(Kinds()[run.Kind].ID, run.Seed)
		}
		out = append(out, f)
	}
	experts, hurried := of(Expert), of(Hurried)
	won := passing(experts) > 0 || slices.ContainsFunc(walks, func(w walked) bool { return w.Passed })
	blocked := ""
	if !won {
		best, why := s.hindrance(experts)
		blocked = why.rule
		add(Fault, "cannot-be-won", best, "the case cannot be won: no expert passes, nor does any walk-through; "+why.said)
	}
	idle := first(of(Nothing), true)
	if idle != nil {
		add(Fault, "nothing-passes", idle, fmt.Sprintf("doing nothing passes, with %s %% of the points", percent(idle.Share)))
	}
	out = append(out, s.unreached(r, blocked, &experts[0])...)
	switch {
	case !won || idle != nil:
	case share(experts) >= ace && share(hurried) >= ace:
		add(Fault, "both-ace-it", first(hurried, true), fmt.Sprintf("expert and hurried novice both ace it: %s %% of experts pass and %s %% of novices", percent(share(experts)), percent(share(hurried))))
	case r.Effect.Value < large:
		add(Fault, "no-discrimination", first(hurried, true), fmt.Sprintf("expert and hurried novice do not stand apart: Cliff's delta is %s, and an effect is called large from %s", number(r.Effect.Value, 0.01), number(large, 0.001)))
	}
	if won && share(experts) < half {
		few := "only " + percent(share(experts)) + " % of simulated experts pass"
		if passing(experts) == 0 {
			few = "none of the simulated experts passes, though a walk-through does"
		}
		add(Caution, "expert-seldom-passes", first(experts, false), few+"; look whether the case or the expert is at fault")
	}
	if p := first(of(Everything), true); p != nil && won && idle == nil {
		add(Caution, "treating-everything-passes", p, fmt.Sprintf("taking every arm for leaking passes in %s %% of runs: too little is lost by needless treatment; a critical rule such as \"not wrongly_named\" would tell", percent(share(of(Everything)))))
	}
	for _, kind := range []string{"worst-choice", random} {
		if p := first(of(kind), true); p != nil && won && idle == nil {
			add(Caution, "chance-passes", p, fmt.Sprintf("%s passes in %s %% of runs", strings.ReplaceAll(kind, "-", " "), percent(share(of(kind)))))
		}
	}
	return append(out, s.notes(r)...)
}

// hindrance is what kept the best of the experts from passing.
type why struct{ rule, said string }

func (s *Study) hindrance(experts []Run) (*Run, why) {
	best := &experts[0]
	for i := range experts {
		if experts[i].Share > best.Share {
			best = &experts[i]
		}
	}
	for i, rule := range s.c.Rules {
		if !rule.Critical {
			continue
		}
		never := true
		for _, r := range experts {
			never = never && r.verdicts[i] == scoring.NotMet
		}
		if never {
			return best, why{rule.ID, fmt.Sprintf("the critical rule %s is never met", rule.ID)}
		}
	}
	return best, why{"", fmt.Sprintf("the best comes to %s %% of the points, and %s %% are needed", percent(best.Share), percent(s.c.PassPoints))}
}

// enoughLeaks are as many as a trial needs before a rule that nobody reaches
// is the case's fault where leaks come by luck (assumed).
const enoughLeaks = 20

// unreached are the rules that no run reaches. The one that keeps everybody
// from winning is named with that.
func (s *Study) unreached(r *Report, blocked string, run *Run) (out []Finding) {
	leaked := 0
	for _, k := range r.Kinds {
		leaked += k.Leaked
	}
	var idle, unmet []string
	for i, rule := range r.Rules {
		switch {
		case rule.Applied == 0 && !rule.InWalks && s.readsPolicy(i):
		case rule.Applied == 0 && !rule.InWalks:
			idle = append(idle, rule.Rule)
		case rule.Met == 0 && !rule.MetWalks && rule.Rule != blocked:
			unmet = append(unmet, rule.Rule)
		}
	}
	for _, group := range []struct {
		rules           []string
		cannot, because string
	}{
		{idle, "reached", "applied in no run and no walk-through"},
		{unmet, "met", "applied, and nobody met"},
	} {
		if len(group.rules) == 0 {
			continue
		}
		which, it := "the rule "+group.rules[0], "it"
		if len(group.rules) > 1 {
			which, it = "the rules "+strings.Join(group.rules, ", "), "each of them"
		}
		said := fmt.Sprintf("%s cannot be %s: %s %s", which, group.cannot, it, group.because)
		if group.cannot == "met" {
			said += " it"
		}
		level := Fault
		if s.c.Leak.Kind == sim.ByHazard && leaked < enoughLeaks {
			level = Caution // they may wait for a leak that luck did not send
			few := "no run leaked"
			if leaked > 0 {
				few = "only " + counted(leaked, "run") + " leaked"
			}
			said += fmt.Sprintf("; %s, and leaks come by luck here, so try more runs", few)
		}
		out = append(out, Finding{level, "unreachable-rule", said, s.shownBy(Expert, run.Seed)})
	}
	return out
}

// readsPolicy says that whether a rule applies hangs on the policy: under
// another one it may.
func (s *Study) readsPolicy(rule int) bool {
	return strings.Contains(s.c.Rules[rule].Applies.Source, "policy.")
}

// notes are what an author may want to know and need not change.
func (s *Study) notes(r *Report) (out []Finding) {
	note := func(code, format string, args ...any) {
		out = append(out, Finding{Level: Note, Code: code, Said: fmt.Sprintf(format, args...)})
	}
	var bad []string
	for i, k := range Kinds() {
		if pass := float64(r.Kinds[i].Passed) / float64(r.Runs); k.wrong && pass > half {
			bad = append(bad, fmt.Sprintf("%s (%s %%)", k.ID, percent(pass)))
		}
	}
	if len(bad) > 0 {
		note("bad-habit-passes", "one bad habit does not keep these from passing; see whether that is meant: %s", strings.Join(bad, ", "))
	}
	var always, alwaysCritical []string
	for _, rule := range r.Rules {
		if rule.Applied > 0 && rule.Met == rule.Applied {
			if rule.Critical {
				alwaysCritical = append(alwaysCritical, rule.Rule)
			} else {
				always = append(always, rule.Rule)
			}
		}
	}
	if len(alwaysCritical) > 0 {
		note("critical-never-failed", "nobody ever failed a critical rule: %s", strings.Join(alwaysCritical, ", "))
	}
	if len(always) > 0 {
		note("always-met", "met whenever it applied, so it tells nobody from anybody: %s", strings.Join(always, ", "))
	}
	var elsewhere []string
	for i, rule := range r.Rules {
		if rule.Applied == 0 && !rule.InWalks && s.readsPolicy(i) {
			elsewhere = append(elsewhere, rule.Rule)
		}
	}
	if len(elsewhere) > 0 {
		note("other-policies", "applied nowhere under this policy, which their conditions read; try them under another with --policy: %s", strings.Join(elsewhere, ", "))
	}
	if a := r.Actions.NeverPossible; len(a) > 0 {
		note("never-possible", "refused whenever tried: %s", strings.Join(a, ", "))
	}
	if a := r.Actions.NeverTaken; len(a) > 0 {
		note("never-taken", "named by a rule or a walk-through, and taken by no learner: %s", strings.Join(a, ", "))
	}
	var unseen []string
	for _, e := range r.Endings {
		if e.Reached == 0 {
			unseen = append(unseen, e.Ending)
		}
	}
	if len(unseen) > 0 {
		note("ending-not-reached", "reached by no run: %s", strings.Join(unseen, ", "))
	}
	return out
}

func passing(runs []Run) (n int) {
	for _, r := range runs {
		if r.Passed {
			n++
		}
	}
	return n
}

func share(runs []Run) float64 { return float64(passing(runs)) / float64(max(1, len(runs))) }

// first is the first run that passed, or did not; nil when there is none.
func first(runs []Run, passed bool) *Run {
	for i := range runs {
		if runs[i].Passed == passed {
			return &runs[i]
		}
	}
	return nil
}

func percent(share float64) string {
	if share > 0 && share < 0.01 {
		return number(100*share, 0.01)
	}
	return number(100*share, 1)
}

func number(v float64, step float64) string { return quantity.Number(quantity.Round(v, step)) }

// Faulty says that the verdict has a fault.
func (r *Report) Faulty() bool {
	return slices.ContainsFunc(r.Findings, func(f Finding) bool { return f.Level == Fault })
}
