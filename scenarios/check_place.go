package scenarios

import (
	"fmt"
	"strings"

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

// checkPolicy makes the checks of a policy that need more than one field.
func (r *reader) checkPolicy(p *policyFile) {
	reversed := func(low, high, said string, wrong bool) {
		if r.sound(low, high) && wrong {
			r.at(high, Error, "range-reversed", said, fmt.Sprintf("no less than %s", quoted(low[strings.LastIndexByte(low, '/')+1:])))
		}
	}
	reversed("check early", "check later", "checks become more frequent later on", p.CheckEarly > p.CheckLater)
	reversed("decide by", "longest run", "the decision comes after the longest run", p.DecideBy > p.LongestRun)
	reversed("antidote dose/least", "antidote dose/most", "the most is less than the least", p.dose.least > p.dose.most)
	reversed("antidote volume/least", "antidote volume/most", "the most is less than the least", p.volume.least > p.volume.most)
	for _, list := range []struct {
		key   string
		drugs []perDrug
	}{{"highest concentration", p.limits}, {"highest dose", p.doses}} {
		for _, d := range list.drugs {
			r.known(list.key+"/"+d.drug, "drug", d.drug, drug.Names())
		}
	}
	for i, site := range p.Sites {
		for j := range i {
			if path := fmt.Sprintf("sites/%d", i+1); site == p.Sites[j] && r.sound(path) {
				r.twice(path, fmt.Sprintf("sites/%d", j+1), "this site")
			}
		}
	}
	for i, w := range limitRows {
		_, given := r.where[w.Key]
		if because := "because/" + w.Key; given && p.because[i] == "" && !r.broken[because] {
			r.at(w.Key, Warning, "limit-without-source", fmt.Sprintf("nothing says where %s comes from", quoted(w.Key)), fmt.Sprintf("because, and under it %s: and the source", w.Key))
		}
	}
}
