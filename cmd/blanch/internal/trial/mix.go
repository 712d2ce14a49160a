package trial

import (
	"fmt"
	"strings"

	"blanch/sim"
	"blanch/sim/sentence"
)

// Making up bags, or taking them from stock.

// recipe is what goes into a bag.
type recipe struct {
	amount, ml float64
	premixed   bool
}

func (r recipe) String() string { return fmt.Sprint(r.amount, " in ", r.ml, " ", r.premixed) }

// recipe is the next bag of the infusion in hand: as strong as the one before
// it where that can be had, as the order names it, premixed before made up,
// and within the policy.
func (l *learner) recipe() (recipe, bool) {
	var all []recipe
	for _, b := range l.p.premixed {
		if r := (recipe{b.MG, b.ML, true}); b.Drug == l.order.Drug && l.premixes[b.Drug+r.String()] < b.Number {
			all = append(all, r)
		}
	}
	if v, ok := l.p.vial(l.order.Drug); ok {
		left := v.MG*float64(v.Number) - l.used[v.Drug]
		if l.askedAmount > 0 && l.askedAmount <= left && l.p.hasBag(l.askedML) {
			all = append(all, recipe{l.askedAmount, l.askedML, false})
		}
		for _, ml := range l.p.bagsML {
			for n := 1; n <= v.Number && v.MG*float64(n) <= left+1e-9; n++ {
				all = append(all, recipe{v.MG * float64(n), ml, false})
			}
		}
	}
	best, most := recipe{}, 0.0
	for i, r := range all {
		strength := l.strength(r.amount, r.ml)
		score := 1 / (1 + strength) // where nothing in stock is weak enough
		if l.p.allows(&l.prescription, r.amount, r.ml) {
			score = 8 + strength*1e-6
			if l.began < sim.Never && strength == l.conc {
				score += 16
			}
		}
		if r.amount == l.askedAmount && r.ml == l.askedML {
			score += 4
		}
		if r.premixed && (l.askedAmount == 0 || l.strength(l.askedAmount, l.askedML) == strength || !l.p.allows(&l.prescription, l.askedAmount, l.askedML)) {
			score += 6
		}
		if i == 0 || score > most {
			best, most = r, score
		}
	}
	return best, len(all) > 0
}

// makeBag makes up the next bag, or takes one, and labels it.
func (l *learner) makeBag() turn {
	if l.making {
		l.by(l.now() + sim.Minute)
		return waits // someone else is at it
	}
	if l.bag == "" {
		return l.mixOne()
	}
	if l.premade(l.bag) {
		return passed
	}
	return l.once("mix", l.bag, act("label", word("bag", l.bag)))
}

func (l *learner) premade(bag string) bool { return l.tried("premade", "", bag) }

func (l *learner) mixOne() turn {
	r, ok := l.recipe()
	if !ok || !l.will("mix", "") {
		return passed
	}
	unit := unitMG
	if l.drug.Base == "units" {
		unit = unitUnits
	}
	args := []sentence.Arg{measured("amount", r.amount, unit), word("drug", l.order.Drug), measured("diluent", r.ml, unitML)}
	a := act("premixed", args...)
	if !r.premixed {
		a = act("mix", append(args, word("adding", l.p.withdraws))...)
		if l.p.pharmacy {
			who := l.helper(sim.Pharmacist)
			if who < 0 {
				return passed
			}
			id := l.p.people[who].id
			if !l.here[who] {
				t := l.once("mix", id, act("send-for", word("person", id)))
				if t == passed {
					l.by(l.now() + sim.Minute)
					return waits
				}
				return t
			}
			a.By = id
		}
	}
	l.making, l.newConc = true, l.strength(r.amount, r.ml)
	f := l.infusion
	if !l.does(a) {
		f.making = false
		if strings.Contains(l.refusal, "busy") {
			l.by(l.now() + sim.Minute)
			return waits
		}
		if r.premixed {
			l.premixes[l.order.Drug+r.String()] = mostActs // none is left
		} else {
			l.used[l.order.Drug] += r.amount
		}
		return acted
	}
	if r.premixed {
		l.premixes[l.order.Drug+r.String()]++
		l.close("premade", "", f.bag)
	} else {
		l.used[l.order.Drug] += r.amount
	}
	return acted
}

// checkBag has a second person work out what is in the bag, where the policy
// asks for it.
func (l *learner) checkBag(must bool) turn {
	moments := []string{"bag", "set-up"}
	if l.anyBegan() {
		moments[1] = "new-bag"
	}
	if l.bag == "" || !l.p.wants(moments...) {
		return passed
	}
	return l.secondCheck(l.bag, act("check-bag", word("bag", l.bag)), must)
}

// checkPump does the same for bag, line and rate on the pump.
func (l *learner) checkPump(moment string) turn {
	if moment == "pump" && !l.anyBegan() && l.p.wants("set-up") || l.p.wants(moment) {
		return l.secondCheck(fmt.Sprint(l.bag, moment, l.on), l.pumpAct("check-pump"), true)
	}
	return passed
}

// secondCheck has someone at the bed check it. What need not be done at once
// is left until they are free.
func (l *learner) secondCheck(what string, a sim.Action, must bool) turn {
	who := l.helper(sim.Nurse, sim.Doctor, sim.Colleague)
	switch {
	case who < 0:
		return passed
	case !l.here[who] && (!must || l.began == sim.Never && l.now() > l.p.policy.StartBy*2/3):
		return passed // nobody has come, and the shock does not wait
	case l.busy[who] && !must:
		return passed
	}
	a.Args = append(a.Args, word("person", l.p.people[who].id))
	return l.once("second-check", what, a)
}
