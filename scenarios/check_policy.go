package scenarios

import (
	"fmt"
	"strings"

	"blanch/sim/drug"
)

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
	}{{"highest concentration", p.limits}, {"highest dose", p.doses}, {"call for central access/dose over", p.over}} {
		for _, d := range list.drugs {
			r.perBase(list.key+"/"+d.drug, d)
		}
	}
	for _, d := range p.others {
		path := "other antidotes/" + d.drug
		reversed(path+"/least", path+"/most", "the most is less than the least", d.least > d.most)
	}
	onceEach(r, "sites", "this site", p.Sites)
	onceEach(r, "gauges", "this gauge", p.Gauges)
	onceEach(r, "second checks", "this moment", p.SecondChecks)
	onceEach(r, "antidote for", "this sign", p.AntidoteFor)
	for i, w := range limitRows {
		_, given := r.where[w.Key]
		if because := "because/" + w.Key; given && p.because[i] == "" && !r.broken[because] {
			r.at(w.Key, Warning, "limit-without-source", fmt.Sprintf("nothing says where %s comes from", quoted(w.Key)), fmt.Sprintf("because, and under it %s: and the source", w.Key))
		}
	}
}

// perBase checks that a limit is for a drug that is known, in the unit that
// the drug is kept in.
func (r *reader) perBase(path string, limit perDrug) {
	if !r.sound(path) || !r.known(path, "drug", limit.drug, drug.Names()) {
		return
	}
	d, _ := drug.Named(limit.drug)
	if (d.Base == "units") != limit.units {
		r.at(path, Error, "wrong-unit", fmt.Sprintf("%s is not measured in this", limit.drug), "an amount in "+d.Base)
	}
}

// onceEach complains about what stands twice in a list.
func onceEach[T comparable](r *reader, key, what string, list []T) {
	for i, v := range list {
		for j := range i {
			if path := fmt.Sprintf("%s/%d", key, i+1); v == list[j] && r.sound(path) {
				r.twice(path, fmt.Sprintf("%s/%d", key, j+1), what)
				break
			}
		}
	}
}
