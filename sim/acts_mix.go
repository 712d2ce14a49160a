package sim

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"blanch/sim/dose"
	"blanch/sim/drug"
	"blanch/sim/quantity"
)

// Mixing and labelling.
func mixActs() []Spec {
	return []Spec{
		{
			Name: "mix", Sentence: "mix {amount} of {drug} in {diluent}, {adding}", Step: 4, Holds: Hands, Takes: 4 * Minute, By: []Role{Nurse, Pharmacist},
			Does:       "make up a bag; it is named bag-1, bag-2 and so on",
			Impossible: "the drug or the bag is not in stock, the vials are out of date or not enough, or a pharmacist alone makes up bags here",
			refuse:     refuseMix,
			done: func(e *Engine, r *running) {
				name, mg, bagML := r.act.word("drug"), r.act.number("amount"), r.act.number("diluent")
				v, _ := e.vial(name)
				m := dose.Mix{AmountMcg: float64(mg * v.perMG()), DrugML: float64(mg / v.MG * v.ML), BagML: bagML, Withdrawn: r.act.word("adding") == "withdrawing first"}
				b := bagState{left: m.VolumeML(), agent: e.number(name)}
				b.BagRecord = BagRecord{
					ID: fmt.Sprintf("bag-%d", e.count(false)+1), Drug: name, Nominal: m.Nominal(), True: m.True(),
					Withdrawn: m.Withdrawn, LabelledAt: Never, CheckedAt: Never, MixedAt: r.ends, VolumeML: b.left, Entry: len(e.journal),
				}
				again(&e.bags, b)
				e.done(r, Entry{Subject: b.ID, Value: bagML, Unit: "mL"})
			},
		},
		{
			Name: "premixed", Sentence: "take a premixed bag of {amount} of {drug} in {diluent}", Step: 4, Holds: Hands, Takes: 30 * Second, By: []Role{Nurse},
			Does:       "take one from stock and read its label, which the maker wrote; it is named bag-1, bag-2 and so on",
			Impossible: "there is none of that strength, or none is left",
			refuse:     refusePremixed,
			done: func(e *Engine, r *running) {
				p, _ := e.premixed(r.act)
				b := &bagState{left: p.ML, agent: e.number(p.Drug), came: true}
				strength := float64(p.MG*perMG(p.Drug)) / p.ML
				b.BagRecord = BagRecord{
					ID: fmt.Sprintf("bag-%d", e.count(false)+1), Drug: p.Drug, Nominal: strength, True: strength,
					LabelledAt: r.ends, CheckedAt: Never, MixedAt: r.ends, VolumeML: p.ML, Entry: len(e.journal),
				}
				e.bags = append(e.bags, b)
				e.done(r, Entry{Subject: b.ID, Value: p.ML, Unit: "mL"})
			},
		},
		{
			Name: "label", Sentence: "label {bag}", Step: 4, Holds: Hands, Takes: 20 * Second, By: []Role{Nurse},
			Does: "write drug, amount, volume, concentration, time and name on it",
			done: func(e *Engine, r *running) { r.bag.LabelledAt = r.ends; e.done(r, Entry{}) },
		},
		{
			Name: "check-bag", Sentence: "check the mix in {bag} with {person}", Step: 4, Holds: Hands, Takes: Minute,
			Does:       "a second person works the concentration out on their own and compares",
			Impossible: "they are not at the bed or are busy, or the bag has no label",
			refuse: func(e *Engine, r *running) string {
				if r.bag.LabelledAt == Never {
					return r.bag.ID + " has no label to check"
				}
				return e.besides(r)
			},
			begin: func(_ *Engine, r *running) { r.with.busy = r },
			done: func(e *Engine, r *running) {
				r.bag.CheckedAt = r.ends
				conc := legible(r.bag.Nominal)
				word := "I make that"
				if e.mislabelled(r.bag) {
					word = "stop, that is not what your label says; I make it"
				}
				e.note(Entry{At: r.ends, Kind: Replied, Act: r.act.Name, Subject: r.with.ID, What: "concentration", Word: word, Value: conc, Unit: e.base(r.bag.agent) + "/mL"})
				e.done(r, Entry{})
			},
		},
		{
			Name: "draw-up", Sentence: "draw up {mass} of {antidote} to {volume}", Step: 9, Holds: Hands, Lasts: "2 min, and the walk if the kit is not here", By: []Role{Nurse, Doctor},
			Does:       "make up the antidote in a syringe; it is named antidote-1 and so on",
			Impossible: "there are not enough vials, they are out of date, or it would not fit a 20 mL syringe",
			takes: func(e *Engine, _ Action) Time {
				if e.kit {
					return 2 * Minute
				}
				return 2*Minute + e.p.KitWalk
			},
			refuse: func(e *Engine, r *running) string {
				mg, ml := r.act.number("mass"), r.act.number("volume")
				if why := e.inStock(r.act.word("antidote"), mg); why != "" {
					return why
				}
				if ml <= 0 || ml > 20 {
					return "it is drawn up in a syringe of up to 20 mL"
				}
				return ""
			},
			done: func(e *Engine, r *running) {
				ml := r.act.number("volume")
				conc := float64(r.act.number("mass")*1000) / ml
				b := bagState{left: ml}
				b.BagRecord = BagRecord{
					ID: fmt.Sprintf("antidote-%d", e.count(true)+1), Drug: r.act.word("antidote"), Nominal: conc, True: conc,
					LabelledAt: r.ends, CheckedAt: Never, MixedAt: r.ends, VolumeML: ml, Entry: len(e.journal),
				}
				again(&e.bags, b)
				e.done(r, Entry{Subject: b.ID, Value: ml, Unit: "mL"})
			},
		},
	}
}

func refuseMix(e *Engine, r *running) string {
	if e.p.Pharmacy && (r.who == nil || r.who.Role != Pharmacist) {
		return "a pharmacist makes up the bags here" + e.pharmacists()
	}
	if why := wrongUnit(e, r); why != "" {
		return why
	}
	if why := e.inStock(r.act.word("drug"), r.act.number("amount")); why != "" {
		return why
	}
	if isAntidote(r.act.word("drug")) {
		return "an antidote is drawn up in a syringe, not mixed in a bag"
	}
	want := r.act.number("diluent")
	var stock []string
	for _, ml := range e.p.BagsML {
		if ml == want {
			return ""
		}
		stock = append(stock, quantity.Number(ml)+" mL")
	}
	return fmt.Sprintf("there is no %s mL bag; there are: %s", quantity.Number(want), strings.Join(stock, ", "))
}

// wrongUnit says that an amount is in mg where the drug is kept in units, or
// the other way round.
func wrongUnit(e *Engine, r *running) string {
	v, ok := e.vial(r.act.word("drug"))
	for _, arg := range r.act.Args {
		if ok && arg.Kind == "amount" && !arg.Quantity.Unit.Same(quantity.MustUnit(v.unit())) {
			return fmt.Sprintf("%s is measured in %s", v.Drug, v.unit())
		}
	}
	return ""
}

// pharmacists names who can be asked to make up a bag.
func (e *Engine) pharmacists() string {
	for _, p := range e.people {
		if p.Role == Pharmacist {
			return "; ask " + p.ID + " to mix it"
		}
	}
	return ""
}

func refusePremixed(e *Engine, r *running) string {
	p, ok := e.premixed(r.act)
	if !ok {
		var stock []string
		for _, p := range e.p.Premixed {
			stock = append(stock, p.text())
		}
		if len(stock) == 0 {
			return "there are no premixed bags here"
		}
		return "there is no such premixed bag; there are: " + strings.Join(stock, "; ")
	}
	used := 0
	for _, b := range e.bags {
		if b.came && b.Drug == p.Drug && b.VolumeML == p.ML && b.Nominal == float64(p.MG*perMG(p.Drug))/p.ML {
			used++
		}
	}
	if used >= p.Number {
		return "none is left of " + p.text()
	}
	return ""
}

// premixed is the stock that a sentence means.
func (e *Engine) premixed(a Action) (Premixed, bool) {
	for _, p := range e.p.Premixed {
		for _, arg := range a.Args {
			fits := arg.Kind == "amount" && arg.Quantity.Unit.Same(quantity.MustUnit(unitOfVials(p.Drug))) && arg.Number == p.MG
			if fits && p.Drug == a.word("drug") && p.ML == a.number("diluent") {
				return p, true
			}
		}
	}
	return Premixed{}, false
}

func (p Premixed) text() string {
	return fmt.Sprintf("%s %s of %s in %s mL", quantity.Number(p.MG), unitOfVials(p.Drug), p.Drug, quantity.Number(p.ML))
}

// vial is the stock of a drug, what is in date first.
func (e *Engine) vial(name string) (Vial, bool) {
	var past Vial
	for _, v := range e.p.Vials {
		if v.Drug == name && !v.Past {
			return v, true
		}
		if v.Drug == name && past.Drug == "" {
			past = v
		}
	}
	return past, past.Drug != ""
}

// mislabelled says that the label of a bag reads another concentration than the
// bag has: the one that the learner worked out for it before writing the label.
// Of a bag that no sum was asked about the label reads what is in it.
func (e *Engine) mislabelled(b *bagState) bool {
	for _, s := range e.sums {
		if s.Sum == SumConcentration && s.Bag == b.ID && s.At != Never && s.At <= b.LabelledAt {
			given, err := s.Given.In(s.Key.Unit)
			return err == nil && math.Abs(given-b.Nominal) > float64(labelOff*b.Nominal)
		}
	}
	return false
}

// labelOff is how far a label may be from a second reckoning: more than
// rounding, less than any slip.
const labelOff = 0.02

// isAntidote says that a drug is drawn up to undo a leak.
func isAntidote(name string) bool { return drug.IsAntidote(name) }

// perMG is how much of the drug's base unit the unit of its vials holds: a
// vial's strength is in mg, or in units for a drug that is kept in units.
func (v Vial) perMG() float64 { return perMG(v.Drug) }

func perMG(name string) float64 {
	if drug.BaseOf(name) == "units" {
		return 1
	}
	return 1000
}

// unit is what its vials are counted in.
func (v Vial) unit() string { return unitOfVials(v.Drug) }

func unitOfVials(name string) string {
	if perMG(name) == 1 {
		return "units"
	}
	return "mg"
}

// inStock says why mg of a drug cannot be had; empty when they can.
func (e *Engine) inStock(name string, mg float64) string {
	v, ok := e.vial(name)
	if !ok && slices.Contains(e.Vocabulary("drug"), name) {
		return fmt.Sprintf("there are no vials of %s; it comes premixed", name)
	}
	if v.Past {
		return fmt.Sprintf("the %s in stock is out of date", name)
	}
	if !ok {
		return fmt.Sprintf("there is no %q in stock; there is: %s", name, strings.Join(e.Vocabulary("drug"), ", "))
	}
	used := 0.0
	for _, b := range e.bags {
		if b.Drug == name && !b.came {
			used += float64(b.Nominal*b.nominalML()) / v.perMG()
		}
	}
	have := float64(v.MG*float64(v.Number)) - used
	if mg <= 0 || mg > have+1e-9 {
		return fmt.Sprintf("%s %s of %s cannot be had: %s %s are left in stock", quantity.Number(mg), v.unit(), name, quantity.Number(quantity.Round(have, 0.01)), v.unit())
	}
	return ""
}

// nominalML is the labelled volume.
func (b *bagState) nominalML() float64 {
	if b.Nominal == 0 {
		return 0
	}
	return float64(b.True*b.VolumeML) / b.Nominal
}

// count is how many bags, or how many syringes of antidote, were made.
func (e *Engine) count(syringes bool) int {
	n := 0
	for _, b := range e.bags {
		if isAntidote(b.Drug) == syringes {
			n++
		}
	}
	return n
}
