package sim

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"blanch/sim/vein"
)

// worn plays the set-up with one way of ending made certain and gives the
// engine at the end and when it came.
func worn(t *testing.T, wear vein.Ends, more string, change func(c *Case)) (*Engine, *site) {
	t.Helper()
	c := testCase()
	c.Leak, c.Wear = Fate{Kind: NoLeak}, wear
	if change != nil {
		change(c)
	}
	e := newEngine(t, c, luckySeed(t, 1))
	follow(t, e, setUp+more)
	e.Advance(c.Ends)
	return e, e.sites[0]
}

func entry(e *Engine, what string) (Entry, bool) {
	for _, en := range e.journal {
		if en.What == what {
			return en, true
		}
	}
	return Entry{}, false
}

// A blocked cannula stops the drug at once and the pump late: the set first
// takes up what its give allows (syringe pumps: alarm delays of 4 to 10 min at
// 5 mL/h, from compliance x pressure / flow; Snijder 2015).
func TestBlockedLineAlarmsLate(t *testing.T) {
	e, s := worn(t, vein.Ends{Occlusion: 50}, "", func(c *Case) {})
	hidden, ok := entry(e, "the cannula is blocked")
	alarm, alarmed := entry(e, "line blocked")
	if !ok || !alarmed || !s.blocked() {
		t.Fatalf("blocked %v, alarmed %v", ok, alarmed)
	}
	delay := (alarm.At - hidden.At).Seconds() / 60
	if want := pressML / 11.6 * 60; delay < want-0.1 || delay > want+0.1 {
		t.Errorf("alarm after %.2f min at 11.6 mL/h, want %.2f", delay, want)
	}
	if at5 := delay * 11.6 / 5; at5 < 4 || at5 > 10 {
		t.Errorf("at 5 mL/h that is %.1f min, published 4 to 10", at5)
	}
	if e.pumps[0].running {
		t.Error("the pump still runs")
	}
	if b := e.Book().Drugs[0]; b.IntoTissue != 0 {
		t.Error("a blocked line leaked")
	}
}

// A pump's alarm is about the line it runs into now, at the rate it runs at now:
// it comes with the blocked line alone, sooner at a higher rate, and anew after
// a stop.
func TestBlockedAlarmFollowsWhatThePumpDoes(t *testing.T) {
	atOnce := pressML / 14 * 3600 // s from the blockage, or from a start, at 14 mL/h
	for name, tc := range map[string]struct {
		lines string  // done at each minute from the first after the blockage on
		after float64 // s from the blockage to the alarm; 0 for none
	}{
		"nothing done": {"", atOnce},
		"moved":        {"move pump-1 to right-basilic-arm", 0},
		"disconnected and connected elsewhere": {`stop pump-1
disconnect pump-1
connect pump-1 to right-basilic-arm
start pump-1`, 0},
		"stopped":             {"stop pump-1", 0},
		"stopped and started": {"stop pump-1\nstart pump-1", 60 + 60 + 5 + atOnce},
		"set to half":         {"set pump-1 to 7 mL/h", 75 + (atOnce-75)*2},
		"set to twice":        {"set pump-1 to 28 mL/h", 75 + (atOnce-75)/2},
		"straightened":        {"straighten the left arm", 0},
	} {
		c := handedOver()
		c.Leak, c.Ends = Fate{Kind: NoLeak}, 2*Hour
		c.InPlace = append(c.InPlace, InPlace{Vein: "right-basilic-arm", Cannula: vein.Cannula{Gauge: 20, LengthMM: 47.8}, AngleDeg: 40})
		e := newEngine(t, c, 1)
		e.Advance(10 * Minute)
		e.change(e.now)
		e.comes(e.sites[0], endOcclusion, e.now.Seconds())
		e.settle(e.now)
		e.sites[0].kinked = true
		for line := range strings.Lines(tc.lines) {
			e.Advance(e.now + Minute)
			a, err := ParseAction(strings.TrimSpace(line))
			if err != nil {
				t.Fatal(err)
			}
			if en := e.Do(a)[0]; en.Kind == Refused {
				t.Fatalf("%s: %s", name, en.Text())
			}
		}
		e.Advance(c.Ends)
		alarm, alarmed := entry(e, "line blocked")
		got := 0.0
		if alarmed {
			got = (alarm.At - 10*Minute).Seconds()
		}
		if math.Abs(got-tc.after) > 0.002 {
			t.Errorf("%s: the alarm comes after %v s, want %v (0: never)", name, got, tc.after)
		}
	}
}

// A kink is undone by straightening the arm; a clot is not.
func TestStraighteningUndoesAKink(t *testing.T) {
	for _, kinked := range []bool{true, false} {
		c := testCase()
		c.Leak, c.Wear = Fate{Kind: NoLeak}, vein.Ends{Occlusion: 30}
		e := newEngine(t, c, luckySeed(t, 1))
		follow(t, e, setUp)
		for !e.sites[0].blocked() && !e.over {
			e.Advance(e.Now() + 10*Second)
		}
		e.sites[0].kinked = kinked
		a, _ := ParseAction("straighten the left arm")
		e.Do(a)
		e.Advance(e.Now() + 20*Second)
		if e.sites[0].blocked() == kinked {
			t.Errorf("kinked %v, blocked after straightening %v", kinked, e.sites[0].blocked())
		}
	}
}

// A cannula that slips out runs into the bed, without an alarm, and is found
// by looking.
func TestSlippedCannulaRunsIntoTheBed(t *testing.T) {
	e, s := worn(t, vein.Ends{Dislodging: 50}, "1:00:00 uncover left-cephalic-forearm\n", nil)
	if !s.slipped() || s.inPlace() {
		t.Fatal("it never slipped")
	}
	if b := e.Book().Drugs[0]; b.Spilled < 100 {
		t.Errorf("%v mcg in the bed", b.Spilled)
	}
	if _, ok := entry(e, "line blocked"); ok {
		t.Error("a pump noticed")
	}
	found, ok := entry(e, "cannula")
	for _, en := range e.journal {
		if en.What == "cannula" && en.Kind == Found {
			found = en
		}
	}
	if !ok || !strings.Contains(found.Word, "sheet") {
		t.Errorf("looking found %q", found.Word)
	}
}

// An inflamed vein is red and sore along its course; the infusion goes on and
// no sign of a leak is there.
func TestInflamedVeinIsNoLeak(t *testing.T) {
	e, s := worn(t, vein.Ends{Phlebitis: 50}, "1:00:00 uncover left-cephalic-forearm\n1:01:00 feel around left-cephalic-forearm\n", nil)
	if !s.inflamed() || !e.pumps[0].running {
		t.Fatal("not inflamed, or no longer running")
	}
	streak := false
	for _, en := range e.journal {
		if en.Kind == Found && en.What == "along the vein" {
			streak = true
		}
		if en.Kind == Found && SignOf(en.What) != "" && Abnormal(en.What, en.Word, en.Value) {
			t.Errorf("a sign of a leak: %s", en.Text())
		}
	}
	if !streak {
		t.Error("nobody saw the streak")
	}
}

// A cuff on the arm of the infusion holds it up each time it squeezes.
func TestCuffOnTheSameArmHoldsTheDrugUp(t *testing.T) {
	free := func(arm Side) float64 {
		e, _ := worn(t, vein.Ends{}, "", func(c *Case) { c.CuffArm = arm })
		return e.Result().Outcome.DrugFreeS
	}
	same, other := free(Left), free(Right)
	if other != 0 || same < 30*30 {
		t.Errorf("drug-free for %v s with the cuff on the same arm, %v s on the other", same, other)
	}
}

// A vein that the case draws is one seed's for ever, and differs between
// seeds.
func TestDrawnVeins(t *testing.T) {
	c := testCase()
	c.Veins[0].Kind = "forearm-cephalic"
	widths := map[float64]bool{}
	for seed := uint64(1); seed < 20; seed++ {
		a, b := newEngine(t, c, seed), newEngine(t, c, seed)
		if !reflect.DeepEqual(a.veins[0], b.veins[0]) || a.veins[0].Site != vein.Forearm {
			t.Fatal("the same seed draws another vein")
		}
		widths[a.veins[0].DiameterMM] = true
	}
	if len(widths) < 15 {
		t.Errorf("only %d widths in 19 seeds", len(widths))
	}
	c.Veins[0].Kind = "aorta"
	if _, err := New(c, testPlace(), 1); err == nil || !strings.Contains(err.Error(), "aorta") {
		t.Errorf("an unknown kind of vein: %v", err)
	}
}

// Property 4 for the other ends: on the same seed a longer cannula is never
// blocked, inflamed or pulled out earlier.
func TestLongerCannulaNeverEndsEarlier(t *testing.T) {
	for seed := uint64(1); seed <= uint64(rounds(40)); seed++ {
		ends := func(length string) (out [nEnds]Time, ok bool) {
			c := testCase()
			c.Leak, c.Wear = Fate{Kind: NoLeak}, vein.Ends{Phlebitis: 0.4}
			e := newEngine(t, c, seed)
			follow(t, e, strings.ReplaceAll(setUp, "47.8", length))
			e.Advance(c.Ends)
			if len(e.sites) == 0 {
				return out, false
			}
			for i := range out {
				out[i] = e.sites[0].wear[i].came
			}
			return out, true
		}
		short, ok := ends("25.4")
		long, _ := ends("47.8")
		for i := range short {
			if ok && long[i] < short[i] {
				t.Errorf("seed %d: end %d comes at %s with 47.8 mm, at %s with 25.4 mm", seed, i, long[i].Exact(), short[i].Exact())
			}
		}
	}
}

// The antidote reaches the blood in part and lowers the pressure a little, as
// an alpha blocker does (intravenous half-life 19 min, effect 10 to 30 min;
// monograph, second-hand): by more than nothing and by less than a crisis.
func TestAntidoteReachesThePressure(t *testing.T) {
	low := func(more string) float64 {
		c := testCase()
		c.Leak = Fate{Kind: NoLeak}
		e := newEngine(t, c, luckySeed(t, 1))
		follow(t, e, setUp+more)
		least := 1000.0
		for e.Advance(2*Hour + 10*Minute); e.Now() < 2*Hour+40*Minute; e.Advance(e.Now() + Minute) {
			least = min(least, e.meanAt(e.Now().Seconds()))
		}
		return least
	}
	without := low("")
	with := low("2:00:00 draw up 10 mg of phentolamine to 10 mL\n2:05:00 infiltrate around left-cephalic-forearm with 10 mL of antidote-1\n")
	if fall := without - with; fall < 0.2 || fall > 8 {
		t.Errorf("10 mg of phentolamine in the tissue lowers the mean pressure by %.2f mmHg", fall)
	}
}

// What the pump gives and what reaches the blood are the same but for the
// line's content until it leaks, and part after that.
func TestDoseSetAgainstDoseReached(t *testing.T) {
	c := testCase()
	c.Leak = Fate{Kind: NoLeak}
	e := newEngine(t, c, luckySeed(t, 1))
	follow(t, e, setUp)
	e.Advance(c.Ends)
	if o := e.Result().Outcome; o.ReachedMcg < 0.999*o.SetMcg || o.ReachedMcg > 1.001*o.SetMcg {
		t.Errorf("set %v, reached %v without a leak", o.SetMcg, o.ReachedMcg)
	}
	e = newEngine(t, testCase(), luckySeed(t, 1))
	follow(t, e, setUp)
	e.Advance(testCase().Ends)
	if o := e.Result().Outcome; o.ReachedMcg > 0.75*o.SetMcg {
		t.Errorf("set %v, reached %v with a leak of nine tenths", o.SetMcg, o.ReachedMcg)
	}
}
