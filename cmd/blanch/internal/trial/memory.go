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

	order    sim.Order
	cuff     sim.Side
	here     []bool // by person
	calls    []string
	sums     []sum
	lines    []line
	badArms  map[sim.Side]bool
	measured []measure // by vein
	hand     string    // vein that the cannula in hand is for

	// The infusion.
	mixMG, mixML float64 // to be made up
	mixFlawed    bool    // the order asks for what the policy forbids
	bag          string
	bags         int
	syringes     int
	conc         float64 // as labelled
	hung         bool
	primed       bool
	set          float64 // mL/h
	on           int     // index of the line it is connected to, -1
	running      bool
	began        sim.Time // first start
	toldRate     float64  // the learner's own answer to what rate, 0 before
	outside      bool     // a second person, or the pump, said stop
	capped       float64  // a rate that the pump refused
	lowBag       bool
	emptyBag     bool
	blocked      int      // alarms
	renewing     bool     // the next bag is being made ready
	lastSet      sim.Time // the last change of the rate

	// The pressure.
	shown, before float64 // the last two readings
	shownAt       sim.Time
	heldOnce      bool // it has been at the target
	sagged        sim.Time
	lookedOver    sim.Time
	found         string // what looking the patient over showed
	foundLast     string
	remedies      int // tried for it, a bit each

	// The leak.
	leaking  int // index of the line, -1
	suspects bool
	treated  sim.Time // the antidote; Never

	// Central access.
	granted, ready bool
	retired        int // the arm line that the infusion left for it, -1
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
	tip     string
	since   sim.Time // it has carried the drug
	felt    sim.Time
	looked  sim.Time
}

type measure struct {
	scanned, examined bool
	width, deep, long float64
	failed            int
}

type sum struct{ id, unit string }

func (m *memory) open(p *papers) {
	here, calls, sums, lines, measured, bad := m.here, m.calls, m.sums, m.lines, m.measured, m.badArms
	if bad == nil {
		bad = map[sim.Side]bool{}
	}
	clear(bad)
	*m = memory{
		order: p.order, cuff: p.cuff, here: here[:0], calls: calls[:0], sums: sums[:0], lines: lines[:0],
		measured: measured[:0], badArms: bad, on: -1, leaking: -1, retired: -1, began: sim.Never, treated: sim.Never, lookedOver: -sim.Hour,
	}
	m.mixMG, m.mixML, m.mixFlawed = p.mixMG, p.mixML, p.mixFlawed
	for range p.people {
		m.here = append(m.here, false)
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
		m.news = true
		switch en.What {
		case "bag nearly empty":
			m.lowBag = true
		case "bag empty":
			m.emptyBag, m.running = true, false
		case "line blocked":
			m.blocked++
			m.running = false
		}
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
		if en.Act == "check-pump" || en.Act == "check-bag" {
			m.outside = m.outside || strings.HasPrefix(en.Word, "stop")
		}
	case sim.Happened:
		m.news = true
		if i := m.line(en.Subject); i >= 0 && en.What == "pain" {
			m.lines[i].felt, m.suspects = -sim.Hour, true
		}
	case sim.Event:
		if en.What == "central line" {
			m.ready, m.news = true, true
			m.lines = append(m.lines, line{id: "central", central: true, in: true, proved: true, share: 1, since: sim.Never, felt: en.At, looked: en.At})
		}
	case sim.Done:
		l.seeDone(en)
	}
}

func (l *learner) seeDone(en *sim.Entry) {
	m := &l.memory
	i := m.line(en.Subject)
	switch en.Act {
	case "insert":
		v := l.vein(en.Subject)
		if en.Word == "failed" {
			if v >= 0 {
				m.measured[v].failed++
			}
		} else if v >= 0 {
			m.news = true
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
		m.found = en.Word
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
	case sim.SignOf(en.What) != "" && sim.Abnormal(en.What, en.Word, en.Value):
		k.signs = true
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
