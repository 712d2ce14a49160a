package trial

import (
	"strings"

	"blanch/sim"
	"blanch/sim/vein"
)

// memory is what a learner has seen and done so far.
type memory struct {
	news    bool // something happened that may want an answer
	refusal string

	*infusion // the one in hand
	infusions []infusion

	cuff     sim.Side
	here     []bool // by person
	busy     []bool // by person: does what was asked of them
	calls    []string
	sums     []sum
	lines    []line
	badArms  map[sim.Side]bool
	measured []measure // by vein
	hand     string    // vein that the cannula in hand is for

	// The order.
	asked    bool // a doctor has answered whether it stands
	changed  bool // and has changed it
	askAgain sim.Time

	// Stock that was used up.
	syringes int
	used     map[string]float64 // of vials, by drug
	premixes map[string]int     // of premixed bags, by what they hold

	// The pressure and the patient.
	shown, before float64 // the last two readings
	shownAt       sim.Time
	heldOnce      bool // it has been at the target
	sagged        sim.Time
	pumpRead      sim.Time
	lookedOver    sim.Time
	findings      []finding // of the patient: what was tried for each
	lookNow       bool      // look the patient over again, whether it helped
	eased         sim.Time  // the patient was last treated
	reasons       int       // treated
	worried       sim.Time  // something was heard about an arm

	// Central access.
	granted, ready bool
	tries          int // punctures that failed
	reply          string
}

type line struct {
	id      string
	side    sim.Side
	site    vein.Site
	cannula vein.Cannula
	share   float64 // as shown; 0 when not known
	central bool
	in      bool
	proved  bool
	spoilt  bool // leaks, blocked, inflamed or out: not to be used again
	signs   bool // of a leak, shown by a look
	doubt   bool // a sign that may be the patient's own
	recheck sim.Time
	noted   []noted // what looks at it last showed
	tip     string
	carried string   // the vasopressor that it carried last
	since   sim.Time // it has carried the drug
	felt    sim.Time
	looked  sim.Time
	whole   sim.Time // a whole look was over
}

type measure struct {
	scanned, examined bool
	width, deep, long float64
	failed            int
}

type sum struct{ id, unit string }

func (m *memory) open(p *papers) {
	old := *m
	if old.badArms == nil {
		old.badArms, old.used, old.premixes = map[sim.Side]bool{}, map[string]float64{}, map[string]int{}
	}
	clear(old.badArms)
	clear(old.used)
	clear(old.premixes)
	*m = memory{
		cuff: p.cuff, here: old.here[:0], busy: old.busy[:0], calls: old.calls[:0], sums: old.sums[:0], lines: old.lines[:0],
		infusions: old.infusions[:0], measured: old.measured[:0], findings: old.findings[:0],
		badArms: old.badArms, used: old.used, premixes: old.premixes,
		lookedOver: -sim.Hour, pumpRead: -sim.Hour, eased: -sim.Hour, worried: -2 * sim.Hour,
	}
	m.setOut(p)
	for range p.people {
		m.here, m.busy = append(m.here, false), append(m.busy, false)
	}
	for range p.veins {
		m.measured = append(m.measured, measure{})
	}
	for _, l := range p.inPlace {
		v := p.offered(l.Vein)
		m.lines = append(m.lines, line{id: l.Vein, side: v.side, site: v.site, cannula: l.Cannula, in: true, since: sim.Never, felt: -sim.Hour, looked: -sim.Hour})
	}
}

// see takes in one entry that was shown.
func (l *learner) see(en *sim.Entry) {
	m := &l.memory
	switch en.Kind {
	case sim.Found:
		l.seeFinding(en)
	case sim.Reading:
		m.before, m.shown, m.shownAt, m.news = m.shown, en.Value, en.At, true
	case sim.Alarm:
		l.seeAlarm(en)
	case sim.Asked:
		m.sums = append(m.sums, sum{en.Subject, en.Unit})
		m.news = true
	case sim.Rang:
		m.calls = append(m.calls, en.Subject)
		m.news = true
	case sim.Lapsed:
		m.closeCall(en.Subject)
	case sim.Came:
		if i := l.p.person(en.Subject); i >= 0 {
			m.here[i] = true
		}
		m.news = true
	case sim.Replied:
		m.reply = en.Word
		if (en.Act == "check-pump" || en.Act == "check-bag") && strings.HasPrefix(en.Word, "stop") {
			m.outside = true
		}
	case sim.Happened:
		m.news = true
		if i := m.line(en.Subject); i >= 0 && en.What == "pain" {
			m.lines[i].felt, m.worried = -sim.Hour, en.At
		}
		if en.What == "" && ofTheArm(en.Word) {
			m.worried = en.At
		}
	case sim.Event:
		if en.What == "central line" {
			m.ready, m.news = true, true
			m.lines = append(m.lines, line{id: "central", central: true, in: true, proved: true, share: 1, since: sim.Never, felt: en.At, looked: en.At})
		}
	case sim.Started, sim.LeftOff, sim.NotDone:
		if i := l.p.person(en.Who); i >= 0 {
			m.busy[i] = en.Kind == sim.Started
		}
	case sim.Done:
		l.seeDone(en)
	}
}

func (l *learner) seeAlarm(en *sim.Entry) {
	l.news = true
	f := l.onPump(en.Subject)
	if f == nil {
		return
	}
	switch {
	case en.What == "bag nearly empty":
		f.lowBag = true
	case en.What == "bag empty":
		f.emptyBag, f.running = true, false
	case en.What == "line blocked":
		f.blocked++
		f.running = false
	case strings.Contains(en.What, "soft limit") && l.will("heed-pump", ""):
		f.outside = true // worked out anew
	}
}

func (l *learner) seeDone(en *sim.Entry) {
	m := &l.memory
	if i := l.p.person(en.Who); i >= 0 {
		m.busy[i], m.news = false, true
	}
	i := m.line(en.Subject)
	switch en.Act {
	case "insert":
		v := l.vein(en.Subject)
		if en.Word == "failed" {
			m.tries++
			if v >= 0 {
				m.measured[v].failed++
			}
		} else if v >= 0 {
			m.news = true
		}
	case "mix", "premixed":
		for i := range m.infusions {
			if f := &m.infusions[i]; f.making {
				f.making, f.bag, f.hung = false, en.Subject, false
				break
			}
		}
	case "feel":
		if i >= 0 {
			m.lines[i].felt, m.lines[i].looked = en.At, en.At
		}
	case "glance", "uncover", "compare", "ask-pain", "refill", "view-tip":
		if i >= 0 {
			m.lines[i].looked = en.At
		}
	case "flush":
		if i >= 0 {
			m.lines[i].proved = true
		}
	case "pull":
		if i >= 0 {
			m.lines[i].in, m.lines[i].spoilt = false, true
		}
	case "read-pump":
		m.pumpRead = en.At
	}
}

func (l *learner) seeFinding(en *sim.Entry) {
	m := &l.memory
	if en.Act == "scan" || en.Act == "examine" {
		if v := l.vein(en.Subject); v >= 0 {
			k := &m.measured[v]
			k.examined = true
			switch en.What {
			case "diameter":
				k.scanned, k.width = true, en.Value
			case "depth":
				k.deep = en.Value
			case "straight length":
				k.long = en.Value
			}
		}
		return
	}
	switch en.What {
	case "left arm":
		m.badArms[sim.Left] = warns(en.Word)
	case "right arm":
		m.badArms[sim.Right] = warns(en.Word)
	case "patient":
		l.seePatient(en.Word)
	}
	i := m.line(en.Subject)
	if i < 0 {
		return
	}
	k := &m.lines[i]
	switch {
	case en.What == "share in vein":
		k.share = en.Value / 100
	case en.What == "along the vein" && k.since < sim.Never:
		k.tip = "inflamed"
	case en.What == "cannula" && en.Word != "":
		k.tip = "out"
	case en.What == "resistance":
		k.tip = "blocked"
	case sim.SignOf(en.What) != "":
		l.weigh(k, en)
	case en.What == "pulse beyond" || en.What == "fingers" || en.What == "stretching the fingers":
		k.note(en)
	}
}

// line is the last line of that name, -1 for none.
func (m *memory) line(id string) int {
	for i := len(m.lines) - 1; i >= 0 && id != ""; i-- {
		if m.lines[i].id == id {
			return i
		}
	}
	return -1
}

func (m *memory) closeCall(id string) {
	for i, c := range m.calls {
		if c == id {
			m.calls = append(m.calls[:i], m.calls[i+1:]...)
			return
		}
	}
}

// vein is the number of a vein on offer, -1 for none.
func (l *learner) vein(id string) int {
	for i := range l.p.veins {
		if l.p.veins[i].id == id {
			return i
		}
	}
	return -1
}

// warned are words that keep an arm from being used, unless they are denied.
var warned = []string{"fistula", "shunt", "lymph", "mastectomy", "axilla", "numb", "paraly", "weak", "stroke", "clot", "thromb", "swollen", "burn", "infect", "fractur", "plaster"}

// warns reads what is said of an arm: "a fistula" warns, "no fistula" does
// not.
func warns(said string) bool {
	for clause := range strings.FieldsFuncSeq(strings.ToLower(said), func(r rune) bool { return strings.ContainsRune(".,;:", r) }) {
		clause = " " + strings.TrimSpace(clause) + " "
		if strings.Contains(clause, " no ") || strings.Contains(clause, " not ") || strings.Contains(clause, " without ") {
			continue
		}
		for _, w := range warned {
			if strings.Contains(clause, " "+w) {
				return true
			}
		}
	}
	return false
}
