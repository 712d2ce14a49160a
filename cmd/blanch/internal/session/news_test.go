package session

import (
	"slices"
	"strings"
	"testing"
	"time"

	"blanch/sim"
	"blanch/sim/drug"
)

// through lets the clock run in slices of real time until it stands.
func through(s *Session) (lines []Line) {
	for s.Running() {
		lines = append(lines, s.Pass(100*time.Millisecond)...)
	}
	return lines
}

// TestAWaitIsHeldAlike: what cannot be left for later holds a wait on every
// face, whether the clock jumps, runs, or would be slowed if it had been let
// run.
func TestAWaitIsHeldAlike(t *testing.T) {
	for _, slows := range []bool{false, true} {
		for _, speed := range []float64{0, 60} {
			s := ward(t, speed)
			if slows {
				s.Slows()
			}
			for s.e.Now() < 26*sim.Minute { // alarms come first
				if err := s.Wait("until 0:40"); err != nil {
					t.Fatal(err)
				}
				through(s)
			}
			if now := s.e.Now(); now != 26*sim.Minute || s.Speed() != speed {
				t.Errorf("slows %t: a call at 0:26 leaves the clock at %s, x%g", slows, now.Exact(), s.Speed())
			}
			s, _ = small(t, speed)
			if slows {
				s.Slows()
			}
			s.Handle("send for second-nurse")
			through(s)
			if err := s.Wait("11 min"); err != nil {
				t.Fatal(err)
			}
			lines := through(s)
			if text := lines[0].Text; !strings.Contains(text, "second-nurse") {
				t.Errorf("slows %t: the wait goes on to %s past an arrival: %q", slows, s.e.Now().Exact(), text)
			}
		}
	}
}

// TestAnActEndsAWait: nothing that was waited for goes on by itself after it.
func TestAnActEndsAWait(t *testing.T) {
	for _, act := range []string{"tell the patient what to report", "read the order", "judge right-dorsal-hand unsure"} {
		s := ward(t, 60)
		s.Slows()
		s.Wait("20 min")
		s.Pass(time.Second)
		s.Handle(act)
		through(s)
		if s.e.Now() > 3*sim.Minute {
			t.Errorf("after %q the wait went on to %s", act, s.e.Now().Exact())
		}
	}
	s := ward(t, 60)
	s.Slows()
	for s.e.Now() < 26*sim.Minute {
		s.Wait("until 0:40")
		through(s)
	}
	s.Handle("decline bed-4")
	through(s)
	if now := s.e.Now(); now != 26*sim.Minute+10*sim.Second {
		t.Errorf("after declining for 10 s the clock stands at %s", now.Exact())
	}
}

// TestTheFirstLowReadingHoldsAWait, and only the first; what is low is known
// from the order.
func TestTheFirstLowReadingHoldsAWait(t *testing.T) {
	for _, read := range []bool{true, false} {
		s := ward(t, 0)
		say(s, 0, "mix 4 mg of norepinephrine in 250 mL, adding to the bag", "hang bag-1 on pump-1", "prime pump-1", "set pump-1 to 40 mL/h",
			"connect pump-1 to right-dorsal-hand primed to the tip", "start pump-1", "wait 5 min", "stop pump-1")
		if read {
			say(s, 0, "read the order")
		}
		last := func() []sim.Shown { v := s.e.View(); return v.Shown[len(v.Shown)-2:] }
		if last()[1].MmHg < 65 {
			t.Fatalf("the pressure never rose: %v", last())
		}
		out := say(s, 0, "wait until 0:25")
		held := strings.Contains(out, "under the target now")
		if held != read {
			t.Errorf("order read %t: held %t at %s:\n%s", read, held, s.e.Now().Exact(), out)
		}
		if got := last(); read && (got[0].MmHg < 65 || got[1].MmHg >= 65 || got[1].At != s.e.Now()) {
			t.Errorf("held at %s, after %v", s.e.Now().Exact(), got)
		}
	}
}

// TestImportantNewsSlowsAClockThatWasLetRun: an arrival too.
func TestImportantNewsSlowsAClockThatWasLetRun(t *testing.T) {
	s, _ := small(t, 60)
	s.Slows()
	s.Handle("send for second-nurse")
	through(s)
	s.Start()
	for range 600 {
		if s.Pass(100 * time.Millisecond); s.Speed() == 1 {
			break
		}
	}
	if s.Speed() != 1 || !strings.Contains(s.Recent(1)[0].Text, "second-nurse") {
		t.Errorf("x%g at %s after %q", s.Speed(), s.e.Now().Exact(), s.Recent(1)[0].Text)
	}
}

// TestCourse: a reading against the mean of the two or three before it; within
// 3 mmHg nothing is said.
func TestCourse(t *testing.T) {
	for _, c := range []struct {
		shown []float64
		want  string
	}{
		{[]float64{50, 60}, ""}, {[]float64{66, 63, 59, 62}, ""}, {[]float64{60, 62, 68, 66}, ""}, {[]float64{66, 64, 57, 58}, ""}, {[]float64{60, 61, 70, 68}, ""}, {[]float64{65, 66, 64, 59}, "falling"},
		{[]float64{60, 60, 63}, ""}, {[]float64{60, 60, 64}, "rising"}, {[]float64{90, 60, 60, 60, 60}, ""}, {[]float64{64, 64, 60}, "falling"},
	} {
		var shown []sim.Shown
		for _, x := range c.shown {
			shown = append(shown, sim.Shown{MmHg: x})
		}
		if got := course(shown); got != c.want {
			t.Errorf("%v: %q, want %q", c.shown, got, c.want)
		}
	}
}

func TestTheCuffsArmIsShown(t *testing.T) {
	s := ward(t, 0)
	if got := s.Board().Cuff; got != "cuff on the left arm" {
		t.Errorf("at first: %q", got)
	}
	say(s, 0, "move the cuff to the right arm")
	if got := s.Board().Cuff; got != "cuff on the right arm" {
		t.Errorf("moved: %q", got)
	}
}

func TestSearchRanksByWhatMatches(t *testing.T) {
	s, _ := small(t, 0)
	for about, want := range map[string]string{
		"send for second": "send for {person}", "mix 4": "mix {amount} of {drug} in {diluent}, {adding}", "feel around <line>": "feel around {line}",
		"tourniquet off": "take the tourniquet off the {arm} arm", "examine left": "examine {vein}", "zzz send": "send for {person}", "norepi": "mix {amount} of {drug} in {diluent}, {adding}",
	} {
		if got := s.Offers(about, 0); len(got) == 0 || got[0].Sentence != want {
			t.Errorf("%q finds %d, first %+v, want %q", about, len(got), got, want)
		}
	}
	if got := s.Offers("zzz", 0); len(got) != 0 {
		t.Errorf("nonsense finds %d", len(got))
	}
}

// TestMoveMeansThePumpOnceOneRuns
func TestMoveMeansThePumpOnceOneRuns(t *testing.T) {
	s := ward(t, 0)
	first := func() string { return s.Offers("move", 0)[0].Name }
	if first() != "move-cuff" {
		t.Errorf("with nothing running: %s", first())
	}
	say(s, 0, "mix 4 mg of norepinephrine in 250 mL, adding to the bag", "hang bag-1 on pump-1", "prime pump-1", "set pump-1 to 12 mL/h",
		"connect pump-1 to right-dorsal-hand primed to the tip", "start pump-1")
	if first() != "move" {
		t.Errorf("with a pump running: %s", first())
	}
}

// TestWhatIsRefusedAnywayIsKnownBeforeItIsFilled
func TestWhatIsRefusedAnywayIsKnownBeforeItIsFilled(t *testing.T) {
	s := ward(t, 0)
	for said, refused := range map[string]bool{
		"stop {pump}": true, "take the tourniquet off the {arm} arm": true, "connect {pump} to {line}": true, "feel around {line}": false,
		"put a tourniquet on the {arm} arm": false, "write in the notes: {text}": false,
	} {
		if why := s.Refused(said); (why != "") != refused {
			t.Errorf("%q: %q", said, why)
		}
	}
	var listed []string
	for _, l := range s.what("") {
		listed = append(listed, l.Text)
	}
	if text := strings.Join(listed, "\n"); strings.Contains(text, "stop pump-1") || strings.Contains(text, "tourniquet off") || !strings.Contains(text, "feel around") {
		t.Errorf("what lists\n%s", text)
	}
	say(s, 0, "put a tourniquet on the left arm")
	if why := s.Refused("take the tourniquet off the {arm} arm"); why != "" {
		t.Errorf("with one on the left arm: %s", why)
	}
}

func TestTheArmOfTheCannulaInHandComesFirst(t *testing.T) {
	src, err := Find("night-bridge", "")
	if err != nil {
		t.Fatal(err)
	}
	a, err := Load(src, 1)
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	for _, v := range a.Case.Veins {
		s, err := New(a, 0)
		if err != nil {
			t.Fatal(err)
		}
		if say(s, 0, "choose "+v.ID+" with 20 gauge 47.8 mm at 30 degrees"); s.View().InHand == "" {
			continue
		}
		seen[string(v.Side)] = true
		if g, _ := s.NextGap("put a tourniquet on the {arm} arm"); g.Choices[g.Usual] != string(v.Side) {
			t.Errorf("with a cannula for %s in hand the gap begins with %s", v.ID, g.Choices[g.Usual])
		}
	}
	if !seen["left"] || !seen["right"] {
		t.Errorf("arms tried: %v", seen)
	}
}

func TestWhatWasScannedSaysSo(t *testing.T) {
	s := ward(t, 0)
	const scan = "scan left-cephalic-forearm with ultrasound"
	if p := s.Preview(scan); p.Again != "" {
		t.Errorf("before: %q", p.Again)
	}
	say(s, 0, scan)
	if p := s.Preview(scan); p.Again != "done already at 0:01" {
		t.Errorf("after: %q", p.Again)
	}
	if p := s.Preview("scan right-dorsal-hand with ultrasound"); p.Again != "" {
		t.Errorf("another vein: %q", p.Again)
	}
}

// TestEachLimitSaysWhereItComesFrom
func TestEachLimitSaysWhereItComesFrom(t *testing.T) {
	s := ward(t, 0)
	text := ""
	for _, l := range s.policy("") {
		text += l.Text + "\n"
	}
	keys := 0
	for key, why := range s.a.Policy.Because {
		keys++
		if key == "withdraw first" && !s.a.Policy.WithdrawFirst {
			continue
		}
		if !strings.Contains(text, oneLine(why)) {
			t.Errorf("%s: %q is not told", key, why)
		}
	}
	if keys == 0 || !strings.Contains(text, "Antidote: phentolamine, 5 mg to 10 mg") {
		t.Errorf("%d reasons:\n%s", keys, text)
	}
}

func TestACentralLineIsNotFeltFor(t *testing.T) {
	s := ward(t, 0)
	flows := s.flows(sim.View{Lines: []sim.LineView{{Name: "central", In: true, LastLook: sim.Never, LastFeel: sim.Never}}})
	if i := slices.IndexFunc(flows, func(f Flow) bool { return f.Name == "central" }); flows[i].Felt != "" || flows[i].Looked != "" {
		t.Errorf("%+v", flows[i])
	}
}

// TestTradeWordsFindTheirSentences
func TestTradeWordsFindTheirSentences(t *testing.T) {
	s := ward(t, 0)
	for about, want := range map[string]string{
		"aspirate": "draw back from {line}", "noradrenaline": "mix {amount} of {drug} in {diluent}, {adding}", "titrate": "set {pump} to {rate}",
		"increase": "set {pump} to {rate}", "phentolamine": "draw up {mass} of {antidote} to {volume}", "flush right-dors": "flush {line} with {volume}",
		"resite": "choose {vein} with {gauge} gauge {length} mm at {angle} degrees", "remove": "pull {line}",
	} {
		if got := s.Offers(about, 0); len(got) == 0 || got[0].Sentence != want {
			t.Errorf("%q finds %d, first %+v, want %q", about, len(got), got, want)
		}
	}
	for word, other := range synonyms {
		if _, isDrug := drug.Named(other); !isDrug && len(s.Offers(other, 0)) == 0 { // a unit need not stock every drug
			t.Errorf("%q leads to %q, which finds nothing", word, other)
		}
	}
}

// TestTheLikeliestNameComesFirst: the line and the pump that run, a syringe
// for tissue, a bag for a pump.
func TestTheLikeliestNameComesFirst(t *testing.T) {
	s := ward(t, 0)
	say(s, 0, "mix 4 mg of norepinephrine in 250 mL, adding to the bag", "draw up 5 mg of phentolamine to 10 mL",
		"choose left-cephalic-forearm with 20 gauge 47.8 mm at 30 degrees", "insert the cannula under ultrasound")
	begins := func(said, want string) {
		t.Helper()
		if g, _ := s.NextGap(said); len(g.Choices) == 0 || g.Choices[0] != want {
			t.Errorf("%q begins with %q, want %s", said, g.Choices, want)
		}
	}
	begins("hang {bag} on {pump}", "bag-1")
	begins("infiltrate around right-dorsal-hand with 5 mL of {bag}", "antidote-1")
	say(s, 0, "hang bag-1 on pump-2", "prime pump-2", "set pump-2 to 12 mL/h", "connect pump-2 to left-cephalic-forearm primed to the tip", "start pump-2")
	begins("feel around {line}", "left-cephalic-forearm")
	begins("stop {pump}", "pump-2")
	begins("set {pump} to {rate}", "pump-2")
	if got := s.LookFirst(); got != "left-cephalic-forearm" {
		t.Errorf("looking begins at %q", got)
	}
	say(s, 0, "judge right-dorsal-hand leaking")
	begins("raise the {arm} arm", "left")
	begins("draw back from {line}", "right-dorsal-hand")
	if got := s.LookFirst(); got != "right-dorsal-hand" {
		t.Errorf("after the judgement looking begins at %q", got)
	}
}

// TestLookingBeginsWhereOneLookedLast, where nothing runs and nothing was
// judged: by eye or by hand.
func TestLookingBeginsWhereOneLookedLast(t *testing.T) {
	const a, b = "right-dorsal-hand", "left-cephalic-forearm"
	placed := func() *Session {
		s := ward(t, 0)
		say(s, 0, "choose "+b+" with 20 gauge 47.8 mm at 30 degrees", "insert the cannula under ultrasound")
		for _, in := range s.e.View().Infusions {
			if in.Running {
				say(s, 0, "stop "+in.Pump)
			}
		}
		return s
	}
	for _, c := range []struct {
		said []string
		want string
	}{
		{[]string{"glance at " + b, "wait 5 min", "glance at " + a, "feel around " + a}, a}, // looked at and felt, and last
		{[]string{"glance at " + a, "feel around " + a, "wait 5 min", "glance at " + b}, b}, // only glanced at, but last
		{[]string{"glance at " + a, "wait 5 min", "glance at " + b, "wait 5 min", "feel around " + a}, a},
		{[]string{"glance at " + a, "feel around " + a}, a},
	} {
		s := placed()
		if got := s.LookFirst(); got == "" && len(s.Sites()) < 2 {
			t.Fatal("there are not two lines to look at")
		}
		say(s, 0, c.said...)
		if got := s.LookFirst(); got != c.want {
			t.Errorf("after %q looking begins at %q, want %q", c.said, got, c.want)
		}
	}
}

// TestNames: whatever a sentence can be about, and nothing else.
func TestNames(t *testing.T) {
	s := ward(t, 0)
	say(s, 0, "mix 4 mg of norepinephrine in 250 mL, adding to the bag", "draw up 5 mg of phentolamine to 10 mL")
	for word, want := range map[string]bool{
		"left-cephalic-forearm": true, "right-dorsal-hand": true, "pump-1": true, "second-nurse": true,
		"bag-1": true, "bag-7": true, "antidote-1": true, "central": true,
		"bag": false, "bag-": false, "bag-0": false, "flush": false, "left": false, "": false, "pump-9": false,
	} {
		if got := s.Names(word); got != want {
			t.Errorf("%q is a name: %t, want %t", word, got, want)
		}
	}
}

// What came to nothing because somebody else was quicker is told, with why.
func TestAnActThatCameToNothingIsTold(t *testing.T) {
	s, _ := small(t, 0)
	say(s, 0, "send for second-nurse")
	if err := s.Wait("11 min"); err != nil {
		t.Fatal(err)
	}
	through(s)
	say(s, 0, "mix 4 mg of norepinephrine in 250 mL, adding to the bag")
	s.Handle("ask second-nurse to hang bag-1 on pump-1")
	told := say(s, 0, "hang bag-1 on pump-1")
	if !strings.Contains(told, "Done by second-nurse: hang bag-1 on pump-1") ||
		!strings.Contains(told, "Not done after all (hang bag-1 on pump-1): bag-1 hangs on pump-1 already") {
		t.Error(told)
	}
	if !s.news(sim.Entry{Kind: sim.NotDone}) {
		t.Error("it does not hold a wait")
	}
}
