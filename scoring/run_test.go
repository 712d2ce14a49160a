package scoring

import (
	"blanch/scenarios"
	"blanch/sim"
	"blanch/sim/quantity"
	"blanch/sim/vein"
)

const minute = sim.Minute

// testPolicy is an invented policy.
func testPolicy() *scenarios.Policy {
	return &scenarios.Policy{
		ID: "test-policy", Title: "Test policy",
		LongestRun: 4 * sim.Hour, DecideBy: 2 * sim.Hour,
		CheckEarly: 15 * minute, EarlyFor: sim.Hour, CheckLater: 30 * minute,
		Sites: []vein.Site{vein.Forearm, vein.UpperArm}, Gauges: []int{18, 20}, LeastMM: 29, LeastShare: 0.65,
		MostMcgML: map[string]float64{"norepinephrine": 16}, MostMcgMin: map[string]float64{"norepinephrine": 15},
		SecondChecks: []string{"bag"}, BackupBy: 30 * minute, StartBy: 30 * minute,
		AntidoteMG: [2]float64{5, 10}, AntidoteML: [2]float64{10, 15}, AntidoteBy: 30 * minute,
		RateStepMLH: 0.1, Tolerance: 0.02, WithdrawFirst: true,
	}
}

// testRun is four hours written by hand:
//
//	0:10 a 20 gauge cannula in the forearm, 81 % of it in the vein
//	0:20 drug in the blood at 0:21; the pressure shown every 10 min
//	1:00 a cannula in the hand, 22 gauge, half of it in the vein
//	1:10 the forearm line leaks, to be found from 1:15
//	1:20 the dose is raised; 1:40 felt: swollen; 1:42 named
//	1:45 stopped; 1:46 to 2:30 through the hand; then central to the end
func testRun() *sim.Result {
	c := referenceCase()
	c.CuffArm = sim.Left
	c.Order.Text = "norepinephrine 0.05 mcg/kg/min"
	forearm := sim.LineRecord{
		Subject: "left-forearm", Side: sim.Left, Vein: vein.Vein{Site: vein.Forearm}, Cannula: vein.Cannula{Gauge: 20, LengthMM: 48},
		Share: 0.81, Scan: true, Placed: 10 * minute, Pressor: 20 * minute, Removed: sim.Never, Leaks: 70 * minute, Entry: 1,
	}
	failed := forearm
	failed.Placed, failed.Pressor, failed.Leaks, failed.Entry = sim.Never, sim.Never, sim.Never, 0
	hand := sim.LineRecord{
		Subject: "right-hand", Side: sim.Right, Vein: vein.Vein{Site: vein.Hand}, Cannula: vein.Cannula{Gauge: 22, LengthMM: 25},
		Share: 0.5, Placed: 60 * minute, Pressor: 106 * minute, Removed: sim.Never, Leaks: sim.Never, Entry: 8,
	}
	neck := sim.LineRecord{Subject: "central", Central: true, Placed: 140 * minute, Pressor: 150 * minute, Removed: sim.Never, Leaks: sim.Never, Entry: 19}
	done := func(at sim.Time, act, subject string) sim.Entry {
		return sim.Entry{At: at, Kind: sim.Done, Act: act, Subject: subject}
	}
	shown := func(at sim.Time, mmHg float64) sim.Entry {
		return sim.Entry{At: at, Kind: sim.Reading, What: "mean pressure", Value: mmHg, Unit: "mmHg"}
	}
	with := func(e sim.Entry, word string, value float64) sim.Entry {
		e.Word, e.Value = word, value
		return e
	}
	return &sim.Result{
		Case:  &c.Case,
		Place: &sim.Place{People: []sim.Person{{ID: "doctor-1", Role: sim.Doctor}, {ID: "second-nurse", Role: sim.Nurse}}},
		Ended: 240 * minute,
		Journal: []sim.Entry{
			0:  done(7*minute, "insert", "left-forearm"),
			1:  done(10*minute, "insert", "left-forearm"),
			2:  done(15*minute, "check-bag", "bag-1"),
			3:  shown(16*minute, 50),
			4:  done(20*minute, "start", "pump-1"),
			5:  {At: 21 * minute, Kind: sim.Hidden, What: "first drug in the blood"},
			6:  shown(30*minute, 60),
			7:  with(done(35*minute, "feel", "left-forearm"), "", 0),
			8:  done(60*minute, "insert", "right-hand"),
			9:  shown(65*minute, 70),
			10: done(80*minute, "set", "pump-1"),
			11: {At: 90 * minute, Kind: sim.Found, Act: "feel", Subject: "right-hand", What: "swelling", Word: "swollen"}, // the other arm
			12: shown(95*minute, 62),
			13: {At: 100 * minute, Kind: sim.Found, Act: "feel", Subject: "left-forearm", What: "swelling", Word: "swollen"},
			14: {At: 100 * minute, Kind: sim.Done, Who: "second-nurse", Act: "feel", Subject: "left-forearm"},
			15: with(done(102*minute, "judge", "left-forearm"), "leaking", 0),
			16: done(105*minute, "stop", "pump-1"),
			17: done(106*minute, "start", "pump-2"),
			18: with(done(120*minute, "infiltrate", "left-forearm"), "antidote-1", 8),
			19: {At: 140 * minute, Kind: sim.Event, What: "central line", Word: "in"},
			20: done(150*minute, "move", "central"),
			21: with(done(151*minute, "judge", "right-hand"), "leaking", 0),
			22: {At: 155 * minute, Kind: sim.Lapsed, Subject: "bed-4"},
			23: {At: 160 * minute, Kind: sim.Answered, Act: "give", Subject: "rate", Word: "13.1 mL/h"},
			24: {At: 165 * minute, Kind: sim.Replied, Act: "call", Subject: "doctor-1"},
			25: with(done(170*minute, "decide", "plan"), "ask for central access", 0),
			26: shown(180*minute, 84),
		},
		Lines: []sim.LineRecord{failed, forearm, hand, neck},
		Runs: []sim.Run{
			{Pump: "pump-1", Subject: "left-forearm", Bag: "bag-1", From: 20 * minute, To: 80 * minute, MLH: 12, McgMin: 3.2, Entry: 4},
			{Pump: "pump-1", Subject: "left-forearm", Bag: "bag-1", From: 80 * minute, To: 105 * minute, MLH: 24, McgMin: 6.4, Entry: 10},
			{Pump: "pump-2", Subject: "right-hand", Bag: "bag-2", From: 106 * minute, To: 150 * minute, MLH: 24, McgMin: 12.8, Entry: 17},
			{Pump: "pump-2", Subject: "central", Bag: "bag-2", From: 150*minute + 45*sim.Second, To: 240 * minute, MLH: 60, McgMin: 32, Entry: 20},
		},
		Bags: []sim.BagRecord{
			{ID: "bag-1", Drug: "norepinephrine", Nominal: 16, Entry: 2},
			{ID: "bag-2", Drug: "norepinephrine", Nominal: 32, Entry: 17},
			{ID: "antidote-1", Drug: "phentolamine", Nominal: 1000, VolumeML: 10, MixedAt: 110 * minute, Entry: 18},
		},
		Answers: []sim.AnswerRecord{
			{ID: "rate", Key: quantity.Of(12, "mL/h"), Raw: "13.1 mL/h", Given: quantity.Of(13.1, "mL/h"), At: 160 * minute, Entry: 23},
			{ID: "rate-again", Key: quantity.Of(12, "mL/h"), Raw: "0.2 mL/min", Given: quantity.Of(0.2, "mL/min"), At: 161 * minute, Entry: 23},
			{ID: "concentration", Key: quantity.Of(16, "mcg/mL"), Raw: "16", Given: quantity.Quantity{Value: 16}, At: 162 * minute, Entry: 23},
		},
		Requests: []sim.RequestRecord{
			{Person: "doctor-1", Facts: []string{"who"}, Request: "central-access", At: 60 * minute, Entry: 24},
			{Person: "doctor-1", Facts: []string{"who", "pressure"}, Request: "central-access", Granted: true, At: 70 * minute, Entry: 24},
			{Person: "second-nurse", Facts: []string{"plan"}, Request: "handover", Granted: true, At: 239 * minute, Entry: 24},
		},
		Sights: []sim.Sighting{
			{Subject: "left-forearm", Sign: "swelling", At: 75 * minute},
			{Subject: "left-forearm", Sign: "leak", At: 75 * minute},
		},
		Outcome: sim.Outcome{FirstDrug: 21 * minute, DrugFreeS: 90, UnderS: 600, IschaemicS: 2400, TissueMcg: 300, TissueML: 12, WidestMM: 55, PeakDoseMcgM: 32},
	}
}

// emptyRun is a learner who did nothing at all.
func emptyRun() *sim.Result {
	c := referenceCase()
	return &sim.Result{Case: &c.Case, Place: &sim.Place{}, Ended: 240 * minute, Outcome: sim.Outcome{FirstDrug: sim.Never}}
}
