package scenarios

import (
	"fmt"
	"slices"

	"blanch/sim"
	"blanch/sim/drug"
	"blanch/sim/quantity"
)

// settle makes the place from what the file says in other words.
func (f *placeFile) settle() {
	for _, p := range f.pumps {
		for _, l := range f.libraries {
			if l.name == p.library {
				p.Library = l.limits
			}
		}
		f.Pumps = append(f.Pumps, p.Pump)
	}
	for _, v := range f.vials {
		v.MG = v.amount
		f.Vials = append(f.Vials, v.Vial)
	}
	for _, v := range f.premixed {
		v.MG = v.amount
		f.Premixed = append(f.Premixed, v.Premixed)
	}
}

// checkPlace makes the checks of a place that need more than one field.
func (r *reader) checkPlace(f *placeFile) {
	for i, v := range f.vials {
		r.checkSupply(fmt.Sprintf("vials/%d", i+1), v.Drug, v.stocked)
	}
	for i, v := range f.premixed {
		path := fmt.Sprintf("premixed/%d", i+1)
		r.checkSupply(path, v.Drug, v.stocked)
		if d, ok := drug.Named(v.Drug); ok && d.Role == drug.Antidote && r.sound(path+"/drug") {
			r.at(path+"/drug", Error, "unknown-drug", v.Drug+" is an antidote, which is drawn up from vials", "a vasopressor")
		}
	}
	onceEach(r, "cannulae", "this cannula", f.Cannulae)
	var names []string
	for _, l := range f.libraries {
		names = append(names, l.name)
		for _, limit := range l.limits {
			r.checkLimit("libraries/"+l.name+"/"+limit.Drug, limit)
		}
	}
	for _, p := range f.pumps {
		if path := "pumps/" + p.ID + "/library"; r.sound(path) {
			r.known(path, "library", p.library, names)
		}
	}
	if f.Pharmacy && r.sound("pharmacist mixes", "people") && !slices.ContainsFunc(f.People, func(p sim.Person) bool { return p.Role == sim.Pharmacist }) {
		r.at("pharmacist mixes", Error, "missing-field", "nobody here is a pharmacist, so nobody could mix", "under people, someone with role: pharmacist")
	}
	if r.sound("kit/lacks", "kit/ready") && f.KitReady {
		r.at("kit/lacks", Error, "two-ways", "the kit is ready and lacks something", "ready: false, or no lacks")
	}
}

// checkSupply checks that a drug in stock is known and in its own unit.
func (r *reader) checkSupply(path, name string, in stocked) {
	if !r.sound(path+"/drug") || !r.known(path+"/drug", "drug", name, drug.Names()) || !r.sound(path+"/amount") {
		return
	}
	if d, _ := drug.Named(name); (d.Base == "units") != in.units {
		unit := "mg"
		if d.Base == "units" {
			unit = d.Base
		}
		r.at(path+"/amount", Error, "wrong-unit", name+" is not measured in this", "an amount in "+unit)
	}
}

// checkLimit checks an entry of a drug library: known drug, its own unit, and
// the soft limits within the hard ones.
func (r *reader) checkLimit(path string, l sim.DrugLimit) {
	if !r.sound(path) || !r.known(path, "drug", l.Drug, drug.Names()) {
		return
	}
	d, _ := drug.Named(l.Drug)
	ends := []struct {
		key string
		q   quantity.Quantity
	}{{"hard/least", l.Hard.Least}, {"soft/least", l.Soft.Least}, {"soft/most", l.Soft.Most}, {"hard/most", l.Hard.Most}}
	set := 0
	for i, end := range ends {
		at := path + "/" + end.key
		if !r.sound(at) {
			continue
		}
		set++
		_, flat := end.q.In(quantity.MustUnit(d.Base + "/min"))
		_, byKG := end.q.In(quantity.MustUnit(d.Base + "/kg/min"))
		if flat != nil && byKG != nil {
			r.at(at, Error, "wrong-unit", l.Drug+" is not dosed in this", fmt.Sprintf("a dose in %s/min or %s/kg/min", d.Base, d.Base))
			return
		}
		for _, before := range ends[:i] {
			below := path + "/" + before.key
			if v, err := before.q.In(end.q.Unit); r.sound(below) && err == nil && v > end.q.Value {
				r.at(at, Error, "range-reversed", fmt.Sprintf("%s is less than %s", quoted(end.key), quoted(before.key)), "hard least, soft least, soft most and hard most in this order")
				return
			}
		}
	}
	if set == 0 && r.sound(path) {
		r.at(path, Error, "missing-field", quoted(l.Drug)+" has no limit", "soft: {most: 0.3 mcg/kg/min}")
	}
}

func (r *reader) twice(path, first, what string) {
	also := r.pos(first)
	r.complain(Complaint{Code: "given-twice", Pos: r.pos(path), Said: what + " is given twice", Allowed: "each once", Also: &also})
}
