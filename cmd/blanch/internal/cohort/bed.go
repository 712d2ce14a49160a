package cohort

import (
	"fmt"

	"blanch/sim"
	"blanch/sim/quantity"
	"blanch/sim/vein"
)

const (
	arm    = "left-arm"
	spare  = "right-arm"
	kgBody = 70.0
)

// bed is one patient in the engine, with a drip in the left arm that the
// infusion will run through and a second one in the right to move it to.
type bed struct {
	*sim.Engine
	began sim.Time // the infusion
}

// infusion is what runs.
type infusion struct {
	drug string
	mix  string  // amount in 1 L, "16 mg"
	mlH  float64 // as set
}

var (
	// usual is norepinephrine 16 mcg/mL at 20 mL/h: 5.3 mcg/min.
	usual = infusion{"norepinephrine", "16 mg", 20}
	// slow is the same dose from a bag that lasts for five days.
	slow = infusion{"norepinephrine", "40 mg", 8}
)

// newBed makes a bed whose first infusion has just started.
func newBed(seed uint64, at vein.Vein, c vein.Cannula, angle float64, fate sim.Fate, wear vein.Ends, ends sim.Time, run infusion) (*bed, error) {
	order := quantity.Of(0.05, "mcg/kg/min")
	if run.drug == "vasopressin" {
		order = quantity.Of(0.03, "units/min")
	}
	offer := func(id string, side sim.Side, v vein.Vein) sim.VeinOffer {
		return sim.VeinOffer{ID: id, Side: side, Look: "A vein.", Vein: v}
	}
	other := vein.Vein{Site: vein.Forearm, DiameterMM: 3, DepthMM: 4, StraightMM: 60}
	e, err := sim.New(&sim.Case{
		ID:      "cohort",
		Patient: sim.Patient{Name: "A patient", AgeY: 65, Sex: "female", WeightKG: kgBody, SAPS2: 40, Untreated: []sim.Point{{MmHg: 52}}, Skin: "light"},
		Order:   sim.Order{Text: run.drug, Drug: run.drug, Start: order, Least: order, Most: order, TargetMmHg: 65, CeilMmHg: 85},
		Veins:   []sim.VeinOffer{offer(arm, sim.Left, at), offer(spare, sim.Right, other)},
		InPlace: []sim.InPlace{{Vein: arm, Cannula: c, AngleDeg: angle}, {Vein: spare, Cannula: cannula(20, 29.5), AngleDeg: 25}},
		CuffArm: sim.Right,
		Leak:    fate,
		Wear:    wear,
		Ends:    ends,
	}, &sim.Place{
		ID: "cohort", Name: "A ward",
		Pumps:    []sim.Pump{{ID: "pump-1", StepMLH: 0.1, MostMLH: 999}},
		Cannulae: []vein.Cannula{c}, BagsML: []float64{1000},
		Vials: []sim.Vial{
			{Drug: run.drug, MG: 40, ML: 40, Number: 100}, {Drug: "phentolamine", MG: 5, ML: 1, Number: 9}, {Drug: "terbutaline", MG: 1, ML: 1, Number: 9},
		},
		KitAt: "the bed", KitReady: true, Nitrate: true, Cuff: sim.Hour, ExtensML: 0.5,
	}, seed)
	if err != nil {
		return nil, err
	}
	b := &bed{Engine: e}
	for _, say := range []string{
		fmt.Sprintf("mix %s of %s in 1000 mL, withdrawing first", run.mix, run.drug),
		"hang bag-1 on pump-1", "prime pump-1", "connect pump-1 to " + arm + " primed to the tip",
		fmt.Sprintf("set pump-1 to %s mL/h", quantity.Number(run.mlH)), "start pump-1",
	} {
		if err := b.do(say); err != nil {
			return nil, err
		}
	}
	b.began = b.Now()
	return b, nil
}

// do does what is said and waits until it is done. It fails when the engine
// refuses.
func (b *bed) do(say string) error {
	a, err := sim.ParseAction(say)
	if err != nil {
		return err
	}
	if en := b.Do(a)[0]; en.Kind == sim.Refused {
		return fmt.Errorf("%s: refused: %s", say, en.Why)
	}
	b.Advance(b.HandsFree())
	return nil
}

// all does one thing after the other, up to the first that is refused.
func (b *bed) all(says ...string) error {
	for _, say := range says {
		if err := b.do(say); err != nil {
			return err
		}
	}
	return nil
}

// look uncovers and feels the arm and says whether anything of a leak was
// found.
func (b *bed) look() (bool, error) {
	for _, say := range []string{"uncover " + arm, "feel around " + arm} {
		a, err := sim.ParseAction(say)
		if err != nil {
			return false, err
		}
		if en := b.Do(a)[0]; en.Kind == sim.Refused {
			return false, fmt.Errorf("%s: refused: %s", say, en.Why)
		}
		for _, en := range b.Advance(b.HandsFree()) {
			if en.Kind == sim.Found && sim.SignOf(en.What) != "" && sim.Abnormal(en.What, en.Word, en.Value) {
				return true, nil
			}
		}
	}
	return false, nil
}
