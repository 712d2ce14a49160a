package sim

// Sums, walking away, and breaking off.
func otherActs() []Spec {
	return []Spec{
		{
			Name: "give", Sentence: "give {sum} as {text}", Step: 4, Holds: Instant,
			Does:       "answer a sum, with its unit",
			Impossible: "it was not asked or was answered already, or the unit is missing",
			refuse: func(e *Engine, r *running) string {
				return e.refuseSum(r.act.word("sum"), r.act.word("text"))
			},
			done: func(e *Engine, r *running) { e.answerSum(r) },
		},
		{
			Name: "walk-away", Sentence: "walk away for {span}", Step: 7, Holds: Hands, Lasts: "as long as you say", Away: true,
			Does:       "leave the bed",
			Impossible: "no time is said",
			takes:      func(_ *Engine, a Action) Time { return FromSeconds(float64(a.number("span") * 60)) },
			refuse: func(_ *Engine, r *running) string {
				if r.act.number("span") <= 0 {
					return "say for how long"
				}
				return ""
			},
		},
		{
			Name: "leave-off", Sentence: "leave off", Step: 7, Holds: Instant,
			Does:       "break off what your hands are doing; what was done stays done",
			Impossible: "your hands are free",
			refuse: func(e *Engine, _ *running) string {
				if e.hands == nil {
					return "your hands are free"
				}
				return ""
			},
			done: func(e *Engine, r *running) { e.leaveOff(); e.done(r, Entry{}) },
		},
	}
}
