package scenarios

import (
	"fmt"

	"blanch/sim"
	"blanch/sim/drug"
)

// checkPlace makes the checks of a place that need more than one field.
func (r *reader) checkPlace(p *sim.Place) {
	for i, v := range p.Vials {
		if path := fmt.Sprintf("vials/%d/drug", i+1); r.sound(path) {
			r.known(path, "drug", v.Drug, drug.Names())
		}
	}
	for i, c := range p.Cannulae {
		for j := range i {
			path := fmt.Sprintf("cannulae/%d", i+1)
			if c == p.Cannulae[j] && r.sound(path) {
				r.twice(path, fmt.Sprintf("cannulae/%d", j+1), "this cannula")
			}
		}
	}
}

func (r *reader) twice(path, first, what string) {
	also := r.pos(first)
	r.complain(Complaint{Code: "given-twice", Pos: r.pos(path), Said: what + " is given twice", Allowed: "each once", Also: &also})
}
