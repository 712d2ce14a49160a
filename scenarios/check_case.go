package scenarios

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"blanch/sim"
	"blanch/sim/drug"
	"blanch/sim/quantity"
)

// checkCase makes the checks that need more than one field. Fields that are
// missing or refused are passed over: they have been complained about.
func (r *reader) checkCase(c *Case) {
	r.checkObjectives(c)
	r.checkCourse(c)
	r.checkOrders(c)
	r.checkLeak(c)
	r.checkOpening(c)
	r.checkVeins(c)
	r.checkStrains(c)
	r.checkCalls(c)
	r.checkAsk(c)
	r.checkRules(c)
	r.checkWalks(c)
	r.checkStatus(c)
}

// checkVeins checks that each vein has its measures, or says what they are
// drawn from.
func (r *reader) checkVeins(c *Case) {
	measures := []string{"site", "diameter", "depth", "straight"}
	for _, v := range c.Veins {
		path := "veins/" + v.ID
		_, drawn := r.where[path+"/drawn as"]
		for _, key := range measures {
			_, given := r.where[path+"/"+key]
			switch {
			case drawn && given:
				r.at(path+"/"+key, Error, "two-ways", fmt.Sprintf("%s is drawn, so its %s cannot be given", quoted(v.ID), key), "drawn as: alone, or site, diameter, depth and straight")
			case !drawn && !given && !r.broken[path+"/"+key]:
				r.at(path, Error, "missing-field", fmt.Sprintf("%s has no %s", quoted(v.ID), quoted(key)), "site, diameter, depth and straight, or drawn as: a kind of vein")
			}
		}
	}
}

// checkStrains checks the order of what else moves the pressure, and that
// what treats it is an action.
func (r *reader) checkStrains(c *Case) {
	var names []string
	for _, s := range sim.Actions() {
		names = append(names, s.Name)
	}
	for i, s := range c.Strains {
		path := "strains/" + s.ID
		if i > 0 && s.At < c.Strains[i-1].At && r.sound(path+"/at", "strains/"+c.Strains[i-1].ID+"/at") {
			r.at(path+"/at", Error, "out-of-order", fmt.Sprintf("%s begins before the strain above it", quoted(s.ID)), "strains in the order of time")
		}
		if s.By != "" && r.sound(path+"/treated by") {
			r.known(path+"/treated by", "action", s.By, names)
		}
	}
}

// vague verbs cannot be seen or counted, so no rule can serve them.
var vague = []string{"understand", "know", "appreciate", "be aware", "learn", "be familiar"}

func (r *reader) checkObjectives(c *Case) {
	served, astray := map[string]bool{}, r.partial
	for _, u := range c.Rules {
		served[u.Serves] = true
		exists := slices.ContainsFunc(c.Objectives, func(o Objective) bool { return o.ID == u.Serves })
		astray = astray || !exists // it may be meant to serve any of them
	}
	var names []string
	for _, o := range c.Objectives {
		names = append(names, o.ID)
		path := "objectives/" + o.ID
		for _, v := range vague {
			if strings.HasPrefix(strings.ToLower(o.Text)+" ", v+" ") {
				r.at(path, Warning, "vague-objective", fmt.Sprintf("the objective %s begins with %s, which nobody can see done", quoted(o.ID), quoted(v)), "a verb that can be seen done, such as choose, find, set, decide, tell")
			}
		}
		if _, given := r.where["rules"]; given && !served[o.ID] && !astray {
			r.at(path, Warning, "objective-without-rule", fmt.Sprintf("no rule serves the objective %s", quoted(o.ID)), "a rule with serves: "+o.ID)
		}
	}
	if len(names) == 0 {
		if _, given := r.where["objectives"]; !given && !r.partial {
			r.at("rules", Error, "missing-field", `the case has no "objectives", and no fragment brings any`, "objectives: {site: Choose a vein and cannula that keep two thirds of the cannula in the vein}")
		}
		return
	}
	for _, u := range c.Rules {
		if path := "rules/" + u.ID + "/serves"; r.sound(path) && !r.partial {
			r.known(path, "objective", u.Serves, names)
		}
	}
}

// known complains unless word is one of names.
func (r *reader) known(path, what, word string, names []string) bool {
	return r.knownAt(r.pos(path), what, word, names)
}

func (r *reader) knownAt(at Pos, what, word string, names []string) bool {
	for _, n := range names {
		if n == word {
			return true
		}
	}
	allowed := "one of: " + strings.Join(names, ", ")
	if len(names) == 0 {
		allowed = "nothing: there is no " + what + " to name"
	}
	r.complain(Complaint{
		Code: "unknown-" + what, Pos: at, Said: fmt.Sprintf("there is no %s %s", what, quoted(word)),
		Allowed: allowed, Meant: Nearest(word, names),
	})
	return false
}

func (r *reader) checkCourse(c *Case) {
	const list = "patient/pressure untreated"
	course := c.Patient.Untreated
	if !r.sound(list) || len(course) == 0 {
		return
	}
	if course[0].At != 0 {
		r.at(list+"/1", Error, "course-start", "the untreated course does not begin at 0 min", "a first point at 0 min")
	}
	for i := 1; i < len(course); i++ {
		if course[i].At <= course[i-1].At {
			r.at(fmt.Sprintf("%s/%d", list, i+1), Error, "out-of-order", "this point is not later than the one before it", "points in the order of time")
			return
		}
	}
	if last := course[len(course)-1]; r.sound("ends at") && last.At < c.Ends {
		r.at(fmt.Sprintf("%s/%d", list, len(course)), Error, "course-too-short",
			fmt.Sprintf("the untreated course ends at %s, before the case does at %s", last.At.Clock(), c.Ends.Clock()), "a last point at or after the end of the case")
	}
}

// checkLeak holds each fate to its own fields.
func (r *reader) checkLeak(c *Case) {
	if r.sound("leak/drug") {
		r.known("leak/drug", "drug", c.Leak.Drug, ordered(c))
	}
	if !r.sound("leak/fate") {
		return
	}
	if r.sound("leak/vein") {
		r.known("leak/vein", "vein", c.Leak.Vein, veinNames(c))
	}
	f := &c.Leak
	instead := "base"
	if _, given := r.where["leak/setting"]; given {
		if _, both := r.where["leak/base"]; both {
			r.at("leak/setting", Error, "field-out-of-place", "the base of the leak is given by base and by setting", "one of them")
			return
		}
		instead = "setting"
	}
	fields := map[sim.FateKind][]string{sim.ByHazard: {instead}, sim.Placed: {"begins", "over", "share lost", "drug", "vein"}}
	words := map[sim.FateKind]string{sim.ByHazard: "by hazard", sim.Placed: "placed", sim.NoLeak: "never"}
	for _, kind := range []sim.FateKind{sim.ByHazard, sim.Placed} {
		for _, key := range fields[kind] {
			_, given := r.where["leak/"+key]
			switch {
			case given && kind != f.Kind:
				r.at("leak/"+key, Error, "field-out-of-place", fmt.Sprintf("%s says nothing when the fate is %q", quoted(key), words[f.Kind]), fmt.Sprintf("%s with fate: %s", key, words[kind]))
			case !given && kind == f.Kind && key != "drug" && key != "vein":
				r.at("leak/fate", Error, "missing-field", fmt.Sprintf("a leak %s has no %s", words[kind], quoted(key)), key+": and its value")
			}
		}
	}
}

func (r *reader) checkCalls(c *Case) {
	var last sim.Time
	for _, call := range c.Calls {
		path := "calls/" + call.ID + "/at"
		if r.sound(path) {
			last = r.timeline(c, path, last, call.At)
		}
	}
	last = 0
	for i, h := range c.Planned {
		path := fmt.Sprintf("happenings/%d", i+1)
		if r.sound(path + "/at") {
			last = r.timeline(c, path+"/at", last, h.At)
		}
		if r.sound(path + "/vein") {
			r.known(path+"/vein", "vein", h.Line, veinNames(c))
		}
	}
}

// timeline checks that times go forward and stay within the case.
func (r *reader) timeline(c *Case, path string, last, at sim.Time) sim.Time {
	switch {
	case at < last:
		r.at(path, Error, "out-of-order", fmt.Sprintf("%s comes before the one above it, at %s", at.Clock(), last.Clock()), "the order of time")
		return last
	case r.sound("ends at") && at >= c.Ends:
		r.at(path, Error, "after-the-end", fmt.Sprintf("%s is not before the end of the case, at %s", at.Clock(), c.Ends.Clock()), "a time within the case")
	}
	return at
}

func (r *reader) checkAsk(c *Case) {
	var names []string
	for _, spec := range sim.Actions() {
		names = append(names, spec.Name)
	}
	for i := range c.Ask {
		q := &c.Ask[i]
		path := "ask/" + q.ID
		if r.sound(path + "/when") {
			r.known(path+"/when", "action", q.When, names)
		}
		if r.sound(path + "/drug") {
			r.known(path+"/drug", "drug", q.Drug, ordered(c))
		}
		if !r.sound(path + "/what") {
			continue
		}
		for _, s := range sums {
			if s.sum != q.What {
				continue
			}
			unit := s.unit
			if d, _ := drug.Named(cmp.Or(q.Drug, c.Order.Drug)); d.Base == "units" {
				unit = strings.Replace(unit, "mcg", "units", 1)
			}
			if _, given := r.where[path+"/unit"]; !given {
				q.Point = unit
			} else if u, err := quantity.ParseUnit(q.Point); r.sound(path+"/unit") && (err != nil || !u.Same(quantity.MustUnit(unit))) {
				r.at(path+"/unit", Error, "wrong-unit", fmt.Sprintf("%s is not a unit of a %s", quoted(q.Point), s.word), "a unit such as "+unit)
			}
		}
	}
}

func (r *reader) checkRules(c *Case) {
	var total float64
	for _, u := range c.Rules {
		total += u.Points
		path := "rules/" + u.ID
		if r.sound(path+"/points") && u.Points == 0 && !u.Critical && !r.broken[path+"/critical"] {
			r.at(path+"/points", Error, "weightless-rule", fmt.Sprintf("the rule %s is worth nothing and is not critical", quoted(u.ID)), "points above 0, or critical: true")
		}
	}
	if r.sound("rules") && total == 0 {
		r.at("rules", Error, "no-points", "no rule is worth any points", "points on at least one rule")
	}
}

func (r *reader) checkStatus(c *Case) {
	switch {
	case c.Status == "draft":
		r.at("status", Note, "draft", "the case is a draft, and learners are told so", "piloted, once learners have played it and it was mended")
	case c.Status == "piloted" && c.ReviewedBy == "" && !r.broken["reviewed by"]:
		r.at("status", Warning, "not-reviewed", "the case is piloted, but nobody is said to have reviewed it", "reviewed by: and a role; reviewed on: and a day")
	}
}

func veinNames(c *Case) []string {
	var names []string
	for _, v := range c.Veins {
		names = append(names, v.ID)
	}
	return names
}
