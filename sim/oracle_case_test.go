package sim

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"

	"blanch/sim/drug"
	"blanch/sim/luck"
	"blanch/sim/vein"
)

// told is one case as the outside integrator is told of it: what is given
// and what was done when, and nothing of what came of it.
type told struct {
	End     float64      `json:"end"`
	Cuff    string       `json:"cuff"`
	Place   toldPlace    `json:"place"`
	Patient toldPatient  `json:"patient"`
	Order   toldOrder    `json:"order"`
	Drugs   []toldDrug   `json:"drugs"`
	Pumps   []string     `json:"pumps"`
	Lines   []toldLine   `json:"lines"`
	Strains []toldStrain `json:"strains"`
	Leak    toldLeak     `json:"leak"`
	Acts    []toldAct    `json:"acts"`
	Ask     []float64    `json:"ask"`
}

type toldPlace struct {
	Tubing    float64 `json:"tubing_ml"`
	Extension float64 `json:"extension_ml"`
	Central   float64 `json:"central_ml"`
}

type toldPatient struct {
	KG        float64      `json:"kg"`
	SAPS2     float64      `json:"saps2"`
	Untreated [][2]float64 `json:"untreated"`
	Heart     float64      `json:"heart"`
	Pulse     float64      `json:"pulse"`
	Tells     bool         `json:"tells"`
	Skin      string       `json:"skin"`
	Restless  bool         `json:"restless"`
}

type toldOrder struct {
	Drug    string  `json:"drug"`
	Target  float64 `json:"target"`
	Ceiling float64 `json:"ceiling"`
}

type toldDrug struct {
	Name string `json:"name"`
	Base string `json:"base"`
}

type toldLine struct {
	ID        string  `json:"id"`
	Side      string  `json:"side"`
	Site      string  `json:"site"`
	Central   bool    `json:"central"`
	Depth     float64 `json:"depth"`
	Straight  float64 `json:"straight"`
	Punctures int     `json:"punctures"`
	Proximal  int     `json:"proximal"`
	Distal    int     `json:"distal"`
	Gauge     int     `json:"gauge"`
	Length    float64 `json:"length"`
	Angle     float64 `json:"angle"`
	Placed    float64 `json:"placed"`
}

type toldStrain struct {
	At    float64 `json:"at"`
	Over  float64 `json:"over"`
	MmHg  float64 `json:"mmhg"`
	By    string  `json:"by"`
	Eases float64 `json:"eases"`
}

type toldLeak struct {
	Kind     string     `json:"kind"`
	PerHour  float64    `json:"per_hour"`
	Begins   float64    `json:"begins"`
	Over     float64    `json:"over"`
	Fraction float64    `json:"fraction"`
	Limits   []float64  `json:"limits"`
	Draws    []toldDraw `json:"draws"`
}

// toldDraw is the luck of one leak, as shares of its ranges.
type toldDraw struct {
	Sudden bool    `json:"sudden"`
	Over   float64 `json:"over"`
	Share  float64 `json:"share"`
}

type toldAct struct {
	Name      string  `json:"name"`
	Began     float64 `json:"began"`
	Ends      float64 `json:"ends"`
	Turn      float64 `json:"turn"`
	Line      string  `json:"line"`
	Pump      string  `json:"pump"`
	Bag       string  `json:"bag"`
	Arm       string  `json:"arm"`
	Drug      string  `json:"drug"`
	By        string  `json:"by"`
	ML        float64 `json:"ml"`
	Rate      float64 `json:"rate"`
	Amount    float64 `json:"amount"`
	BagML     float64 `json:"bag_ml"`
	DrugML    float64 `json:"drug_ml"`
	Withdrawn bool    `json:"withdrawn"`
	Hot       bool    `json:"hot"`
}

// usual is how a drug is mixed and dosed in the random cases: amounts in the
// unit of its vials, doses in its base unit a minute.
var usual = map[string]struct{ least, most, dose, doseMost float64 }{
	"norepinephrine": {2, 16, 2, 18},
	"epinephrine":    {1, 8, 2, 15},
	"phenylephrine":  {10, 60, 40, 200},
	"dopamine":       {200, 800, 300, 1400},
	"vasopressin":    {20, 60, 0.02, 0.09},
}

// inPlace are the veins of the random cases; each has a cannula at the start.
var inPlace = []string{"left-a", "right-b", "left-c"}

// hour plays one random case: the engine is driven as by a learner, and what
// it does is noted for the comparison.
type hour struct {
	*rand.Rand
	e    *Engine
	seen *seen
	next int // of the times to sample
}

func (h *hour) between(a, b float64) float64 { return a + (b-a)*h.Float64() }
func (h *hour) chance(p float64) bool        { return h.Float64() < p }
func (h *hour) span(a, b Time) Time          { return a + Time(h.Int64N(int64(b-a))) }

func oneOf[T any](h *hour, list ...T) T { return list[h.IntN(len(list))] }

// randomHour is the n-th random case, played.
func randomHour(n int) (*told, *seen) {
	h := &hour{Rand: rand.New(rand.NewPCG(uint64(n), 20))}
	drugs := []string{"norepinephrine", "epinephrine", "phenylephrine", "dopamine", "vasopressin"}
	first := drugs[n%len(drugs)]
	second := oneOf(h, drugs...)
	flood := n%12 == 11 // so much fluid that it presses

	p := testPlace()
	p.Cuff = 24 * Hour // a cuff that cycles stops an infusion on its arm; tested elsewhere
	p.BagsML = []float64{100, 250, 500}
	p.TubingML, p.ExtensML = h.between(2, 20), h.between(0.3, 1.5)
	p.Pumps = []Pump{{"pump-1", 0.1, 999, 0, nil}, {"pump-2", 0.1, 999, 0, nil}}
	p.Vials = []Vial{{first, vialOf(first), 1, 200, false}, {second, vialOf(second), 2, 200, false}, {"terbutaline", 1, 1, 200, false}}
	if !h.chance(0.1) {
		p.Vials = append(p.Vials, Vial{"phentolamine", 5, 1, 200, false})
	}

	c := testCase()
	c.Calls, c.Planned, c.Ask = nil, nil, nil
	c.Ends = h.span(100*Minute, 4*Hour)
	c.Order.Drug, c.Order.TargetMmHg, c.Order.CeilMmHg = first, oneOf(h, 60.0, 65.0, 70.0), oneOf(h, 75.0, 80.0, 90.0)
	c.Patient = Patient{
		WeightKG: h.between(42, 130), SAPS2: h.between(15, 90),
		Untreated: []Point{{0, h.between(40, 62)}}, Tells: h.chance(0.7),
		Skin: oneOf(h, "light", "brown", "dark"), Restless: h.chance(0.3),
	}
	switch n % 9 {
	case 0:
		c.Patient.SAPS2 = h.between(0, 9)
	case 1:
		c.Patient.SAPS2 = h.between(105, 160)
	}
	for at := h.span(10*Minute, Hour); at < c.Ends; at += h.span(10*Minute, 2*Hour) {
		c.Patient.Untreated = append(c.Patient.Untreated, Point{at, h.between(40, 64)})
	}
	if h.chance(0.7) {
		c.Patient.HeartRate, c.Patient.PulseMmHg = 30+h.IntN(100), h.between(25, 60)
	}
	c.Strains = nil
	if h.chance(0.35) {
		c.Strains = []Strain{{ID: "s", At: h.span(0, 2*Hour), Over: h.span(0, 20*Minute), MmHg: h.between(-20, 5),
			By: oneOf(h, "fluid", "lay-flat", "less-sedation", "press"), Eases: h.span(0, 15*Minute)}}
	}
	c.CuffArm = oneOf(h, Left, Right)
	c.Veins, c.InPlace = nil, nil
	gauges := []int{14, 16, 18, 20, 22, 24, 26}
	for i, id := range inPlace {
		side := Left
		if strings.HasPrefix(id, "right") {
			side = Right
		}
		v := vein.Vein{Site: vein.Sites()[(n/5+i)%6], DiameterMM: h.between(2, 6), DepthMM: h.between(1.5, 6), StraightMM: h.between(15, 60), Punctures: h.IntN(3)}
		if h.chance(0.3) {
			v.DepthMM = h.between(6, 15)
		}
		cannula, angle := vein.Cannula{Gauge: gauges[(n+i)%7], LengthMM: h.between(19, 64)}, h.between(15, 50)
		if n%16 == 13 { // nearly all of it in the vein
			v.DepthMM, v.StraightMM, cannula.LengthMM, angle = 1.5, 0, 60, 50
		}
		c.Veins = append(c.Veins, VeinOffer{ID: id, Side: side, Vein: v})
		c.InPlace = append(c.InPlace, InPlace{id, cannula, angle})
	}
	c.Veins = append(c.Veins, VeinOffer{ID: "right-d", Side: Right, Vein: vein.Vein{Site: oneOf(h, vein.Sites()...), DiameterMM: 2.3, DepthMM: 3, StraightMM: 60}})
	switch {
	case flood:
		c.Leak = Fate{Kind: Placed, Begins: h.span(Minute, 20*Minute), Over: h.span(0, 10*Minute), Fraction: h.between(0.85, 1)}
	case n%4 == 1:
		c.Leak = Fate{Kind: ByHazard, PerHour: h.between(0.3, 3)}
	case n%20 == 4:
		c.Leak = Fate{Kind: NoLeak}
	default:
		c.Leak = Fate{Kind: Placed, Begins: h.span(0, 50*Minute), Over: h.span(0, 35*Minute), Fraction: h.between(0.3, 1)}
		if h.chance(0.3) {
			c.Leak.Over = 0
		}
		if h.chance(0.2) {
			c.Leak.Fraction = 1
		}
	}

	e, err := New(c, p, uint64(n)+1)
	if err != nil {
		panic(err)
	}
	h.e, h.seen = e, newSeen(e)
	h.seen.n = n
	for at := h.span(Minute, 5*Minute); at < c.Ends-Minute; at += h.span(Minute, 9*Minute) {
		h.seen.times = append(h.seen.times, at)
	}
	h.live(first, second, flood)
	return h.tell(), h.seen
}

func vialOf(name string) float64 {
	return map[string]float64{"norepinephrine": 4, "epinephrine": 1, "phenylephrine": 10, "dopamine": 200, "vasopressin": 20}[name]
}

// do waits until hands are free, and a little, and acts.
func (h *hour) do(format string, args ...any) bool {
	h.wait(max(h.e.HandsFree(), h.e.Now()) + h.span(0, 15*Second))
	a, err := ParseAction(fmt.Sprintf(format, args...))
	if err != nil {
		panic(err)
	}
	if h.e.Over() {
		return false
	}
	ok := h.e.Do(a)[0].Kind == Started
	h.seen.check(h.e)
	return ok
}

// wait advances the engine, with samples on the way.
func (h *hour) wait(to Time) {
	for h.next < len(h.seen.times) && h.seen.times[h.next] <= to {
		h.e.Advance(h.seen.times[h.next])
		h.seen.sample(h.e)
		h.next++
	}
	h.e.Advance(to)
	h.seen.check(h.e)
}

// mix makes a bag of a drug and returns the rate that gives a usual dose.
func (h *hour) mix(name string, flood bool) (rate float64) {
	u := usual[name]
	amount, ml := float64(int(h.between(u.least, u.most)*4))/4, oneOf(h, 100.0, 250.0, 500.0)
	if flood {
		amount, ml = u.least/2, 500
	}
	unit, per := "mg", 1000.0
	if name == "vasopressin" {
		unit, per = "units", 1
	}
	h.do("mix %v %s of %s in %v mL, %s", amount, unit, name, ml, oneOf(h, "adding to the bag", "withdrawing first"))
	rate = h.between(u.dose, u.doseMost) * 60 / (amount * per / ml)
	if flood {
		rate = h.between(90, 220)
	}
	return min(max(rate, 1), 400)
}

func (h *hour) live(first, second string, flood bool) {
	e, end := h.e, h.e.c.Ends
	h.wait(h.span(0, 3*Minute))
	rate := h.mix(first, flood)
	to := "left-a"
	if n := h.seen.n; n%8 == 1 { // a line that took several tries
		for range 8 {
			h.do("choose right-d with 18 gauge 29.5 mm at 30 degrees")
			h.do("insert the cannula by feel")
			h.wait(e.HandsFree())
			if e.lastSite("right-d") != nil {
				to = "right-d"
				break
			}
		}
	}
	h.do("hang bag-1 on pump-1")
	h.do("prime pump-1")
	h.do("set pump-1 to %.1f mL/h", rate)
	h.do("connect pump-1 to %s%s", to, oneOf(h, "", " primed to the tip"))
	h.do("start pump-1")
	other := 0.0
	switch h.IntN(4) {
	case 0: // a second pump on the other arm
		other = h.mix(second, false)
		h.do("hang bag-2 on pump-2")
		h.do("prime pump-2")
		h.do("set pump-2 to %.1f mL/h", other)
		h.do("connect pump-2 to %s", inPlace[1])
		h.do("start pump-2")
	case 1: // a second drug that will follow the first through the same line
		other = -h.mix(second, false)
	}
	if h.chance(0.15) {
		h.do("choose right-d with 20 gauge 47.8 mm at 30 degrees")
		h.do("insert the cannula %s", oneOf(h, "by feel", "under ultrasound"))
		h.do("choose right-d with 22 gauge 25.4 mm at 30 degrees")
		h.do("insert the cannula %s", oneOf(h, "by feel", "under ultrasound"))
	}
	if h.chance(0.1) {
		h.do("call doctor about who, pressure asking for central-access")
	}
	responds := h.span(20*Minute, end)
	for e.Now() < end {
		if flood || h.chance(0.8) {
			h.wait(e.Now() + h.span(Minute, 12*Minute))
		}
		leak := h.leaking()
		switch {
		case e.Now() > responds && leak != "":
			h.respond(leak)
			responds = e.Now() + h.span(15*Minute, 2*Hour)
		case other < 0 && h.chance(0.3):
			h.do("stop pump-1")
			h.do("hang bag-2 on pump-1")
			h.do("set pump-1 to %.1f mL/h", -other)
			h.do("start pump-1")
			other = 0
		default:
			h.something(rate, flood)
		}
	}
	h.wait(end)
}

// leaking is a line that leaks, or leaked, if there is one.
func (h *hour) leaking() string {
	for _, s := range h.e.sites {
		if s.depot != nil {
			return s.Subject
		}
	}
	return ""
}

// respond is some of what is done about a leak, in some order.
func (h *hour) respond(at string) {
	side, _, _ := strings.Cut(at, "-")
	if h.chance(0.75) {
		if pump := h.e.lastSite(at).pump; pump != nil {
			switch h.IntN(3) {
			case 0:
				h.do("move %s to left-c", pump.ID)
			case 1:
				h.do("move %s to %s primed to the tip", pump.ID, oneOf(h, "left-c", "right-b"))
			default:
				h.do("stop %s", pump.ID)
			}
		}
	}
	acts := []func(){
		func() { h.do("draw back from %s", at) },
		func() { h.do("raise the %s arm", side) },
		func() { h.do("warm the %s arm with %s", side, oneOf(h, "a warm pack", "a hot pack")) },
		func() { h.do("put nitrate ointment on %s", at) },
		func() { h.antidote("phentolamine", at) },
		func() { h.antidote("terbutaline", at) },
		func() { h.do("pull %s", at) },
		func() { h.do("stop pump-1") },
	}
	h.Shuffle(len(acts), func(i, j int) { acts[i], acts[j] = acts[j], acts[i] })
	for _, act := range acts[:h.IntN(6)] {
		act()
	}
	if h.chance(0.1) {
		h.do("move pump-1 to central")
	}
}

func (h *hour) antidote(name, at string) {
	mg := oneOf(h, 2.5, 5.0, 10.0)
	if name == "terbutaline" {
		mg = oneOf(h, 0.5, 1.0)
	}
	ml := oneOf(h, 5.0, 10.0, 15.0)
	if !h.do("draw up %v mg of %s to %v mL", mg, name, ml) {
		return
	}
	h.wait(h.e.HandsFree())
	syringe := fmt.Sprintf("antidote-%d", h.e.count(true))
	if h.chance(0.3) {
		h.do("inject %.1f mL of %s through %s", ml/4, syringe, at)
	}
	h.do("infiltrate around %s with %.1f mL of %s", at, h.between(1, ml*0.7), syringe)
}

// something is anything else that a nurse may do meanwhile.
func (h *hour) something(rate float64, flood bool) {
	pump, arm := oneOf(h, "pump-1", "pump-1", "pump-2"), oneOf(h, "left", "right")
	line := oneOf(h, inPlace...)
	if flood && h.chance(0.7) {
		return
	}
	switch h.IntN(14) {
	case 0, 1, 2:
		h.do("set %s to %.1f mL/h", pump, rate*h.between(0.3, 2))
	case 3:
		h.do("stop %s", pump)
		h.wait(h.e.Now() + h.span(Second, 4*Minute))
		h.do("start %s", pump)
	case 4:
		h.do("start %s", pump)
	case 5:
		h.do("flush %s with %.1f mL", line, h.between(0.5, 10))
	case 6:
		h.do("test blood return at %s", line)
	case 7:
		h.do("%s", oneOf(h, "give a fluid bolus", "lay the patient flat", "turn the sedation down", "press on the bleeding"))
	case 8:
		h.do("%s the %s arm", oneOf(h, "put a tourniquet on", "take the tourniquet off"), arm)
	case 9:
		h.do("take the pack off the %s arm", arm)
	case 10:
		h.do("wipe the ointment off left-a")
	case 11:
		h.do("put nitrate ointment on left-a")
	case 12:
		h.do("warm the %s arm with %s", arm, oneOf(h, "a warm pack", "a hot pack"))
	}
}

// tell writes the case down with what was done, by the journal.
func (h *hour) tell() *told {
	e := h.e
	c, r := e.c, e.Result()
	t := &told{
		End: c.Ends.Seconds(), Cuff: string(c.CuffArm),
		Place: toldPlace{e.p.TubingML, e.p.ExtensML, e.p.Central.DeadML},
		Patient: toldPatient{KG: c.Patient.WeightKG, SAPS2: c.Patient.SAPS2, Heart: float64(c.Patient.HeartRate),
			Pulse: c.Patient.PulseMmHg, Tells: c.Patient.Tells, Skin: c.Patient.Skin, Restless: c.Patient.Restless},
		Order:   toldOrder{c.Order.Drug, c.Order.TargetMmHg, c.Order.CeilMmHg},
		Lines:   []toldLine{},
		Strains: []toldStrain{}, Acts: []toldAct{}, Ask: []float64{},
	}
	for _, p := range c.Patient.Untreated {
		t.Patient.Untreated = append(t.Patient.Untreated, [2]float64{p.At.Seconds(), p.MmHg})
	}
	for _, d := range e.drugs[1:] {
		t.Drugs = append(t.Drugs, toldDrug{d.Name, d.Base})
	}
	for _, p := range e.pumps {
		t.Pumps = append(t.Pumps, p.ID)
	}
	for i, l := range r.Lines {
		if l.Placed == Never {
			continue
		}
		line := toldLine{ID: l.Subject, Side: string(l.Side), Site: string(l.Vein.Site), Central: l.Central, Depth: l.Vein.DepthMM,
			Straight: l.Vein.StraightMM, Punctures: l.Vein.Punctures, Gauge: l.Cannula.Gauge, Length: l.Cannula.LengthMM, Angle: l.AngleDeg, Placed: l.Placed.Seconds()}
		if l.Central {
			line.Side = "left"
		}
		try := 0
		for _, failed := range r.Lines[:i] {
			if failed.Subject == l.Subject {
				try++
				if luck.Uniform(r.Seed, "hole", l.Subject, try) < holeProximal {
					line.Proximal++
				} else {
					line.Distal++
				}
			}
		}
		t.Lines = append(t.Lines, line)
	}
	for _, s := range c.Strains {
		t.Strains = append(t.Strains, toldStrain{s.At.Seconds(), s.Over.Seconds(), s.MmHg, s.By, s.Eases.Seconds()})
	}
	t.Leak = toldLeak{PerHour: c.Leak.PerHour, Begins: c.Leak.Begins.Seconds(), Over: c.Leak.Over.Seconds(), Fraction: c.Leak.Fraction,
		Kind: map[FateKind]string{ByHazard: "hazard", Placed: "placed", NoLeak: "none"}[c.Leak.Kind]}
	for nth := 1; nth <= 5; nth++ {
		t.Leak.Limits = append(t.Leak.Limits, luck.Exponential(r.Seed, "leak", "", nth))
		t.Leak.Draws = append(t.Leak.Draws, toldDraw{luck.Uniform(r.Seed, "leak-sudden", "", nth) <= suddenLeaks,
			luck.Uniform(r.Seed, "leak-over", "", nth), luck.Uniform(r.Seed, "leak-share", "", nth)})
	}
	for _, at := range h.seen.times[:h.next] {
		t.Ask = append(t.Ask, at.Seconds())
	}
	began := map[string]Time{}
	for _, en := range r.Journal {
		switch en.Kind {
		case Started:
			began[en.Said] = en.At
		case Done:
			if act, ok := e.tellAct(en, began[en.Said]); ok {
				t.Acts = append(t.Acts, act)
			}
		}
	}
	return t
}

// tellAct is an act that the physics knows of.
func (e *Engine) tellAct(en Entry, began Time) (toldAct, bool) {
	a, err := ParseAction(en.Said)
	if err != nil {
		panic(err)
	}
	act := toldAct{Name: en.Act, Began: began.Seconds(), Ends: en.At.Seconds(), Line: a.word("line"), Pump: a.word("pump"), Bag: a.word("bag"),
		Arm: a.word("arm"), ML: a.number("volume"), Hot: a.word("pack") == "a hot pack"}
	act.Turn = (en.At - byName[en.Act].turnAt).Seconds()
	switch en.Act {
	case "mix":
		act.Bag, act.Drug = en.Subject, a.word("drug")
		v, _ := e.vial(act.Drug)
		act.Amount, act.BagML = a.number("amount")*v.perMG(), a.number("diluent")
		act.DrugML, act.Withdrawn = a.number("amount")/v.MG*v.ML, a.word("adding") == "withdrawing first"
	case "draw-up":
		act.Bag, act.Drug = en.Subject, a.word("antidote")
		act.Amount, act.BagML = a.number("mass")*1000, a.number("volume")
	case "set":
		act.Rate = en.Value
	case "fluid", "lay-flat", "less-sedation", "press":
		act.Name, act.By = "treat", en.Act
	}
	return act, slices.Contains([]string{"mix", "draw-up", "hang", "prime", "connect", "connect-primed", "set", "start", "stop", "disconnect",
		"blood-return", "flush", "move", "move-primed", "draw-back", "infiltrate", "antidote-through", "raise", "warm", "cool-off",
		"nitrate", "nitrate-off", "pull", "tie", "untie", "treat"}, act.Name)
}

// seen is what the engine made of a case.
type seen struct {
	n       int
	times   []Time
	samples []map[string]float64
	glances map[string]Time // line, and when a glance could first see it swollen
	last    *Engine         // as it was when last looked at
	ended   *Result
}

func newSeen(e *Engine) *seen { return &seen{glances: map[string]Time{}, last: e.fork()} }

// check notes what a glance could see for the first time.
func (s *seen) check(e *Engine) {
	now := e.fork()
	for what := range glanced(now, now.now) {
		if _, ok := s.glances[what]; ok {
			continue
		}
		low, high := s.last.now, now.now
		for high-low > 1 {
			mid := (low + high) / 2
			then := s.last.fork()
			then.Advance(mid)
			if glanced(then, mid)[what] {
				high = mid
			} else {
				low = mid
			}
		}
		s.glances[what] = high
	}
	s.last = now
	if e.Over() {
		s.ended = e.Result()
	}
}

func glanced(e *Engine, at Time) map[string]bool {
	out := map[string]bool{}
	for _, site := range e.sites {
		if site.depot == nil {
			continue
		}
		d := e.depotAt(site, at.Seconds())
		if swollen, _ := d.Glance(site.Vein.DepthMM, false); swollen {
			out[site.Subject+" swollen"] = true
		}
	}
	return out
}

// sample reads every state of the physics now.
func (s *seen) sample(e *Engine) {
	s.check(e)
	f := e.fork()
	f.change(f.now)
	at := f.now.Seconds()
	does := f.answerAt(at)
	mean := f.untreated(at) + does.Rise
	sys, dia := does.Pulse(mean, f.pulse)
	out := map[string]float64{"mean": mean, "systolic": sys, "diastolic": dia, "rate": does.Rate(f.heart)}
	for i, d := range f.drugs[1:] {
		out["blood "+d.Name], out["effect "+d.Name] = f.blood[i+1].Amount, f.blood[i+1].Effect
	}
	for _, site := range f.sites {
		d := site.depot
		if d == nil {
			continue
		}
		on := " " + site.Subject
		out["V"+on], out["U"+on], out["A"+on], out["B"+on], out["N"+on] = d.V, d.U, d.A, d.B, d.N
		out["perfusion"+on] = d.Perfusion()
		_, pale := d.Glance(site.Vein.DepthMM, f.c.Patient.Skin == "dark")
		out["glance"+on] = truth(pale)
		if mm := d.PaleMM(site.Vein.DepthMM); mm > 0 {
			out["pale mm"+on] = mm
		}
		for i := range d.Drugs {
			out["M "+f.drugs[d.Of[i].ID].Name+on] = d.M[i]
		}
	}
	s.samples = append(s.samples, out)
}

// scaleOf is the stated scale of a state: what half an effect takes.
func scaleOf(state string) float64 {
	words := strings.Fields(state)
	scale := map[string]float64{"V": 1, "U": 1, "N": 1, "A": 10, "B": 40, "perfusion": 1, "pale": 1, "glance": 1, "mean": 1, "systolic": 1, "diastolic": 1, "rate": 1}
	if s, ok := scale[words[0]]; ok {
		return s
	}
	d, _ := drug.Named(words[1])
	half := d.Potency.E50
	if d.Potency.Blocks > 0 {
		half = d.Potency.Blocks
	}
	switch words[0] {
	case "effect":
		return half
	case "blood":
		return half * d.VolumeL
	}
	return d.Potency.TissueE50 * 2 // in the first 2 mL of tissue fluid
}
