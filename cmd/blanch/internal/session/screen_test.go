package session

import (
	"slices"
	"strings"
	"testing"
	"time"

	"blanch/sim"
)

// ward begins the case of the screen's tests.
func ward(t *testing.T, speed float64) *Session {
	t.Helper()
	return begun(t, "../ui/testdata/screen.yaml", speed)
}

func begun(t *testing.T, name string, speed float64) *Session {
	t.Helper()
	src, err := Find(name, "")
	if err != nil {
		t.Fatal(err)
	}
	a, err := Load(src, 3)
	if err != nil {
		t.Fatal(err)
	}
	s, err := New(a, speed)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestTheBoardKnowsTheOrderOnceItIsRead(t *testing.T) {
	s := ward(t, 0)
	b := s.Board()
	if strings.Contains(b.Order, "65") || b.Low || strings.Contains(b.Patient, "kg") {
		t.Errorf("before anything was read the board shows %q, %q, low %t", b.Order, b.Patient, b.Low)
	}
	say(s, 0, "read the order", "read the notes")
	b = s.Board()
	if b.Order != "norepinephrine, keep the mean at 65 to 80 mmHg" || !b.Low || !strings.HasSuffix(b.Patient, "64 kg") {
		t.Errorf("the board shows %q, %q, low %t", b.Order, b.Patient, b.Low)
	}
}

// Every drug that is ordered stands beside the patient's name, within 80 columns.
func TestTheBoardNamesBothDrugs(t *testing.T) {
	s := begun(t, "two-pumps", 0)
	say(s, 0, "read the order")
	b := s.Board()
	if b.Order != "norepinephrine and vasopressin, mean 65 to 80 mmHg" || len(b.Patient)+len(b.Order)+3 > 78 {
		t.Errorf("the board shows %q, %q", b.Patient, b.Order)
	}
}

// TestAShareShowsItsSideOfTheLimit
func TestAShareShowsItsSideOfTheLimit(t *testing.T) {
	for share, want := range map[float64]string{0.646: "64.6", 0.65: "65", 0.654: "65", 0.53: "53", 0.6549: "65"} {
		if got := shareSaid(share, 0.65); got != want {
			t.Errorf("%g is shown as %s, want %s", share, got, want)
		}
	}
}

// TestNothingIsDrawnOfAVeinThatWasNotScanned: its depth is not the learner's to
// know, so neither picture nor figure may carry it.
func TestNothingIsDrawnOfAVeinThatWasNotScanned(t *testing.T) {
	s := ward(t, 0)
	const forearm, long = 1, 3 // left-cephalic-forearm, 20 gauge 47.8 mm
	for at := range s.LineDesk().Veins {
		lie := s.Lie(at, long, 30, 78, 12, true)
		if lie.Picture != nil || len(lie.Facts) != 1 || !strings.Contains(lie.Facts[0], "not known") || !slices.Contains(lie.Policy, "share in vein not known") {
			t.Errorf("vein %d: %+v", at, lie)
		}
	}
	say(s, 0, "scan left-cephalic-forearm with ultrasound")
	lie := s.Lie(forearm, 2, 30, 78, 12, true)
	// Path = depth / sin(angle): 6 mm at 30 degrees is 12 mm; of 25.4 mm 13.4 are left, 53 %.
	if len(lie.Picture) != 12 || !slices.Contains(lie.Facts, "path in tissue 12 mm") || !slices.Contains(lie.Facts, "share in vein 53 %") {
		t.Errorf("scanned: %q, %d rows", lie.Facts, len(lie.Picture))
	}
	if !slices.Contains(lie.Policy, "share in vein no (at least 65 %)") || !slices.Contains(lie.Policy, "gauge yes") {
		t.Errorf("policy: %q", lie.Policy)
	}
	if s.Lie(0, long, 30, 78, 12, true).Picture != nil {
		t.Error("a scan of one vein draws another")
	}
	before := s.Board().Clock
	if p := s.Preview(lie.Choose); p.Why != "" || s.Board().Clock != before {
		t.Errorf("%q: %+v", lie.Choose, p)
	}
}

func TestWhatWasNotSoughtIsNotChecked(t *testing.T) {
	s := ward(t, 0)
	say(s, 0, "uncover right-dorsal-hand", "wait 10 min", "feel around right-dorsal-hand")
	d := s.LookDesk("right-dorsal-hand")
	if len(d.Visits) != 2 {
		t.Fatalf("%d visits, want 2: ten minutes lie between them", len(d.Visits))
	}
	want := map[string][]string{
		"colour":   {"like the skin around", NotChecked},
		"swelling": {NotChecked, "none"},
		"pain":     {NotChecked, NotChecked},
	}
	for _, a := range d.Acts {
		for _, f := range a.Finds {
			if w, ok := want[f.What]; ok && !slices.Equal(f.Visits, w) {
				t.Errorf("%s: %q, want %q", f.What, f.Visits, w)
			}
		}
		if p := s.Preview(a.Said); strings.Contains(p.Why, "not something you can do") || p.Does == "" {
			t.Errorf("%q is no sentence: %+v", a.Said, p)
		}
	}
}

// TestOffersKeepWhatIsImpossible: it stays on the list and says why; nothing
// is left out because it is unwise.
func TestOffersKeepWhatIsImpossible(t *testing.T) {
	s := ward(t, 0)
	all := s.Offers("", 0)
	for _, o := range all {
		if o.Name == "label" && o.Why == "" {
			t.Error("there is no bag to label, and it does not say so")
		}
		if o.Name == "flush" && o.Why != "" {
			t.Errorf("flushing the drip in the hand: %s", o.Why)
		}
	}
	if got := s.Offers("refill", 0); len(got) != 1 || got[0].Name != "refill" {
		t.Errorf("refill finds %+v", got)
	}
	if got := s.Offers("set", 0); got[0].Name != "set" {
		t.Errorf("what begins with the word comes first; got %s", got[0].Sentence)
	}
}

func TestGapsAreFilledFromTheLeft(t *testing.T) {
	s := ward(t, 0)
	said := "choose {vein} with {gauge} gauge {length} mm at {angle} degrees"
	for _, c := range []struct{ kind, bad, good string }{{"vein", "no vein!", "left-cephalic-forearm"}, {"gauge", "twenty", "20"}, {"length", "4", "47.8"}, {"angle", "200", "30"}} {
		g, ok := s.NextGap(said)
		if !ok || g.Kind != c.kind {
			t.Fatalf("the gap in %q is %+v", said, g)
		}
		if _, err := FillGap(said, c.bad); err == nil {
			t.Errorf("%s: %q is taken", c.kind, c.bad)
		}
		var err error
		if said, err = FillGap(said, c.good); err != nil {
			t.Fatal(err)
		}
	}
	if _, open := s.NextGap(said); open || s.Preview(said).Why != "" {
		t.Errorf("%q: %s", said, s.Preview(said).Why)
	}
}

// TestSlowingLastsUntilTheLearnerActs: an alarm slows the clock and nothing is
// skipped; the next act goes at the speed that was chosen.
func TestSlowingLastsUntilTheLearnerActs(t *testing.T) {
	s := ward(t, 600)
	s.Slows()
	s.Start()
	for range 1000 {
		s.Pass(100 * time.Millisecond)
		if s.Speed() == 1 {
			break
		}
	}
	if s.Speed() != 1 || !s.Running() {
		t.Fatalf("at %s the speed is %g, running %t", s.Board().Clock, s.Speed(), s.Running())
	}
	s.Stand()
	s.Handle("read the order")
	if s.Speed() != 600 {
		t.Errorf("the next act goes at x%g, want x600", s.Speed())
	}
}

// TestAnActEndsInTheStateItBeganIn: the clock stands again, or goes on where
// the learner had let it run.
func TestAnActEndsInTheStateItBeganIn(t *testing.T) {
	for _, free := range []bool{false, true} {
		s := ward(t, 60)
		s.Slows()
		if free {
			s.Start()
		}
		s.Handle("read the order")
		for range 10 {
			s.Pass(100 * time.Millisecond)
		}
		if s.Running() != free {
			t.Errorf("started %t: after the act it runs %t", free, s.Running())
		}
	}
}

func TestWaitReadsSpansAndTimes(t *testing.T) {
	s := ward(t, 60)
	for _, bad := range []string{"", "ten", "10", "0:00", "5 mg", "until x"} {
		if s.Wait(bad) == nil {
			t.Errorf("%q is taken for a wait", bad)
		}
	}
	for typed, pace := range map[string]string{"10 min": "x60 to 0:10", "0:45": "x60 to 0:45", "until 1:00": "x60 to 1:00"} {
		if err := s.Wait(typed); err != nil || s.Pace() != pace {
			t.Errorf("%q: %v, %q, want %q", typed, err, s.Pace(), pace)
		}
	}
}

func TestRecentTellsEachActOnce(t *testing.T) {
	s := ward(t, 0)
	say(s, 0, "secure right-dorsal-hand", "uncover right-dorsal-hand")
	var got []string
	for _, l := range s.Recent(9) {
		got = append(got, l.Text)
	}
	want := []string{"Done: secure right-dorsal-hand.", "You: uncover right-dorsal-hand", "Colour at right-dorsal-hand: like the skin around."}
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

// TestTheDebriefTellsWhatWasHidden, and only the debrief.
func TestTheDebriefTellsWhatWasHidden(t *testing.T) {
	s := ward(t, 0)
	say(s, 0, "mix 4 mg of norepinephrine in 250 mL, adding to the bag", "hang bag-1 on pump-1", "prime pump-1", "set pump-1 to 12 mL/h",
		"connect pump-1 to right-dorsal-hand primed to the tip", "start pump-1", "wait until 0:29", "wait until 0:59")
	for _, p := range s.Papers() {
		for _, l := range p.Lines {
			if strings.Contains(l.Text, "not shown") || strings.Contains(l.Text, "beside the vein") {
				t.Errorf("%s tells during the case: %s", p.Name, l.Text)
			}
		}
	}
	s.Stop()
	text := ""
	for _, p := range s.Debrief("") {
		for _, l := range p.Lines {
			text += l.Text + "\n"
		}
	}
	for _, want := range []string{"(not shown) The infusion in right-dorsal-hand", "It began to run beside the vein at", "You never judged it to be leaking.", "went into tissue"} {
		if !strings.Contains(text, want) {
			t.Errorf("the debrief does not tell %q:\n%s", want, text)
		}
	}
}

// TestUnitsAreNeverWrittenAsMass: vasopressin is measured in units, and what
// is read off a pump or a label says so.
func TestUnitsAreNeverWrittenAsMass(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{strength("vasopressin", 0.1), "vasopressin 0.1 units/mL"},
		{strength("norepinephrine", 16), "norepinephrine 16 mcg/mL"},
		{strength("norepinephrine", 0), "norepinephrine"},
		{rate(sim.InfusionView{Drug: "vasopressin", MLH: 18, McgMin: 0.03}), "18 mL/h = 0.03 units/min"},
		{rate(sim.InfusionView{Drug: "norepinephrine", MLH: 12, McgMin: 3.2}), "12 mL/h = 3.2 mcg/min"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}

// TestWhatAnActAlsoFoundHasARow: a streak along the vein is not sought by
// itself, and must not be lost.
func TestWhatAnActAlsoFoundHasARow(t *testing.T) {
	s := ward(t, 0)
	say(s, 0, "uncover right-dorsal-hand")
	at := s.e.Now()
	s.entries = append(s.entries, sim.Entry{At: at, Kind: sim.Found, Act: "uncover", Subject: "right-dorsal-hand", What: "along the vein", Word: "a red streak"})
	for _, a := range s.LookDesk("right-dorsal-hand").Acts {
		for _, f := range a.Finds {
			if f.What == "along the vein" && f.Visits[0] == "a red streak" {
				return
			}
		}
	}
	t.Error("the streak is not on the desk")
}

// The list begins with what a learner should play first.
func TestTheShelfGoesFromTheFirstLevelToTheLast(t *testing.T) {
	shelf := Shelf()
	if len(shelf) < 6 || shelf[0].ID != "night-bridge" {
		t.Fatalf("the shelf begins with %+v", shelf[0])
	}
	for i := 1; i < len(shelf); i++ {
		if slices.Index(levels, shelf[i].Level) < slices.Index(levels, shelf[i-1].Level) {
			t.Errorf("%s, %s, stands below %s, %s", shelf[i].ID, shelf[i].Level, shelf[i-1].ID, shelf[i-1].Level)
		}
	}
}
