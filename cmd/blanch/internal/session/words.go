package session

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"blanch/sim"
	"blanch/sim/quantity"
)

// word is something to type that is not an action of the case.
type word struct {
	name  string
	takes string // what may follow, empty for nothing
	says  string
	does  func(s *Session, rest string) []Line
	moves bool // it is about the clock, and does not hold it
}

var words []word

func init() {
	words = []word{
		{"what", "[word]", "what can be done now, by step of the job; what 3 or what look shows a part", (*Session).what, false},
		{"now", "", "how things stand: pressure, infusions, lines, people, calls, sums", (*Session).now, false},
		{"stock", "", "what the unit has: cannulae, bags, vials, pumps, people", (*Session).stock, false},
		{"policy", "", "the limits of the policy you are marked under", (*Session).policy, false},
		{"order", "", "the order again, once it has been read", (*Session).order, false},
		{"journal", "", "everything that has happened so far", (*Session).sofar, false},
		{"wait", "10 min | until 0:45", "let time pass; what cannot be left for later holds the clock, and wait alone goes on", (*Session).wait, true},
		{"run", "", "let time pass until anything happens", (*Session).watch, true},
		{"hold", "", "hold the clock; Enter alone does the same", func(s *Session, _ string) []Line { return s.Hold() }, true},
		{"actions", "[word]", "every action there is: how long it takes, who can do it", func(_ *Session, rest string) []Line { return Actions(rest) }, false},
		{"help", "[word]", "this list, or what it says about a word", func(_ *Session, rest string) []Line { return Help(rest) }, false},
	}
}

// aside are the words that the face or Handle itself understands.
var aside = []word{
	{name: "stop here", says: "end the case now and go to the marks"},
	{name: "quit", says: "leave; the attempt is saved and can be resumed"},
}

func wordNamed(name string) (word, bool) {
	for _, w := range words {
		if w.name == name {
			return w, true
		}
	}
	return word{}, false
}

// sentence is the word with what follows it.
func (w word) sentence() string {
	if w.takes == "" {
		return w.name
	}
	return w.name + " " + w.takes
}

// wait lets a stretch of time pass.
func (s *Session) wait(rest string) []Line {
	to, err := until(s.e.Now(), rest)
	if rest == "" && s.waited > s.e.Now() {
		to, err = s.waited, nil // go on with a wait that was held
	}
	switch {
	case err != nil:
		return []Line{fault("%s", err)}
	case to <= s.e.Now():
		return []Line{fault("%s is past: it is %s", to.Exact(), s.e.Now().Exact())}
	}
	s.run(goal{to: to, kind: waiting})
	return nil
}

// until reads "10 min", or "until 0:45".
func until(now sim.Time, rest string) (sim.Time, error) {
	for _, lead := range []string{"until ", "to "} {
		if clock, ok := strings.CutPrefix(rest, lead); ok {
			return clockTime(strings.TrimSpace(clock))
		}
	}
	if rest == "" {
		return 0, errors.New("wait how long? For a span such as 10 min, or until a time such as 0:45")
	}
	q, err := quantity.Parse(rest)
	wrong := fmt.Errorf("%q is not a time to wait: write a span such as 10 min, or a time of the case such as until 0:45", rest)
	if err != nil || q.Unit.IsZero() {
		return 0, wrong
	}
	sec, err := q.In(quantity.MustUnit("s"))
	if err != nil || sec <= 0 || sec > 100*3600 {
		return 0, wrong
	}
	return now + sim.FromSeconds(sec), nil
}

// clockTime reads "0:45" or "0:45:30".
func clockTime(s string) (sim.Time, error) {
	parts := strings.Split(s, ":")
	var total sim.Time
	for i, part := range parts {
		n, err := strconv.Atoi(part)
		if err != nil || n < 0 || n > 99 || (i > 0 && n > 59) || len(parts) < 2 || len(parts) > 3 {
			return 0, fmt.Errorf("%q is not a time of the case: write hours and minutes, such as 0:45", s)
		}
		total += sim.Time(n) * [...]sim.Time{sim.Hour, sim.Minute, sim.Second}[i]
	}
	return total, nil
}

// watch lets time pass until anything happens.
func (s *Session) watch(string) []Line {
	s.run(goal{to: s.a.Case.Ends, kind: watching})
	return nil
}

// order shows the order again.
func (s *Session) order(string) []Line {
	var lines []Line
	for _, en := range s.entries {
		switch {
		case en.Kind == sim.Started && en.Act == "read-order":
			lines = nil // what was read before is no longer the order
		case en.Kind == sim.Found && en.What == "order":
			lines = append(lines, told("%s", oneLine(en.Word)))
		case en.Kind == sim.Replied && en.Act == "query-order":
			lines = append(lines, happened(en))
		}
	}
	if len(lines) == 0 {
		lines = []Line{told("You have not read it yet: read the order.")}
	}
	return lines
}

// sofar is the journal without what is hidden.
func (s *Session) sofar(string) []Line {
	var lines []Line
	for _, en := range s.entries {
		if en.Kind != sim.Hidden {
			lines = append(lines, happened(en))
		}
	}
	return lines
}

// stock is what the unit has.
func (s *Session) stock(string) []Line {
	p := s.a.Place
	lines := []Line{heading(p.Name)}
	list := func(name string, items []string) {
		if len(items) > 0 {
			lines = append(lines, told("%s: %s.", name, strings.Join(items, "; ")))
		}
	}
	var cannulae, bags, vials, premixed, pumps, people []string
	for _, c := range p.Cannulae {
		cannulae = append(cannulae, fmt.Sprintf("%d gauge %s mm", c.Gauge, quantity.Number(c.LengthMM)))
	}
	for _, ml := range p.BagsML {
		bags = append(bags, quantity.Number(ml)+" mL")
	}
	for _, v := range p.Vials {
		unit := "mg"
		if base, _ := measuredIn(v.Drug); base == "units" {
			unit = base
		}
		vials = append(vials, fmt.Sprintf("%d of %s %s %s in %s mL", v.Number, v.Drug, quantity.Number(v.MG), unit, quantity.Number(v.ML)))
	}
	for _, b := range p.Premixed {
		unit := "mg"
		if base, _ := measuredIn(b.Drug); base == "units" {
			unit = base
		}
		premixed = append(premixed, fmt.Sprintf("%d of %s %s %s in %s mL", b.Number, b.Drug, quantity.Number(b.MG), unit, quantity.Number(b.ML)))
	}
	for _, pump := range p.Pumps {
		library := ""
		if len(pump.Library) > 0 {
			library = ", with a drug library"
		}
		pumps = append(pumps, fmt.Sprintf("%s (steps of %s mL/h%s)", pump.ID, quantity.Number(pump.StepMLH), library))
	}
	for _, person := range p.People {
		people = append(people, fmt.Sprintf("%s (%s)", person.ID, person.Role))
	}
	list("Cannulae", cannulae)
	list("Bags", bags)
	list("Vials", vials)
	list("Premixed bags", premixed)
	list("Pumps", pumps)
	list("People", people)
	ultrasound := "There is no ultrasound."
	if p.Ultrasound {
		ultrasound = "There is an ultrasound machine."
	}
	if p.Pharmacy {
		lines = append(lines, told("A pharmacist makes up the bags."))
	}
	return append(lines,
		told("Tubing holds %s mL, an extension %s mL.", quantity.Number(p.TubingML), quantity.Number(p.ExtensML)),
		told("The extravasation kit is kept at %s. %s", p.KitAt, ultrasound))
}
