package scenarios

import (
	"fmt"
	"strings"

	"blanch/sim"
	"blanch/sim/drug"
	"blanch/sim/quantity"
	"blanch/sim/sentence"
)

// checkWalks checks the names in walk-throughs and what they promise.
func (r *reader) checkWalks(c *Case) {
	var rules []string
	critical := map[string]bool{}
	for _, u := range c.Rules {
		rules = append(rules, u.ID)
		critical[u.ID] = u.Critical
	}
	passing := 0
	for i := range c.Walks {
		w := &c.Walks[i]
		path := "walk-throughs/" + w.ID
		if _, given := r.where[path+"/seed"]; !given {
			w.Seed = 1
		}
		if _, given := r.where[path+"/policy"]; !given {
			w.Policy = c.Policy
		}
		if w.Passes {
			passing++
		}
		for j, lost := range w.Loses {
			item := fmt.Sprintf("%s/loses/%d", path, j+1)
			if !r.sound(item) {
				continue
			}
			if _, given := r.where["rules"]; given && !r.partial && r.known(item, "rule", lost, rules) && critical[lost] && w.Passes {
				r.at(item, Error, "cannot-pass", fmt.Sprintf("the walk-through passes, yet it loses the critical rule %s", quoted(lost)), "passes: false")
			}
		}
		for _, s := range w.Steps {
			r.checkStep(c, s)
		}
		for _, change := range w.But {
			for _, s := range change.Do {
				r.checkStep(c, s)
			}
		}
	}
	r.vary(c.Walks)
	if r.sound("walk-throughs") && passing < 2 {
		r.at("walk-throughs", Warning, "few-walk-throughs", fmt.Sprintf("%d of the walk-throughs pass", passing), "at least two ways to pass that differ in a choice that experts make differently")
	}
}

// checkStep looks up the names in a step that the case itself defines.
func (r *reader) checkStep(c *Case, s Step) {
	if r.sound("ends at") && s.When == AtTime && s.At >= c.Ends {
		r.complain(Complaint{Code: "after-the-end", Pos: s.Pos, Said: fmt.Sprintf("this step is at %s, not before the end of the case at %s", s.At.Clock(), c.Ends.Clock()), Allowed: "a time within the case"})
	}
	if s.Said == "" {
		return
	}
	a, err := sim.ParseAction(s.Said)
	if err != nil {
		return
	}
	for _, arg := range a.Args {
		at := wordIn(s.Said, arg.Word, s.SaidAt)
		switch arg.Kind {
		case "vein", "line":
			if _, given := r.where["veins"]; given && (arg.Kind == "vein" || arg.Word != "central") {
				r.knownAt(at, "vein", arg.Word, veinNames(c))
			}
		case "drug":
			r.knownAt(at, "drug", arg.Word, drug.Names())
		case "call":
			var names []string
			for _, call := range c.Calls {
				names = append(names, call.ID)
			}
			r.knownAt(at, "call", arg.Word, names)
		case "sum":
			var names []string
			for _, q := range c.Ask {
				names = append(names, q.ID)
			}
			r.knownAt(at, "question", arg.Word, names)
		}
	}
}

// CheckPlace looks up what a loaded case names in the place it is played in:
// people, pumps, cannulae, drugs. It complains about the case.
func CheckPlace(c *Case, p *sim.Place) []Complaint {
	r := newReader(nil)
	r.src = &source{file: c.File}
	r.where = c.where
	var people []string
	for _, who := range p.People {
		people = append(people, who.ID)
	}
	for _, a := range c.Away {
		r.known("away/"+a.Person, "person", a.Person, people)
	}
	var pumps, stock []string
	for _, pump := range p.Pumps {
		pumps = append(pumps, pump.ID)
	}
	for _, v := range p.Vials {
		stock = append(stock, v.Drug)
	}
	for i, u := range c.Running {
		path := fmt.Sprintf("running when it opens/%d", i+1)
		r.known(path+"/pump", "pump", u.Pump, pumps)
		r.known(path+"/drug", "drug", u.Drug, stock)
	}
	for _, w := range c.Walks {
		for _, s := range w.Steps {
			if a, err := sim.ParseAction(s.Said); s.Said != "" && err == nil {
				r.checkStock(p, s, a)
			}
		}
	}
	out, _ := r.done()
	return out
}

func (r *reader) checkStock(p *sim.Place, s Step, a sim.Action) {
	var people, pumps, stock []string
	for _, who := range p.People {
		people = append(people, who.ID)
	}
	for _, pump := range p.Pumps {
		pumps = append(pumps, pump.ID)
	}
	for _, v := range p.Vials {
		stock = append(stock, v.Drug)
	}
	for _, m := range p.Premixed {
		stock = append(stock, m.Drug)
	}
	if a.By != "" {
		r.knownAt(wordIn(s.Said, a.By, s.SaidAt), "person", a.By, people)
	}
	var gauge, length *sentence.Arg
	for i := range a.Args {
		arg := &a.Args[i]
		at := wordIn(s.Said, arg.Word, s.SaidAt)
		switch arg.Kind {
		case "person":
			r.knownAt(at, "person", arg.Word, people)
		case "pump":
			r.knownAt(at, "pump", arg.Word, pumps)
		case "drug":
			r.knownAt(at, "drug", arg.Word, stock)
		case "gauge":
			gauge = arg
		case "length":
			length = arg
		}
	}
	if gauge == nil || length == nil {
		return
	}
	var offered []string
	for _, k := range p.Cannulae {
		if float64(k.Gauge) == gauge.Number && quantity.Round(k.LengthMM, 1) == quantity.Round(length.Number, 1) {
			return
		}
		offered = append(offered, fmt.Sprintf("%d gauge %s mm", k.Gauge, quantity.Number(k.LengthMM)))
	}
	r.complain(Complaint{
		Code: "not-in-stock", Pos: wordIn(s.Said, quantity.Number(gauge.Number)+" gauge", s.SaidAt),
		Said:    fmt.Sprintf("%s has no cannula of %s gauge %s mm", p.Name, quantity.Number(gauge.Number), quantity.Number(length.Number)),
		Allowed: "one of: " + strings.Join(offered, ", "),
	})
}
