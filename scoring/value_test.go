package scoring

import (
	"slices"
	"testing"

	"blanch/scenarios"
	"blanch/sim"
	"blanch/sim/quantity"
)

// valueOf writes what a hole shows of a run, and what it rests on.
func valueOf(t *testing.T, r *sim.Result, source string) (string, []int) {
	t.Helper()
	text := scenarios.Text{Source: source}
	x, faults := compile(referenceCase(), testPolicy(), text, true, text.At)
	if len(faults) > 0 {
		t.Fatalf("%s: %s", source, faults[0].Said)
	}
	rec := &record{Result: r, policy: testPolicy()}
	return format(x.of(rec).answer()), rec.take()
}

func TestFactsOfARun(t *testing.T) {
	for _, tc := range []struct {
		source, run, empty string // on the test run and on one where nothing was done
		rests              []int
	}{
		{`ordered`, "0:00", "0:00", nil},
		{`start`, "0:20", "never", []int{4}},
		{`first_drug`, "0:21", "never", []int{5}},
		{`ended`, "4:00", "4:00", nil},
		{`first("feel")`, "0:35", "never", []int{7}},
		{`last("feel")`, "1:40", "never", []int{14}},
		{`first_since("feel", start + minutes(16))`, "1:40", "never", []int{4, 14}},
		{`first_since("feel", first("pull"))`, "never", "never", nil},
		{`count("feel")`, "2", "0", []int{7, 14}},
		{`did("feel")`, "yes", "no", []int{7}},
		{`did("give")`, "yes", "no", []int{23}},
		{`did("pull")`, "no", "no", nil},
		{`first_on("stop", "leaking line")`, "1:45", "never", []int{16}},
		{`first_on("stop", "second line")`, "never", "never", nil},
		{`first_on("start", "second line")`, "1:46", "never", []int{17}},
		{`first_on("move", "central line")`, "2:30", "never", []int{20}},
		{`last_on("feel", "first pressor line")`, "1:40", "never", []int{14}},
		{`first_on_since("feel", "pressor line", ordered + minutes(36))`, "1:40", "never", []int{14}},
		{`count_on("judge", "pressor line")`, "2", "0", []int{15, 21}},
		{`did_on("feel", "second line")`, "no", "no", nil},
		{`before(first("feel"), first("pull"))`, "yes", "no", []int{7}},
		{`before(first("pull"), first("feel"))`, "no", "no", []int{7}},
		{`earlier(first("pull"), first("feel"))`, "0:35", "never", []int{7}},
		{`later(first("start"), first("feel"))`, "0:35", "never", []int{4, 7}},
		{`later(first("pull"), first("feel"))`, "never", "never", []int{7}},
		// 0:35 to 1:40 through the forearm; the hand was never felt, 44 min.
		{`longest_gap_between_checks(start, ended)`, "1 h 5 min", "never", []int{4, 7, 14}},
		{`longest_gap_between_checks(start, start + minutes(20))`, "15 min", "never", []int{4, 7}},
		{`longest_gap_between_checks(first("stop"), ended)`, "44 min", "never", []int{16, 17}},
		{`longest_gap_between_checks(ended, ended)`, "0 s", "0 s", nil},
		{`second_check("bag")`, "0:15", "never", []int{2}},
		{`second_check("pump")`, "never", "never", nil},

		{`visible("leak")`, "1:15", "never", nil},
		{`visible("pain")`, "never", "never", nil},
		{`found("leak")`, "1:40", "never", []int{13}},
		{`found("swelling")`, "1:40", "never", []int{13}},
		{`found("blanching")`, "never", "never", nil},
		{`named("leaking")`, "1:42", "never", []int{15}},
		{`named("sound")`, "never", "never", nil},
		{`recognised`, "1:40", "never", []int{13, 15}},
		{`wrongly_named`, "yes", "no", []int{21}},
		{`leak_stopped`, "1:45", "never", nil},
		{`leak_ran_after_recognised`, "5 min", "never", []int{10, 13, 15}},
		{`raised_while_leaking`, "1", "0", []int{10}},
		{`antidote_given`, "2:00", "never", []int{18}},
		{`antidote_mg`, "8 mg", "not known", []int{18}},
		{`antidote_volume`, "8 mL", "not known", []int{18}},
		{`antidote_dilution`, "10 mL", "not known", []int{18}},

		{`first_line.known`, "yes", "no", []int{1}},
		{`first_line.share_in_vein`, "81 %", "not known", []int{1}},
		{`first_line.site`, "forearm", "no line", []int{1}},
		{`first_line.vein`, "left-forearm", "no line", []int{1}},
		{`first_line.gauge`, "20", "0", []int{1}},
		{`first_line.length`, "48 mm", "not known", []int{1}},
		{`first_line.site_allowed and first_line.gauge_allowed and first_line.long_enough and first_line.share_enough`, "yes", "no", []int{1}},
		{`first_line.under_ultrasound`, "yes", "no", []int{1}},
		{`first_line.cuff_on_same_arm`, "yes", "no", []int{1}},
		{`first_line.placed`, "0:10", "never", []int{1}},
		{`first_line.pressor_from`, "0:20", "never", []int{4}},
		{`first_line.time_of_pressor`, "1 h 25 min", "never", []int{1}},
		{`main_line.vein`, "left-forearm", "no line", []int{1}},
		{`placed_line.vein`, "left-forearm", "no line", []int{1}},
		{`second_line`, "never", "never", nil}, // the hand was never tested
		{`highest_dose_anywhere`, "32 mcg/min", "not known", []int{20}},
		{`ran("norepinephrine")`, "0:20", "never", []int{4}},
		{`within_order("norepinephrine")`, "no", "no", []int{20}},
		{`order_mended`, "never", "never", nil},
		{`central_ready`, "2:20", "never", []int{19}},
		{`central_line`, "2:30", "never", []int{20}},
		{`punctures`, "3", "0", []int{0, 1, 8}},
		{`time_on_poor_line`, "44 min", "0 s", []int{8}},
		{`time_peripheral`, "2 h 9 min", "0 s", nil},

		{`highest_dose`, "12.8 mcg/min", "not known", []int{17}},
		{`highest_concentration`, "32 mcg/mL", "not known", []int{17}},
		{`drug_free`, "1 min 30 s", "never", nil},
		{`gap_in_changeover`, "1 min", "0 s", []int{17}},
		// 50 from 0:21 to 0:30, 60 to 1:05, 62 from 1:35 to 3:00.
		{`shown_under(mmHg(65))`, "2 h 9 min", "never", []int{3, 6, 12}},
		{`shown_over(order.ceiling)`, "1 h", "never", []int{26}},
		{`lowest_shown`, "50 mmHg", "not known", []int{3}},
		{`highest_shown`, "84 mmHg", "not known", []int{26}},

		{`right("rate")`, "no", "no", []int{23}},
		{`right("rate-again")`, "yes", "no", []int{23}}, // 0.2 mL/min is 12 mL/h
		{`right("concentration")`, "no", "no", []int{23}},
		{`answered("concentration")`, "yes", "no", []int{23}},
		{`error_of("rate")`, "9.2 %", "not known", []int{23}},
		{`error_of("rate-again")`, "0 %", "not known", []int{23}},
		{`answer_to("rate")`, "13.1 mL/h", "no answer", []int{23}},
		{`key_of("rate")`, "12 mL/h", "not asked", nil},
		{`error_of("concentration")`, "not known", "not known", []int{23}},

		{`asked("central-access")`, "1:00", "never", []int{24}},
		{`granted("central-access")`, "1:10", "never", []int{24}},
		{`told("doctor", "pressure")`, "yes", "no", []int{24}},
		{`told("doctor", "plan")`, "no", "no", nil},
		{`told_since("doctor", "pressure", ordered)`, "yes", "no", []int{24}},
		{`granted_since("central-access", start)`, "1:10", "never", []int{4, 24}},
		{`told("anyone", "plan")`, "yes", "no", []int{24}},
		{`handover_gave("plan")`, "yes", "no", []int{24}},
		{`handover_gave("who")`, "no", "no", nil},
		{`decided("ask for central access")`, "2:50", "never", []int{25}},
		{`answered_call("bed-4")`, "no", "no", nil},
		{`declined_call("bed-4")`, "no", "no", nil},
		{`lapsed_call("bed-4")`, "yes", "no", []int{22}},

		{`order.start_dose`, "3.2 mcg/min", "3.2 mcg/min", nil},
		{`order.most_dose`, "16 mcg/min", "16 mcg/min", nil},
		{`order.drug`, "norepinephrine", "norepinephrine", nil},
		{`policy.sites`, "forearm, upper-arm", "forearm, upper-arm", nil},
		{`policy.gauges`, "18, 20", "18, 20", nil},
		{`policy.check_early`, "15 min", "15 min", nil},
		{`policy.most_dose`, "15 mcg/min", "15 mcg/min", nil},
		{`policy.least_share`, "65 %", "65 %", nil},
		{`policy.rate_step_mlh`, "0.1", "0.1", nil},
		{`policy.wants_second_check("pump")`, "no", "no", nil},
		{`outcome.ischaemic_time`, "40 min", "0 s", nil},
		{`outcome.drug_in_tissue`, "300 mcg", "0 mcg", nil},
		{`outcome.widest_swelling`, "55 mm", "0 mm", nil},
	} {
		got, rests := valueOf(t, testRun(), tc.source)
		if got != tc.run {
			t.Errorf("%s is %q, want %q", tc.source, got, tc.run)
		}
		if !slices.Equal(rests, tc.rests) {
			t.Errorf("%s rests on %v, want %v", tc.source, rests, tc.rests)
		}
		if got, _ := valueOf(t, emptyRun(), tc.source); got != tc.empty {
			t.Errorf("%s with nothing done is %q, want %q", tc.source, got, tc.empty)
		}
	}
}

func TestFactsThatHangOnTheOrderOfThings(t *testing.T) {
	for _, tc := range []struct {
		name   string
		change func(r *sim.Result)
		source string
		want   string
	}{
		{"named before found counts as recognised", func(r *sim.Result) { r.Journal[15].At = 78 * minute }, `recognised`, "1:18"},
		{"named before it leaked is wrong, not early", func(r *sim.Result) { r.Journal[15].At = 69 * minute }, `named("leaking")`, "never"},
		{"a cannula found in place was not punctured for", func(r *sim.Result) { r.Lines[1].Entry = -1 }, `punctures`, "2"},
		{"a second line counts once it is proved", func(r *sim.Result) {
			r.Journal = append(r.Journal, sim.Entry{At: 65 * minute, Kind: sim.Done, Act: "flush", Subject: "right-hand"})
		}, `second_line`, "1:05"},
		{"blood drawn proves it too", func(r *sim.Result) {
			r.Journal = append(r.Journal, sim.Entry{At: 66 * minute, Kind: sim.Done, Act: "blood-return", Subject: "right-hand"})
		}, `second_line`, "1:06"},
		{"another drug's dose is not the order's", func(r *sim.Result) {
			for i := range r.Bags {
				if r.Bags[i].ID == "bag-2" {
					r.Bags[i].Drug = "vasopressin"
				}
			}
		}, `highest_dose_anywhere`, "6.4 mcg/min"},
		{"another drug is not of this run", func(r *sim.Result) { r.Bags[1].Drug = "vasopressin" }, `ran("norepinephrine")`, "0:20"},
		{"a dose that was only ordered by mistake is too high", func(r *sim.Result) {
			c := *r.Case
			c.Mended = &sim.Mended{Order: c.Order}
			c.Mended.Most = quantity.Of(6, "mcg/min")
			r.Case = &c
		}, `within_order("norepinephrine")`, "no"},
		{"what ran when the case opened is within the order", openedRunning(5), `within_order("norepinephrine")`, "yes"},
		{"what ran when the case opened is the highest dose", openedRunning(5), `highest_dose_anywhere`, "5 mcg/min"},
		{"what hung when the case opened is the highest concentration", openedRunning(5), `highest_concentration`, "16 mcg/mL"},
		{"a line that the learner placed and used comes before one that was only placed", func(r *sim.Result) {
			r.Lines[1].Pressor, r.Lines[1].Leaks = sim.Never, sim.Never
		}, `placed_line.vein`, "right-hand"},
		{"a line that lay there is not the learner's", func(r *sim.Result) { r.Lines[1].Entry = -1 }, `placed_line.vein`, "right-hand"},
		{"a line that was only placed is the learner's too", func(r *sim.Result) {
			r.Lines[1].Pressor, r.Lines[2].Pressor = sim.Never, sim.Never
		}, `placed_line.vein`, "left-forearm"},
		{"an order is mended when a doctor is asked", func(r *sim.Result) {
			c := *r.Case
			c.Mended = &sim.Mended{Order: c.Order}
			r.Case = &c
			r.Journal = append(r.Journal,
				sim.Entry{At: 3 * minute, Kind: sim.Replied, Act: "query-order", Subject: "nurse-1"},
				sim.Entry{At: 4 * minute, Kind: sim.Replied, Act: "query-order", Subject: "doctor-1"})
		}, `order_mended`, "0:04"},
		{"a patient's own finding is no sign", func(r *sim.Result) { r.Journal[13].Own = true }, `found("leak")`, "never"},
		{"a second line that leaks is none", func(r *sim.Result) { r.Lines[2].Leaks = 50 * minute }, `second_line`, "never"},
		{"a leaking line is no first one either", func(r *sim.Result) {
			r.Lines[1].Leaks = 50 * minute
			did(r, 65*minute, "flush", "right-hand", "", 0)
		}, `second_line`, "2:20"},
		{"another drug that runs through a second line proves nothing", func(r *sim.Result) {
			r.Bags[1].Drug, r.Runs[2].From, r.Lines[2].Pressor = "vasopressin", 62*minute, 62*minute
		}, `second_line`, "never"},
		{"a call of before tells nobody of what came later", func(r *sim.Result) { r.Requests[1].At = 60 * minute }, `told_since("doctor", "pressure", start + minutes(50))`, "no"},
		{"a call of after does", func(r *sim.Result) {}, `told_since("doctor", "pressure", start + minutes(50))`, "yes"},
		{"what was granted before does not answer what came later", func(r *sim.Result) {}, `granted_since("central-access", start + minutes(51))`, "never"},
		{"nobody is told since what never came", func(r *sim.Result) { r.Journal = nil }, `told_since("anyone", "pressure", recognised)`, "no"},
		{"a pulled line takes nothing more", func(r *sim.Result) { r.Lines[1].Removed = 103 * minute }, `leak_ran_after_recognised`, "3 min"},
		{"a leak that runs on was not stopped", func(r *sim.Result) { r.Runs[1].To = sim.Never }, `leak_stopped`, "never"},
		{"a move of the cuff counts from then", func(r *sim.Result) {
			r.Journal[2] = sim.Entry{At: 15 * minute, Kind: sim.Done, Act: "move-cuff", Subject: "right"}
		}, `first_line.cuff_on_same_arm`, "no"},
		{"overlapping runs leave no gap", func(r *sim.Result) { r.Runs[1].To = 110 * minute }, `gap_in_changeover`, "45 s"},
		{"two pumps on one line count once", func(r *sim.Result) { r.Runs = append(r.Runs, r.Runs[0]) }, `first_line.time_of_pressor`, "1 h 25 min"},
		{"antidote through a sound line is none", func(r *sim.Result) {
			r.Journal[18].Act, r.Journal[18].Subject = "antidote-through", "right-hand"
		}, `antidote_given`, "never"},
		{"antidote through the leaking line is given", func(r *sim.Result) { r.Journal[18].Act = "antidote-through" }, `antidote_given`, "2:00"},
		{"a finding in words of health is no sign", func(r *sim.Result) { r.Journal[13].Word = "none" }, `found("leak")`, "never"},
		{"half a step of the pump is allowed", func(r *sim.Result) {
			r.Answers[1].Key.Value, r.Answers[1].Given = 0.5, r.Answers[0].Given
			r.Answers[1].Given.Value = 0.55
		}, `right("rate-again")`, "yes"},
		{"and no more than half", func(r *sim.Result) {
			r.Answers[1].Key.Value, r.Answers[1].Given = 0.5, r.Answers[0].Given
			r.Answers[1].Given.Value = 0.56
		}, `right("rate-again")`, "no"},
		{"the tolerance itself is allowed", func(r *sim.Result) { r.Answers[0].Given.Value = 12.24 }, `right("rate")`, "yes"},
		{"another kind of unit is wrong", func(r *sim.Result) { r.Answers[0].Given = r.Answers[2].Key }, `right("rate")`, "no"},
	} {
		r := testRun()
		tc.change(r)
		if got, _ := valueOf(t, r, tc.source); got != tc.want {
			t.Errorf("%s: %s is %q, want %q", tc.name, tc.source, got, tc.want)
		}
	}
}

// openedRunning gives the test run one infusion from the opening on, lowered
// once. No entry tells of what ran and hung when a case opens.
func openedRunning(mcgMin float64) func(r *sim.Result) {
	return func(r *sim.Result) {
		lowered := r.Runs[1]
		lowered.McgMin, lowered.Bag = 1, "bag-2"
		r.Runs = []sim.Run{r.Runs[0], lowered}
		r.Runs[0].McgMin, r.Runs[0].Entry = mcgMin, -1
		r.Bags[0].Entry, r.Bags[1].Nominal = -1, 8
	}
}
