package cohort

import (
	"fmt"

	"blanch/sim/drug"
	"blanch/sim/line"
	"blanch/sim/luck"
	"blanch/sim/tissue"
	"blanch/sim/vein"
)

// Row is a target with what was simulated.
type Row struct {
	Target
	Estimate
	Origin Origin
	How    string // how it was simulated
	Pass   bool
}

// Origin says where the simulated value of a row comes from.
type Origin string

// Origins.
const (
	PutIn     Origin = "put in"    // the model was given this figure
	Predicted Origin = "predicted" // it follows from others and was not fitted
	Described Origin = "described" // a further table described the cohort
)

// Runs is how many patients each row is simulated with unless one says.
const Runs = 20000

// seedOf is the luck of the whole table.
const seedOf = 1

// simulated says of each row of the table how it is simulated and whether the
// figure was put into the model. A row that is predicted follows from others.
var simulated = map[string]struct {
	origin Origin
	how    string
	run    func(n int) (Estimate, error)
}{
	"K01": {PutIn, "base hazard of the routine preset", leaks("routine")},
	"K02": {PutIn, "base hazard of the protocol preset", func(n int) (Estimate, error) {
		t := preset("protocol").Infusions(seedOf, n)
		return ratePer(t.Leaks, t.LineHours), nil
	}},
	"K03":  {Predicted, "from the hazard of K02 and the hours of K05", leaks("protocol")},
	"K04":  {PutIn, "base hazard of the strict preset", leaks("strict")},
	"K05":  {PutIn, "hours of the protocol preset", func(n int) (Estimate, error) { return preset("protocol").MedianRun(seedOf, n), nil }},
	"K07":  {Predicted, "every leak of K01 played in the engine, looked at every 2 h, moved and treated once found; serious is over 9 h of ischaemia", treated},
	"K09":  {Predicted, "every leak of K01 played with nobody looking; shape only", unseen},
	"K10a": {Predicted, "one base for all three groups, and K11", fails(0, 0.30)},
	"K10b": {Predicted, "one base for all three groups, and K11", fails(0.30, 0.65)},
	"K10c": {Predicted, "one base for all three groups, and K11", fails(0.65, 0)},
	"K11": {PutIn, "hazard at 50 % over hazard at 45 %", just(func() float64 {
		at := func(share float64) float64 {
			return vein.Hazards(preset("difficult-access").Base, vein.Vein{Site: vein.UpperArm}, share, vein.Around{}).All()
		}
		return at(0.50) / at(0.45)
	})},
	"K16":  {Predicted, "geometry", just(func() float64 { return lie(10).PathMM / 10 })},
	"K16b": {Predicted, "geometry", just(func() float64 { return 100 * lie(12).Share })},
	"K17a": {PutIn, "curve in the ratio over the veins chosen", sticks(byFeel, func(at Placed) bool { return at.Ratio < 0.41 })},
	"K17b": {PutIn, "curve in the ratio over the veins chosen", sticks(byFeel, func(at Placed) bool { return at.Ratio >= 0.41 })},
	"K18a": {PutIn, "curve in the diameter over the veins chosen", sticks(byScan, func(at Placed) bool { return at.Vein.DiameterMM >= 4 })},
	"K18b": {PutIn, "curve in the diameter over the veins chosen", sticks(byScan, func(at Placed) bool { return at.Vein.DiameterMM < 4 })},
	"K19a": {PutIn, "veins drawn", width("arm-basilic")},
	"K19b": {PutIn, "veins drawn", width("arm-cephalic")},
	"K19c": {PutIn, "veins drawn", width("forearm-cephalic")},
	"K19d": {PutIn, "veins drawn", width("forearm-basilic")},
	"K20": {PutIn, "a vein of 3.2 mm", just(func() float64 {
		return 100 * (vein.WithTourniquet(vein.Vein{DiameterMM: 3.2}).DiameterMM/3.2 - 1)
	})},
	"K21a": {PutIn, "kinetics", just(func() float64 { return named("norepinephrine").HalfLifeMin(20, 70) })},
	"K21b": {PutIn, "kinetics", just(func() float64 { return named("norepinephrine").HalfLifeMin(60, 70) })},
	"K21c": {PutIn, "kinetics", just(func() float64 { return named("norepinephrine").ClearanceLMin(20, 70) })},
	"K21d": {PutIn, "kinetics", just(func() float64 { return named("norepinephrine").ClearanceLMin(60, 70) })},
	"K23":  {PutIn, "kinetics", just(func() float64 { return 60 * named("epinephrine").ClearanceLMin(50, 70) })},
	"K24a": {PutIn, "slack of the line over the rate", just(func() float64 { return line.StartUpMin(1, false) })},
	"K24b": {PutIn, "slack of the line over the rate", just(func() float64 { return line.StartUpMin(1, true) })},
	"K26":  {PutIn, "teaching scale from an animal; no mark depends on it", just(flapHalf)},
	"K27": {Predicted, "plug flow", just(func() float64 {
		drug := line.Fluid{Drug: 1, Conc: 16}
		return line.NewColumn(1, line.Saline).UntilFront(drug) / 3.75 * 60
	})},
	"K28": {PutIn, "chance of an alarm at 150 mL/h", func(n int) (Estimate, error) {
		silent := 0
		for i := range n {
			if !luck.Happens(seedOf, "leak-alarm", "", i, line.LeakNoticed(150)) {
				silent++
			}
		}
		return shareOf(silent, n), nil
	}},
}

// Table simulates the rows of the table of targets with n patients each.
func Table(n int) ([]Row, error) {
	targets, err := Targets()
	if err != nil {
		return nil, err
	}
	rows := make([]Row, len(targets))
	for i, t := range targets {
		s, ok := simulated[t.ID]
		if !ok {
			return nil, fmt.Errorf("target %s: nothing simulates it", t.ID)
		}
		e, err := s.run(n)
		if err != nil {
			return nil, fmt.Errorf("target %s: %w", t.ID, err)
		}
		rows[i] = Row{t, e, s.origin, s.how, e.Within(t.Low, t.High)}
	}
	return rows, nil
}

func preset(name string) *Preset {
	p, _ := PresetNamed(name)
	return &p
}

func named(name string) drug.Drug {
	d, _ := drug.Named(name)
	return d
}

func just(f func() float64) func(int) (Estimate, error) {
	return func(int) (Estimate, error) { return formula(f()), nil }
}

func leaks(name string) func(int) (Estimate, error) {
	return func(n int) (Estimate, error) {
		t := preset(name).Infusions(seedOf, n)
		return shareOf(t.Leaks, t.Patients), nil
	}
}

func fails(least, under float64) func(int) (Estimate, error) {
	return func(n int) (Estimate, error) {
		fail, of := preset("difficult-access").Fails(seedOf, n, least, under)
		return shareOf(fail, of), nil
	}
}

func sticks(of func() Preset, wanted func(Placed) bool) func(int) (Estimate, error) {
	return func(n int) (Estimate, error) {
		p := of()
		return p.Sticks(seedOf, n, wanted), nil
	}
}

func width(kind string) func(int) (Estimate, error) {
	return func(n int) (Estimate, error) {
		k, _ := vein.KindNamed(kind)
		var sum, squares float64
		for i := range n {
			mm := k.Drawn(luck.Normal(seedOf, "width", kind, i), 0).DiameterMM
			sum += mm
			squares += mm * mm
		}
		return meanOf(sum, squares, n), nil
	}
}

func treated(n int) (Estimate, error) {
	arms, err := preset("routine").Arms(seedOf, n, true)
	hurt, _ := injured(arms, 0)
	return shareOf(hurt, n), err
}

func unseen(n int) (Estimate, error) {
	arms, err := preset("routine").Arms(seedOf, n, false)
	hurt, long := injured(arms, 4)
	return shareOf(long, hurt), err
}

func lie(deepMM float64) vein.Geometry {
	return vein.Lie(vein.Vein{DiameterMM: 4, DepthMM: deepMM}, cannula(20, 47.8), 45)
}

// flapHalf finds where the curve of flaps crosses a half.
func flapHalf() float64 {
	low, high := 0.0, 48.0
	for range 50 {
		mid := (low + high) / 2
		if tissue.FlapLost(mid) < 0.5 {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}
