package scoring

// lineTable is the rows of both lines that have a name of their own, and of
// lines as a whole.
func lineTable() []Fact {
	var all []Fact
	for _, of := range []struct {
		name, says string
		set        func(e *textEnvironment, l lineFacts)
		line       func(r *record) int
	}{
		{"first_line", "the first peripheral line that carried the vasopressor",
			func(e *textEnvironment, l lineFacts) { e.FirstLine = l },
			(*record).firstPressorLine},
		{"main_line", "the peripheral line that carried the vasopressor longest",
			func(e *textEnvironment, l lineFacts) { e.MainLine = l },
			(*record).longestServing},
		{"placed_line", "the peripheral line placed by the learner that first carried a vasopressor, or, when none did, the first that was placed",
			func(e *textEnvironment, l lineFacts) { e.PlacedLine = l },
			(*record).firstOwn},
	} {
		for _, leaf := range []struct{ name, kind, says, example string }{
			{"known", "yes or no", "Whether there is such a line: %.", "NAME"},
			{"vein", "words", "The vein of %.", "{NAME}"},
			{"site", "words", "Where on the arm it lies, of %.", "{NAME}"},
			{"gauge", "count", "The gauge of %; 0 when there is none.", "NAME <= 20"},
			{"length", "length", "The length of the cannula of %.", "NAME >= policy.least_mm"},
			{"share_in_vein", "share", "How much of the cannula lay in the vein, of %.", "NAME >= policy.least_share"},
			{"under_ultrasound", "yes or no", "Whether it was placed under ultrasound: %.", "NAME"},
			{"site_allowed", "yes or no", "Whether the policy allows the site of %.", "NAME"},
			{"gauge_allowed", "yes or no", "Whether the policy allows the gauge of %.", "NAME"},
			{"long_enough", "yes or no", "Whether the cannula is as long as the policy asks, of %.", "NAME"},
			{"share_enough", "yes or no", "Whether as much lay in the vein as the policy asks, of %.", "NAME"},
			{"vein_width", "length", "How wide the vein is, of %.", "NAME >= policy.least_vein_mm"},
			{"vein_wide_enough", "yes or no", "Whether the vein is as wide as the policy asks, of %; yes when it does not say.", "NAME"},
			{"cuff_on_same_arm", "yes or no", "Whether the pressure cuff sat on the same arm when the vasopressor first ran through %.", "not NAME"},
			{"placed", "moment", "When it was in place: %.", "NAME - ordered <= policy.start_by"},
			{"pressor_from", "moment", "When the vasopressor first ran through %.", "NAME - ordered <= policy.start_by"},
			{"time_of_pressor", "span", "How long the vasopressor ran through %.", "NAME <= policy.longest_run"},
		} {
			name := of.name + "." + leaf.name
			all = append(all, Fact{
				Group: "lines", Name: name, Signature: name + " -> " + leaf.kind,
				Says:    fillIn(leaf.says, "%", of.says),
				Example: fillIn(leaf.example, "NAME", name),
				fill: func(e *textEnvironment, r *record) {
					before := len(r.evidence)
					line := of.line(r)
					of.set(e, r.factsOf(line))
					if leaf.name == "pressor_from" && line >= 0 {
						r.evidence = r.evidence[:before] // where it lies tells nothing of what ran
						r.rests(r.pressorEntry(line))
					}
				},
			})
		}
	}
	return append(all,
		Fact{Group: "lines", Name: "second_line", Signature: "second_line -> moment",
			Says:    "The first moment, while a vasopressor ran, at which two lines were in place that did not leak and had been proved: blood drawn or a flush, or, of the line that carried a vasopressor first, its infusion. A central line is proved when it is placed.",
			Example: `second_line - start <= policy.backup_by`,
			fill:    func(e *textEnvironment, r *record) { e.SecondLine = r.secondLine() }},
		Fact{Group: "lines", Name: "central_ready", Signature: "central_ready -> moment",
			Says:    "The moment a central line was ready for use, used or not.",
			Example: `central_line - central_ready <= minutes(15)`,
			fill:    func(e *textEnvironment, r *record) { e.CentralReady = r.centralReady() }},
		Fact{Group: "lines", Name: "central_line", Signature: "central_line -> moment",
			Says:    "The first moment a vasopressor ran through a central line.",
			Example: `central_line - start <= policy.longest_run`,
			fill:    func(e *textEnvironment, r *record) { e.CentralLine = r.centralLine() }},
		Fact{Group: "lines", Name: "punctures", Signature: "punctures -> count",
			Says:    "How often a peripheral vein was punctured, failed tries included.",
			Example: `punctures <= 3`,
			fill:    func(e *textEnvironment, r *record) { e.Punctures = r.punctures() }},
		Fact{Group: "lines", Name: "pulled_in_use", Signature: "pulled_in_use -> count",
			Says:    "How often a peripheral cannula was pulled that had carried a vasopressor, while none ran through another line.",
			Example: `pulled_in_use == 0`,
			fill:    func(e *textEnvironment, r *record) { e.PulledInUse = r.pulledInUse() }},
		Fact{Group: "lines", Name: "time_on_poor_line", Signature: "time_on_poor_line -> span",
			Says:    "How long a vasopressor ran through a peripheral line whose site, gauge, length, share in the vein or width of vein the policy does not allow.",
			Example: `time_on_poor_line <= minutes(30)`,
			fill:    func(e *textEnvironment, r *record) { e.TimeOnPoorLine = r.timeOnPoorLine() }},
		Fact{Group: "lines", Name: "time_peripheral", Signature: "time_peripheral -> span",
			Says:    "How long a vasopressor ran through any peripheral line.",
			Example: `time_peripheral <= policy.longest_run`,
			fill:    func(e *textEnvironment, r *record) { e.TimePeripheral = r.timePeripheral() }},
	)
}
