package cohort

import (
	"math"

	"blanch/sim"
	"blanch/sim/vein"
)

// Outcome is one of the figures by which it is judged how much an assumption
// matters.
type Outcome struct {
	Name, Unit string
	Value      float64
}

// infusions are what runs in the reference leak of each vasopressor: an
// ordinary strength and dose.
var infusions = map[string]infusion{
	"norepinephrine": usual,
	"epinephrine":    {"epinephrine", "16 mg", 20},
	"phenylephrine":  {"phenylephrine", "100 mg", 60},
	"dopamine":       {"dopamine", "1600 mg", 13},
	"vasopressin":    weakVasopressin,
}

// Outcomes are the headline outcomes with that drug in the reference leak.
// They hold no luck beyond that of which patients are drawn.
func Outcomes(drug string) ([]Outcome, error) {
	run := infusions[drug]
	leak, stick := 0.0, 0.0
	p := preset("routine")
	const n = 2000
	for i := range n {
		at := p.Patient(seedOf, i).Line(1)
		perHour := vein.Hazards(p.Base, at.Vein, at.Share, vein.Around{}).Leak
		leak += 100 * (1 - math.Exp(-perHour*8)) / n
		stick += 100 * vein.Success(at.Vein, at.Line.Cannula, at.Line.AngleDeg, at.technique(), false) / n
	}
	others := append(append(append([]string(nil), nitrate...), warmth...), terbutaline...)
	var came [3]Came
	for i, c := range []Course{
		{"untreated", run, 0, nil},
		{"treated", run, sim.Hour, append(append(append([]string(nil), drawBack...), phentolamine...), raise...)},
		{"others", run, sim.Hour, others},
	} {
		var err error
		if came[i], err = c.Play(); err != nil {
			return nil, err
		}
	}
	last := len(Marks) - 1
	return []Outcome{
		{"a routine line leaks in 8 h", "%", leak},
		{"a routine first stick succeeds", "%", stick},
		{"mean pressure before the leak", "mmHg", came[0].Before},
		{"first sign after", "min", came[0].FirstSign},
		{"swelling when found at 60 min", "mm", came[1].FoundMM},
		{"ischaemia, not found for 4 h", "min", came[0].Ischaemic[last]},
		{"ischaemia, found at 60 min, phentolamine", "min", came[1].Ischaemic[last]},
		{"ischaemia, found at 60 min, nitrate, warmth and terbutaline", "min", came[2].Ischaemic[last]},
	}, nil
}
