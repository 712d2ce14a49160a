package sim

// Reading the order and the patient.
func orderActs() []Spec {
	return []Spec{
		{
			Name: "read-order", Sentence: "read the order", Step: 1, Holds: Hands, Takes: 30 * Second,
			Does: "read what was prescribed, and its pressure target",
			done: func(e *Engine, r *running) {
				e.found(r, "order", e.order().Text, 0, "")
				for _, also := range e.c.Also {
					e.found(r, "order", also.Text, 0, "")
				}
				e.done(r, Entry{})
			},
		},
		{
			Name: "read-notes", Sentence: "read the notes", Step: 1, Holds: Hands, Takes: Minute,
			Does: "read the notes: history, allergies, weight",
			done: func(e *Engine, r *running) { e.found(r, "notes", e.c.Patient.Story, 0, ""); e.done(r, Entry{}) },
		},
		{
			Name: "ask-arms", Sentence: "ask the patient about the arms", Step: 1, Holds: Voice, Takes: 45 * Second, Bedside: true,
			Does: "ask about fistula, swelling, numbness, earlier drips in either arm",
			done: func(e *Engine, r *running) {
				for _, side := range []Side{Left, Right} {
					if text := e.c.Patient.Arms[side]; text != "" {
						e.found(r, string(side)+" arm", text, 0, "")
					}
				}
				e.done(r, Entry{})
			},
		},
		{
			Name: "query-order", Sentence: "query the order with {person}", Step: 1, Holds: Voice, Takes: Minute,
			Does:       "ask the prescriber whether the order stands as written",
			Impossible: "they cannot be reached yet",
			refuse:     func(e *Engine, r *running) string { return e.reachable(r.with) },
			done: func(e *Engine, r *running) {
				word := "That is not my order to change."
				switch {
				case r.with.Role != Doctor:
				case e.c.Mended != nil && !e.mended:
					e.mended = true
					word = e.c.Mended.Says
				case e.mended:
					word = "The order stands as I have just changed it."
				default:
					word = "The order stands as written."
				}
				e.note(Entry{At: r.ends, Kind: Replied, Act: r.act.Name, Subject: r.with.ID, Word: word})
				e.done(r, Entry{})
			},
		},
	}
}
