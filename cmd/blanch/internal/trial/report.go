package trial

import (
	"regexp"
	"slices"

	"blanch/cmd/blanch/internal/spread"
	"blanch/scoring"
	"blanch/sim"
)

// Report is what came of a trial.
type Report struct {
	Case   string `json:"case"`
	Title  string `json:"title"`
	Place  string `json:"place"`
	Policy string `json:"policy"`
	Runs   int    `json:"runs_of_each_kind"`
	Seed   uint64 `json:"first_seed"`

	About    string       `json:"about"`
	Summary  string       `json:"verdict"`
	Findings []Finding    `json:"findings"` // the worst first
	Effect   Effect       `json:"effect"`
	Kinds    []KindReport `json:"kinds"`
	Walks    []WalkReport `json:"walk_throughs"`
	Rules    []RuleReport `json:"rules"`
	Actions  Actions      `json:"actions"`
	Endings  []EndReport  `json:"endings"`
}

// Effect is how far the expert and the hurried novice stand apart.
type Effect struct {
	Between string  `json:"between"`
	Measure string  `json:"measure"`
	Value   float64 `json:"value"`
	Large   float64 `json:"large_from"`
}

// KindReport is how one kind of learner fared.
type KindReport struct {
	Kind      string         `json:"kind"`
	Says      string         `json:"says"`
	Passed    int            `json:"passed"`
	Share     spread.Spread  `json:"share_of_points_percent"`
	Minutes   spread.Spread  `json:"minutes_to_the_end"`
	Leaked    int            `json:"runs_with_a_leak"`
	Ischaemic *spread.Spread `json:"ischaemic_minutes_where_it_leaked,omitempty"`
	Lost      []Lost         `json:"rules_not_met"` // the most often lost first
}

// Lost is a rule that a kind of learner did not meet, and in how many runs.
type Lost struct {
	Rule string `json:"rule"`
	Runs int    `json:"runs"`
}

// WalkReport is what a walk-through of the case earns under the policy.
type WalkReport struct {
	Walk   string  `json:"walk_through"`
	Passed bool    `json:"passed"`
	Share  float64 `json:"share_of_points_percent"`
}

// RuleReport counts what became of a rule over all runs.
type RuleReport struct {
	Rule     string `json:"rule"`
	Critical bool   `json:"critical"`
	Applied  int    `json:"applied"`
	Met      int    `json:"met"`
	InWalks  bool   `json:"applied_in_a_walk_through"`
	MetWalks bool   `json:"met_in_a_walk_through"`
}

// Actions are those that the trial shows to be of no use.
type Actions struct {
	NeverPossible []string `json:"refused_whenever_tried"`
	NeverTaken    []string `json:"named_by_the_case_and_never_taken"`
}

// EndReport counts the runs that reached an ending.
type EndReport struct {
	Ending  string `json:"ending"`
	Reached int    `json:"runs"`
}

// Try plays n runs of every kind, with the seeds from seed on.
func (s *Study) Try(n int, seed uint64) (*Report, error) {
	kinds := Kinds()
	runs, tried, refused, err := s.play(kinds, n, seed)
	if err != nil {
		return nil, err
	}
	walks, named, err := s.walks()
	if err != nil {
		return nil, err
	}
	r := &Report{Case: s.c.ID, Title: s.c.Title, Place: s.place.ID, Policy: s.policy.ID, Runs: n, Seed: seed}
	of := func(kind string) []Run {
		i := slices.IndexFunc(kinds, func(k Kind) bool { return k.ID == kind })
		return runs[i*n : i*n+n]
	}
	for i, k := range kinds {
		r.Kinds = append(r.Kinds, s.kindReport(k, runs[i*n:i*n+n]))
	}
	for _, w := range walks {
		r.Walks = append(r.Walks, WalkReport{w.id, w.Passed, 100 * w.Share})
	}
	r.Rules = s.rules(runs, walks)
	r.Actions = useless(tried, refused, append(named, s.actsInRules()...))
	for e := range nEndings {
		reached := 0
		for _, run := range runs {
			if run.Endings[e] {
				reached++
			}
		}
		r.Endings = append(r.Endings, EndReport{e.String(), reached})
	}
	r.Effect = Effect{
		Between: Expert + " and " + Hurried, Measure: "Cliff's delta of the share of points", Large: large,
		Value: spread.CliffsDelta(shares(of(Expert)), shares(of(Hurried))),
	}
	r.Findings = s.verdict(r, of, walks)
	r.About, r.Summary = honest, summary(r.Findings)
	return r, nil
}

func shares(runs []Run) []float64 {
	out := make([]float64, len(runs))
	for i, r := range runs {
		out[i] = r.Share
	}
	return out
}

func (s *Study) kindReport(k Kind, runs []Run) KindReport {
	out := KindReport{Kind: k.ID, Says: k.Says}
	var share, minutes, ischaemic []float64
	for _, r := range runs {
		if r.Passed {
			out.Passed++
		}
		share = append(share, 100*r.Share)
		minutes = append(minutes, r.Ended.Seconds()/60)
		if r.Leaked {
			ischaemic = append(ischaemic, r.Ischaemic)
		}
	}
	out.Share, out.Minutes, out.Leaked = spread.Of(share), spread.Of(minutes), len(ischaemic)
	if len(ischaemic) > 0 {
		minutes := spread.Of(ischaemic)
		out.Ischaemic = &minutes
	}
	out.Lost = []Lost{}
	for i, rule := range s.c.Rules {
		lost := 0
		for _, r := range runs {
			if r.verdicts[i] == scoring.NotMet {
				lost++
			}
		}
		if lost > 0 {
			out.Lost = append(out.Lost, Lost{rule.ID, lost})
		}
	}
	slices.SortStableFunc(out.Lost, func(a, b Lost) int { return b.Runs - a.Runs })
	return out
}

// walked is a walk-through as played.
type walked struct {
	id string
	Run
}

// walks plays the walk-throughs of the case. Those written for another policy
// are left out of the marks. Named are the actions in them.
func (s *Study) walks() (out []walked, named []string, err error) {
	for _, w := range s.c.Walks {
		for _, step := range w.Steps {
			if a, err := sim.ParseAction(step.Said); err == nil {
				named = append(named, a.Name)
			}
		}
		if w.Policy != "" && w.Policy != s.policy.ID {
			continue
		}
		r, _, err := scoring.Play(s.c, s.place, w.Seed, w.Steps)
		if err != nil {
			return nil, nil, err
		}
		out = append(out, walked{w.ID, s.mark(-1, r)})
	}
	return out, named, nil
}

func (s *Study) rules(runs []Run, walks []walked) []RuleReport {
	out := make([]RuleReport, len(s.c.Rules))
	for i, rule := range s.c.Rules {
		one := &out[i]
		one.Rule, one.Critical = rule.ID, rule.Critical
		for _, r := range runs {
			if v := r.verdicts[i]; v != scoring.DidNotApply {
				one.Applied++
				if v == scoring.Met {
					one.Met++
				}
			}
		}
		for _, w := range walks {
			one.InWalks = one.InWalks || w.verdicts[i] != scoring.DidNotApply
			one.MetWalks = one.MetWalks || w.verdicts[i] == scoring.Met
		}
	}
	return out
}

// quoted is a word between quotation marks in a condition.
var quoted = regexp.MustCompile(`"([a-z-]+)"`)

// actsInRules are the actions that conditions name.
func (s *Study) actsInRules() (out []string) {
	for _, rule := range s.c.Rules {
		for _, m := range quoted.FindAllStringSubmatch(rule.Applies.Source+" "+rule.When.Source, -1) {
			if _, ok := sim.ActionNamed(m[1]); ok {
				out = append(out, m[1])
			}
		}
	}
	return out
}

// useless lists the actions that were refused whenever tried, and those that
// the case names and nobody took.
func useless(tried, refused []int, named []string) Actions {
	out := Actions{NeverPossible: []string{}, NeverTaken: []string{}}
	for i, a := range actions {
		if tried[i] == 0 && refused[i] > 0 {
			out.NeverPossible = append(out.NeverPossible, a.Name)
		}
		if tried[i] == 0 && slices.Contains(named, a.Name) {
			out.NeverTaken = append(out.NeverTaken, a.Name)
		}
	}
	return out
}
