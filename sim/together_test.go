package sim

import (
	"math/rand/v2"
	"strings"
	"testing"

	"blanch/sim/vein"
)

// crowd is an engine of the test case with everybody at the bed.
func crowd(t *testing.T, c *Case, p *Place, seed uint64) *Engine {
	t.Helper()
	e, err := New(c, p, seed)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range e.people {
		p.here = true
	}
	return e
}

func notDone(e *Engine) (why []string) {
	for _, en := range e.journal {
		if en.Kind == NotDone {
			why = append(why, en.Text())
		}
	}
	return why
}

// Two people begin what only one of them can end: whoever is later is told so
// at the end, and nothing comes of it.
func TestTwoPeopleAtOneThing(t *testing.T) {
	threeLines := func(c *Case) {
		c.InPlace = handedOver().InPlace
		for _, id := range []string{"right-hand", "right-basilic-arm"} {
			c.InPlace = append(c.InPlace, InPlace{Vein: id, Cannula: vein.Cannula{Gauge: 20, LengthMM: 47.8}, AngleDeg: 30})
		}
	}
	const twoBags = `
0:00:00 mix 4 mg of norepinephrine in 250 mL, adding to the bag
0:04:00 mix 4 mg of norepinephrine in 100 mL, adding to the bag
`
	const twoPumps = twoBags + `
0:08:00 hang bag-1 on pump-1
0:09:00 hang bag-2 on pump-2
0:10:00 prime pump-1
0:11:00 prime pump-2
0:12:00 set pump-1 to 10 mL/h
0:13:00 set pump-2 to 10 mL/h
`
	const running = twoPumps + `
0:14:00 connect pump-1 to left-cephalic-forearm
0:15:00 start pump-1
`
	for name, tc := range map[string]struct {
		script, told string
		ended        func(e *Engine) bool // as it must be
	}{
		"one bag on two pumps": {twoBags + `
0:20:00 ask second-nurse to hang bag-1 on pump-1
0:20:05 hang bag-1 on pump-2`,
			"Not done after all (hang bag-1 on pump-2): bag-1 hangs on pump-1 already.",
			func(e *Engine) bool { return e.pumps[0].bag == e.bags[0] && e.pumps[1].bag == nil }},
		"two pumps on one line": {twoPumps + `
0:20:00 connect pump-1 to right-hand
0:20:05 ask second-nurse to connect pump-2 to right-hand`,
			"Not done after all (ask second-nurse to connect pump-2 to right-hand): pump-1 is connected there already.",
			func(e *Engine) bool { return e.pumps[0].site != nil && e.pumps[1].site == nil }},
		"a bag hung on a pump that has been started": {running + `
0:20:00 mix 4 mg of norepinephrine in 250 mL, adding to the bag
0:25:00 stop pump-1
0:25:10 ask second-nurse to hang bag-3 on pump-1
0:25:20 start pump-1`,
			"Not done after all (ask second-nurse to hang bag-3 on pump-1): pump-1 is running; stop it first.",
			func(e *Engine) bool { return e.pumps[0].running }},
		"a line pulled under a pump's tubing": {twoPumps + `
0:20:00 ask second-nurse to pull right-hand
0:20:15 connect pump-1 to right-hand`,
			"Not done after all (connect pump-1 to right-hand): the cannula in right-hand is out.",
			func(e *Engine) bool { return e.pumps[0].site == nil }},
		"a pump taken off under a move": {running + `
0:20:00 ask second-nurse to move pump-1 to right-hand
0:20:10 disconnect pump-1`,
			"Not done after all (ask second-nurse to move pump-1 to right-hand): pump-1 is not connected to a line; connect it.",
			func(e *Engine) bool { return e.pumps[0].site == nil && !e.pumps[0].running }},
		"a move to a line that was taken": {running + `
0:20:00 move pump-1 to right-hand
0:20:05 ask second-nurse to connect pump-2 to right-hand`,
			"Not done after all (move pump-1 to right-hand): pump-2 is connected there; disconnect it first.",
			func(e *Engine) bool { return e.pumps[0].site == e.sites[0] && e.pumps[0].running }},
		"stopped by both": {running + `
0:20:00 stop pump-1
0:20:02 ask second-nurse to stop pump-1`,
			"", func(e *Engine) bool { return !e.pumps[0].running }},
		"stopped while it is moved": {running + `
0:20:00 ask second-nurse to move pump-1 to right-hand
0:20:10 stop pump-1
0:20:20 ask doctor to stop pump-1`,
			"", func(e *Engine) bool { return e.pumps[0].site == e.lastSite("right-hand") && !e.pumps[0].running }},
		"moved by two": {running + `
0:20:00 ask second-nurse to move pump-1 to right-hand primed to the tip
0:21:40 move pump-1 to right-hand`,
			"Not done after all (move pump-1 to right-hand): pump-1 is connected there already.",
			func(e *Engine) bool { return e.pumps[0].site == e.lastSite("right-hand") && e.pumps[0].running }},
		"moved by two to two lines": {running + `
0:20:00 ask second-nurse to move pump-1 to right-hand
0:20:10 move pump-1 to right-basilic-arm`,
			"", func(e *Engine) bool { return e.pumps[0].site == e.lastSite("right-basilic-arm") && e.pumps[0].running }},
		"started while it is moved": {running + `
0:20:00 ask second-nurse to move pump-1 to right-hand
0:20:10 start pump-1`,
			"", func(e *Engine) bool { return e.runs[len(e.runs)-1].From == 20*Minute+45*Second }},
		"stopped, and started while it is moved": {running + `
0:20:00 stop pump-1
0:21:00 ask second-nurse to move pump-1 to right-hand
0:21:10 start pump-1`,
			"", func(e *Engine) bool { return e.pumps[0].site == e.lastSite("right-hand") && e.pumps[0].running }},
		"flushed by two": {running + `
0:20:00 ask second-nurse to flush right-hand with 10 mL
0:20:10 flush right-hand with 10 mL
0:20:10 ask doctor to flush right-basilic-arm with 10 mL`,
			"", func(e *Engine) bool {
				said := func(en Entry) bool { return en.Kind == Refused && en.Why == "somebody is flushing it already" }
				return count(e, said) == 1 && e.lastSite("right-hand").flush == 0
			}},
		"a flush of a line that is pulled": {running + `
0:20:00 ask second-nurse to pull right-hand
0:20:30 flush right-hand with 10 mL`,
			"Not done after all (flush right-hand with 10 mL): the cannula in right-hand is out.",
			func(e *Engine) bool { return e.lastSite("right-hand").held == 0 && e.lastSite("right-hand").flush == 0 }},
		"one syringe twice": {`
0:00:00 draw up 5 mg of phentolamine to 10 mL
0:20:00 ask doctor to infiltrate around left-cephalic-forearm with 6 mL of antidote-1
0:20:05 infiltrate around right-hand with 6 mL of antidote-1`,
			"Not done after all (infiltrate around right-hand with 6 mL of antidote-1): antidote-1 holds 4 mL.",
			func(e *Engine) bool { return e.bags[0].left == 4 }},
		"one syringe through two sound lines": {`
0:00:00 draw up 5 mg of phentolamine to 10 mL
0:20:00 ask doctor to inject 6 mL of antidote-1 through left-cephalic-forearm
0:20:05 inject 6 mL of antidote-1 through right-hand`,
			"Not done after all (inject 6 mL of antidote-1 through right-hand): antidote-1 holds 4 mL.",
			func(e *Engine) bool { return e.bags[0].left == 4 }},
		"the last vials twice": {`
0:20:00 ask second-nurse to mix 16 mg of norepinephrine in 250 mL, adding to the bag
0:20:05 mix 16 mg of norepinephrine in 100 mL, adding to the bag`,
			"Not done after all (mix 16 mg of norepinephrine in 100 mL, adding to the bag): 16 mg of norepinephrine cannot be had: 8 mg are left in stock.",
			func(e *Engine) bool { return len(e.bags) == 1 }},
		"ointment twice": {`
0:20:00 ask second-nurse to put nitrate ointment on right-hand
0:20:05 put nitrate ointment on right-hand`,
			"Not done after all (put nitrate ointment on right-hand): it lies there already.",
			func(e *Engine) bool { return e.lastSite("right-hand").nitrate }},
		"one pump started by both": {running + `
0:20:00 stop pump-1
0:20:10 start pump-1
0:20:11 ask second-nurse to start pump-1`,
			"Not done after all (ask second-nurse to start pump-1): pump-1 is running already.",
			func(e *Engine) bool { return e.pumps[0].running }},
		"a check while another looks": {running + `
0:20:00 ask second-nurse to feel around right-hand
0:20:05 test blood return at left-cephalic-forearm`,
			"", func(e *Engine) bool { return e.sites[0].held == 0 }},
		"a call answered while another works": {running + `
0:20:00 ask second-nurse to feel around right-hand
0:50:00 answer bed-4
0:50:10 ask second-nurse to feel around right-hand`,
			"", func(e *Engine) bool { return count(e, func(en Entry) bool { return en.Word == "Thank you." }) == 1 }},
	} {
		t.Run(name, func(t *testing.T) {
			c := testCase()
			c.Leak = Fate{Kind: NoLeak}
			threeLines(c)
			e := crowd(t, c, testPlace(), 1)
			follow(t, e, tc.script)
			e.Advance(Hour)
			if told := strings.Join(notDone(e), "\n"); told != tc.told {
				t.Errorf("told %q, want %q", told, tc.told)
			}
			if !tc.ended(e) {
				t.Error("it did not end as it should")
			}
			holdsTogether(t, e)
		})
	}
}

// holdsTogether is what is so at every instant, whoever does what.
func holdsTogether(t *testing.T, e *Engine) {
	t.Helper()
	for _, p := range e.pumps {
		switch {
		case p.site != nil && p.site.pump != p:
			t.Fatalf("%s: %s is on %s, which has another pump", e.now.Exact(), p.ID, p.site.Subject)
		case p.bag != nil && p.bag.pump != p:
			t.Fatalf("%s: %s has %s, which hangs elsewhere", e.now.Exact(), p.ID, p.bag.ID)
		case p.blockedAlarm != Never && (p.site == nil || !p.site.blocked() || !p.running):
			t.Fatalf("%s: %s waits to notice a blockage where it meets none", e.now.Exact(), p.ID)
		case p.running && (p.site == nil || p.bag == nil || p.bag.left <= 0):
			t.Fatalf("%s: %s runs without a line or a bag", e.now.Exact(), p.ID)
		}
	}
	for _, s := range e.sites {
		if s.pump != nil && s.pump.site != s {
			t.Fatalf("%s: %s has %s, which is elsewhere", e.now.Exact(), s.Subject, s.pump.ID)
		}
	}
	used := map[string]float64{}
	for _, b := range e.bags {
		if b.pump != nil && b.pump.bag != b {
			t.Fatalf("%s: %s hangs on %s, which has another bag", e.now.Exact(), b.ID, b.pump.ID)
		}
		if b.left < -1e-9 {
			t.Fatalf("%s: %v mL are left of %s", e.now.Exact(), b.left, b.ID)
		}
		switch {
		case b.Entry < 0: // hung there when the case opened
		case b.came:
			used["premixed "+b.Drug]++
		default:
			used[b.Drug] += b.Nominal * b.nominalML() / perMG(b.Drug)
		}
	}
	for _, v := range e.p.Vials {
		if have := v.MG * float64(v.Number); used[v.Drug] > have+1e-9 {
			t.Fatalf("%s: %v %s of %s used, %v were there", e.now.Exact(), used[v.Drug], v.unit(), v.Drug, have)
		}
	}
	for _, v := range e.p.Premixed {
		if used["premixed "+v.Drug] > float64(v.Number) {
			t.Fatalf("%s: %v premixed bags of %s used, %d were there", e.now.Exact(), used["premixed "+v.Drug], v.Drug, v.Number)
		}
	}
	open := map[string]bool{}
	for _, r := range e.runs {
		if r.To == Never {
			if open[r.Pump] || open[r.Subject] {
				t.Fatalf("%s: two runs of %s or through %s at once", e.now.Exact(), r.Pump, r.Subject)
			}
			open[r.Pump], open[r.Subject] = true, true
		}
	}
	balance(t, e.Book())
}

// contended are acts that take hold of something there is one of.
var contended = []string{
	"hang BAG on PUMP", "prime PUMP", "connect PUMP to LINE", "connect PUMP to LINE primed to the tip", "set PUMP to 20 mL/h",
	"start PUMP", "stop PUMP", "disconnect PUMP", "move PUMP to LINE", "move PUMP to LINE primed to the tip",
	"pull LINE", "flush LINE with 5 mL", "test blood return at LINE", "draw back from LINE",
	"mix 8 mg of norepinephrine in 100 mL, adding to the bag", "take a premixed bag of 4 mg of norepinephrine in 250 mL",
	"draw up 5 mg of phentolamine to 10 mL", "infiltrate around LINE with 6 mL of SYRINGE", "inject 6 mL of SYRINGE through LINE",
	"put nitrate ointment on LINE", "wipe the ointment off LINE", "put a tourniquet on the left arm", "take the tourniquet off the left arm",
	"leave off", "take the pressure",
}

func contend(rng *rand.Rand) Action {
	one := func(list ...string) string { return list[rng.IntN(len(list))] }
	a, err := ParseAction(strings.NewReplacer(
		"BAG", one("bag-1", "bag-2"), "PUMP", one("pump-1", "pump-2"), "SYRINGE", one("antidote-1", "antidote-2"),
		"LINE", one("left-cephalic-forearm", "right-hand", "right-basilic-arm"),
	).Replace(one(contended...)))
	if err != nil {
		panic(err)
	}
	return a
}

// However the acts of several people cross, one bag is on one pump and one
// pump on one line, nothing is used twice, and the books close. Alone, nobody
// is ever told at the end that it could not be done.
func TestActsThatCross(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 4))
	crossed := 0
	for round := range rounds(150) {
		alone := round%5 == 0
		c, p := testCase(), testPlace()
		p.Premixed = []Premixed{{Drug: "norepinephrine", MG: 4, ML: 250, Number: 2}}
		p.Vials[0].Number = 4
		p.TubingML = 2
		c.Leak = Fate{Kind: ByHazard, PerHour: rng.Float64()}
		c.Wear = vein.Ends{Occlusion: 2 * rng.Float64(), Dislodging: rng.Float64()}
		c.Calls, c.Ask = nil, nil
		c.InPlace = handedOver().InPlace
		for _, id := range []string{"right-hand", "right-basilic-arm"} {
			c.InPlace = append(c.InPlace, InPlace{Vein: id, Cannula: vein.Cannula{Gauge: 20, LengthMM: 47.8}, AngleDeg: 40})
		}
		if rng.IntN(2) == 0 {
			c.Running = handedOver().Running
			c.Running[0].LeftML = 6 * rng.Float64()
		}
		e := crowd(t, c, p, rng.Uint64())
		for range 400 {
			a := contend(rng)
			if !alone {
				a.By = []string{"", "second-nurse", "doctor"}[rng.IntN(3)]
			}
			e.Do(a)
			holdsTogether(t, e)
			e.Advance(e.Now() + Time(rng.Int64N(int64(20*Second))))
			holdsTogether(t, e)
		}
		n := len(notDone(e))
		if alone && n > 0 {
			t.Fatalf("alone: %q", notDone(e))
		}
		crossed += n
	}
	if crossed < rounds(150) {
		t.Errorf("only %d acts were crossed; the test proves little", crossed)
	}
	t.Logf("%d acts were crossed", crossed)
}

// A bag that runs low while an extension is run through gives what it has, and
// no more.
func TestAnExtensionTakesNoMoreThanTheBagHas(t *testing.T) {
	c := handedOver()
	c.Running[0].LeftML = 1
	c.InPlace = append(c.InPlace, InPlace{Vein: "right-basilic-arm", Cannula: vein.Cannula{Gauge: 20, LengthMM: 47.8}, AngleDeg: 40})
	e := newEngine(t, c, 1)
	if n := follow(t, e, "0:01:00 move pump-1 to right-basilic-arm primed to the tip\n"); n > 0 {
		t.Fatal("the move was refused")
	}
	e.Advance(10 * Minute)
	holdsTogether(t, e)
	if left := e.bags[0].left; left != 0 {
		t.Errorf("%v mL are left in the bag", left)
	}
	if alarm, ok := entry(e, "bag empty"); !ok || alarm.At != 3*Minute || e.pumps[0].running {
		t.Errorf("alarmed %v at %s, running %v; the move ended at 0:03:00", ok, alarm.At.Exact(), e.pumps[0].running)
	}
}
