package scenarios

import (
	"fmt"

	"blanch/sim"
	"blanch/sim/vein"
)

// LoadCase reads a case, and puts in what the fragments that it uses bring;
// [Uses] lists them. Every independent fault of the file is a complaint; the
// case is nil when any of them is an [Error].
func LoadCase(file string, src []byte, at Fragments) (*Case, []Complaint) {
	r := newReader(caseShape.fields())
	for _, w := range limitRows {
		r.owned = append(r.owned, w.Field)
	}
	var f caseFile
	if load(r, "case", file, src, caseShape, &f) {
		r.join(&f.Case, at)
		r.checkCase(&f.Case)
	}
	out, failed := r.done()
	if failed {
		return nil, out
	}
	c := f.Case
	if s, ok := vein.SettingNamed(c.Leak.Setting); ok {
		c.Leak.PerHour = s.Base.Leak
		if c.Wear == (vein.Ends{}) {
			c.Wear = s.Base
			c.Wear.Leak = 0
		}
	}
	c.Minutes = f.minutes.Seconds() / 60
	c.File, c.Source, c.where = file, src, r.where
	return &c, out
}

// LoadPlace reads a place, as [LoadCase] reads a case.
func LoadPlace(file string, src []byte) (*sim.Place, []Complaint) {
	r := newReader(placeShape.fields())
	var f placeFile
	if load(r, "place", file, src, placeShape, &f) {
		f.settle()
		r.checkPlace(&f)
	}
	out, failed := r.done()
	if failed {
		return nil, out
	}
	return &f.Place, out
}

// LoadPolicy reads a policy, as [LoadCase] reads a case.
func LoadPolicy(file string, src []byte) (*Policy, []Complaint) {
	r := newReader(policyShape.fields())
	f := policyFile{because: make([]string, len(limitRows))}
	if load(r, "policy", file, src, policyShape, &f) {
		r.checkPolicy(&f)
	}
	out, failed := r.done()
	if failed {
		return nil, out
	}
	p := f.Policy
	p.AntidoteMG = [2]float64{f.dose.least, f.dose.most}
	p.AntidoteML = [2]float64{f.volume.least, f.volume.most}
	p.MostMcgML, p.MostMcgMin = byDrug(f.limits), byDrug(f.doses)
	if len(f.over) > 0 {
		p.CallFor.Over = byDrug(f.over)
	}
	for _, d := range f.others {
		if d.drug == "" {
			continue
		}
		if p.OtherAntidotes == nil {
			p.OtherAntidotes = map[string][2]float64{}
		}
		p.OtherAntidotes[d.drug] = [2]float64{d.least, d.most}
	}
	p.Because = map[string]string{}
	for i, w := range limitRows {
		if f.because[i] != "" {
			p.Because[w.Key] = f.because[i]
		}
	}
	p.File, p.Source = file, src
	return &p, out
}

func byDrug(list []perDrug) map[string]float64 {
	m := make(map[string]float64, len(list))
	for _, d := range list {
		m[d.drug] = d.value
	}
	return m
}

// load reads a file into a T by its table. It reports false when there was
// nothing that checks across fields could be made on.
func load[T any](r *reader, kind, file string, src []byte, s shape[T], into *T) bool {
	var ok bool
	if r.src, ok = newSource(file, src, r.complain); !ok {
		return false
	}
	if other := Kind(src); other != "" && other != kind {
		r.complain(Complaint{
			Code: "wrong-file", Pos: r.src.pos(1, 1),
			Said: fmt.Sprintf("this file is a %s, not a %s", Called(other), Called(kind)), Allowed: fmt.Sprintf("format: 1, then %s: and its name", kind),
		})
		return false
	}
	before := len(r.complaints)
	root := parse(r.src, func(c Complaint) {
		if c.Code == "syntax" && before > 0 {
			return // the bad characters are what broke it
		}
		r.complain(c)
	})
	if root == nil {
		return false
	}
	if root.kind != mapping {
		return r.unfit("", root, "not-a-group", "format: 1 on the first line, then the fields of a "+Called(kind))
	}
	r.opening(root, kind)
	s.read(r, "", root, into)
	return true
}

// opening checks that a file says first what it is.
func (r *reader) opening(root *node, kind string) {
	for i, key := range []string{"format", kind} {
		for j, k := range root.keys {
			if k.text == key && i != j {
				r.complain(Complaint{
					Code: "opening", Pos: r.src.pos(k.line, k.column),
					Said: fmt.Sprintf("%s stands too far down", quoted(key)), Allowed: fmt.Sprintf("format: 1 on the first line, then %s: and its name", kind),
				})
				return
			}
		}
	}
}
