package sim

// What else moves the pressure, and what treats it. An arm is not the only
// reason for a falling pressure.
func patientActs() []Spec {
	roles := []Role{Nurse, Doctor}
	treats := func(e *Engine, r *running) {
		for i, s := range e.c.Strains {
			if s.By == r.act.Name && s.At <= r.ends && e.treated[i] == Never {
				e.change(r.ends)
				e.treated[i] = r.ends
			}
		}
		e.done(r, Entry{})
	}
	return []Spec{
		{
			Name: "look-over", Sentence: "look the patient over", Step: 6, Holds: Hands, Takes: Minute, By: roles,
			Does: "breathing, skin, wound, drains, position, sedation: what else could it be",
			done: func(e *Engine, r *running) {
				any := false
				for i, s := range e.c.Strains {
					if s.Found != "" && s.At <= r.ends && e.treated[i] == Never {
						any = true
						e.found(r, "patient", s.Found, 0, "")
					}
				}
				if !any {
					e.found(r, "patient", "nothing new", 0, "")
				}
				e.done(r, Entry{Subject: "patient"})
			},
		},
		{
			Name: "fluid", Sentence: "give a fluid bolus", Step: 6, Holds: Hands, Takes: 5 * Minute, By: roles,
			Does: "250 mL of crystalloid, quickly, through another line", done: treats,
		},
		{
			Name: "lay-flat", Sentence: "lay the patient flat", Step: 6, Holds: Hands, Takes: 40 * Second, By: roles,
			Does: "head down from sitting up", done: treats,
		},
		{
			Name: "less-sedation", Sentence: "turn the sedation down", Step: 6, Holds: Hands, Takes: 30 * Second, By: roles,
			Does: "a sedative lowers the pressure too", done: treats,
		},
		{
			Name: "press", Sentence: "press on the bleeding", Step: 6, Holds: Hands, Takes: 5 * Minute, By: roles,
			Does: "press on what bleeds and dress it", done: treats,
		},
	}
}
