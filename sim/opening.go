package sim

import (
	"fmt"

	"blanch/sim/dose"
	"blanch/sim/line"
	"blanch/sim/quantity"
)

// takeOver sets up an infusion that runs when the case opens: bag, tubing and
// cannula hold the drug, and blood and effect site stand where that rate
// takes them in the end. What they hold is booked as pumped.
func (e *Engine) takeOver(r Running) error {
	p, s, agent := e.pump(r.Pump), e.lastSite(r.Line), e.number(r.Drug)
	v, stocked := e.vial(r.Drug)
	switch {
	case p == nil:
		return fmt.Errorf("running when it opens: there is no pump called %q", r.Pump)
	case p.bag != nil:
		return fmt.Errorf("running when it opens: %s runs already", r.Pump)
	case s == nil || s.pump != nil:
		return fmt.Errorf("running when it opens: no line that is free lies in %q", r.Line)
	case agent == 0 || !stocked:
		return fmt.Errorf("running when it opens: there is no %s in stock", r.Drug)
	}
	amount := r.Amount.Float(v.unit())
	m := dose.Mix{AmountMcg: float64(amount * v.perMG()), DrugML: float64(amount / v.MG * v.ML), BagML: r.BagML}
	b := &bagState{agent: agent, left: r.LeftML, pump: p, came: true}
	b.BagRecord = BagRecord{
		ID: fmt.Sprintf("bag-%d", e.count(false)+1), Drug: r.Drug, Nominal: m.Nominal(), True: m.True(),
		CheckedAt: Never, VolumeML: m.VolumeML(), Entry: -1,
	}
	e.bags = append(e.bags, b)

	p.tubing = line.NewColumn(e.p.TubingML, b.fluid())
	s.column = line.NewColumn(s.column.DeadML(), b.fluid())
	p.bag, p.site, s.pump, p.primed, p.running = b, s, p, true, true
	p.rate = quantity.Round(r.MLH, p.StepMLH)

	a := &e.agents[agent]
	settled := float64(p.rate/3600*b.True) / a.K
	e.blood[agent].Amount += settled
	e.blood[agent].Effect += settled / a.VolumeL
	e.led.drugs[agent].pumped += p.tubing.Amount(agent) + s.column.Amount(agent) + settled
	return nil
}
