package sim

// Book is where all drug and all fluid went. Each term is a running sum of
// its own; none is found by subtraction.
type Book struct {
	// Drug, mcg: Pumped = InLines + InBlood + Eliminated + InTissue + Broken
	// + DrawnBack + Spilled.
	Pumped     float64 // out of the bags
	InLines    float64
	InBlood    float64
	Eliminated float64
	InTissue   float64
	Broken     float64
	DrawnBack  float64
	Spilled    float64

	// Drug that went into tissue, mcg: IntoTissue = InTissue + TakenUp +
	// Broken + DrawnFromTissue.
	IntoTissue      float64
	TakenUp         float64
	DrawnFromTissue float64

	// Fluid, mL: Entered = InColumns + ToBlood + TissueML + DrawnML + SpilledML.
	Entered   float64 // from bags, syringes, and blood drawn into a column
	InColumns float64
	ToBlood   float64
	TissueML  float64
	DrawnML   float64
	SpilledML float64
}

// ledger keeps the running sums; what is still in lines, blood and depots is
// read from these themselves.
type ledger struct {
	pumped, drawn, spilled float64
	into, takenUp, broken  float64
	drawnTissue            float64
	entered, toBlood       float64
	drawnML, spilledML     float64
}

// Book is the state of all books at the present moment.
func (e *Engine) Book() Book {
	f := e.fork()
	f.commit(e.now.Seconds(), event{})
	b := Book{
		Pumped: f.led.pumped, DrawnBack: f.led.drawn, Spilled: f.led.spilled,
		InBlood: f.blood.Mcg, Eliminated: f.blood.EliminatedMcg,
		IntoTissue: f.led.into, TakenUp: f.led.takenUp, Broken: f.led.broken,
		DrawnFromTissue: f.led.drawnTissue,
		Entered:         f.led.entered, ToBlood: f.led.toBlood,
		DrawnML: f.led.drawnML, SpilledML: f.led.spilledML,
	}
	for _, p := range f.pumps {
		b.InLines += p.tubing.Mcg()
		b.InColumns += p.tubing.DeadML()
	}
	for _, l := range f.sites {
		b.InLines += l.column.Mcg()
		b.InColumns += l.column.DeadML()
		if l.depot != nil {
			b.InTissue += l.depot.M
			b.TissueML += l.depot.V
		}
	}
	return b
}
