package sim

import "blanch/sim/line"

// Book is where all drug and all fluid went. Each term is a running sum of
// its own; none is found by subtraction.
type Book struct {
	Drugs []DrugBook // of every vasopressor that the case or the place has

	// Fluid, mL: Entered = InColumns + ToBlood + TissueML + DrawnML + SpilledML.
	Entered   float64 // from bags and syringes, what columns held at first, and blood drawn into one
	InColumns float64
	ToBlood   float64
	TissueML  float64
	DrawnML   float64
	SpilledML float64
}

// DrugBook is where one drug went, in its base unit.
type DrugBook struct {
	Drug string

	// Pumped = InLines + InBlood + Eliminated + InTissue + Broken + DrawnBack + Spilled.
	Pumped     float64 // out of the bags, before the case opened too
	InLines    float64
	InBlood    float64
	Eliminated float64
	InTissue   float64
	Broken     float64
	DrawnBack  float64
	Spilled    float64

	// IntoTissue = InTissue + TakenUp + Broken + DrawnFromTissue.
	IntoTissue      float64
	TakenUp         float64
	DrawnFromTissue float64
}

// ledger keeps the running sums; what is still in lines, blood and depots is
// read from these themselves.
type ledger struct {
	drugs              [maxAgents]drugLedger
	entered, toBlood   float64
	drawnML, spilledML float64
}

type drugLedger struct {
	pumped, drawn, spilled             float64
	into, takenUp, broken, drawnTissue float64
}

// spill books slugs that were poured away.
func (l *ledger) spill(slugs []line.Slug) {
	for _, s := range slugs {
		l.drugs[s.Drug].spilled += float64(s.ML * s.Conc)
		l.spilledML += s.ML
	}
}

// Book is the state of all books at the present moment.
func (e *Engine) Book() Book {
	f := e.fork()
	f.change(f.now)
	b := Book{Entered: f.led.entered, ToBlood: f.led.toBlood, DrawnML: f.led.drawnML, SpilledML: f.led.spilledML}
	for i := 1; i < len(f.agents); i++ {
		l := &f.led.drugs[i]
		d := DrugBook{
			Drug: f.drugs[i].Name, Pumped: l.pumped, DrawnBack: l.drawn, Spilled: l.spilled,
			InBlood: f.blood[i].Amount, Eliminated: f.blood[i].Eliminated,
			IntoTissue: l.into, TakenUp: l.takenUp, Broken: l.broken, DrawnFromTissue: l.drawnTissue,
		}
		for _, p := range f.pumps {
			d.InLines += p.tubing.Amount(i)
		}
		for _, s := range f.sites {
			d.InLines += s.column.Amount(i)
			if slot := s.depot.slot(i); slot >= 0 {
				d.InTissue += s.depot.M[slot]
			}
		}
		if f.drugs[i].Potency.Blocks == 0 {
			b.Drugs = append(b.Drugs, d)
		}
	}
	for _, p := range f.pumps {
		b.InColumns += p.tubing.DeadML()
	}
	for _, s := range f.sites {
		b.InColumns += s.column.DeadML()
		if s.depot != nil {
			b.TissueML += s.depot.Fluid()
		}
	}
	return b
}
