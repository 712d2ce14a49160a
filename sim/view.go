package sim

// View is what the learner may see now. It is a copy.
type View struct {
	Now       Time
	Over      bool
	Patient   string
	Order     Order
	Shown     []Shown // pressures as shown, oldest first
	Infusions []InfusionView
	Lines     []LineView
	Bags      []BagRecord
	Hands     string // what the hands are doing, empty when free
	HandsTo   Time
	Voice     string
	VoiceTo   Time
	InHand    string // the cannula chosen and not yet placed
	People    []PersonView
	Calls     []CallView
	Sums      []SumView
	Central   string // what is known of central access
}

// InfusionView is a pump as it stands.
type InfusionView struct {
	Pump    string
	Bag     string
	Drug    string
	Conc    float64 // nominal, mcg/mL; 0 while the bag has no label or its sum is open
	Line    string
	MLH     float64
	McgMin  float64 // 0 while the concentration is not known, or its sum is open
	Running bool
	LeftML  float64
	EmptyIn Time // Never unless it runs, and while its sum is open
}

// LineView is a line as the learner knows it.
type LineView struct {
	Name     string
	About    string
	Pump     string
	In       bool
	Covered  bool
	LastLook Time // Never when it was not looked at
	LastFeel Time
}

// PersonView is someone who can be reached.
type PersonView struct {
	ID    string
	Role  Role
	Here  bool
	Comes Time // Never unless on the way
	Busy  string
}

// CallView is something that wants the learner now.
type CallView struct {
	ID, Text string
	Since    Time
	Until    Time
}

// SumView is a sum that was asked and not answered.
type SumView struct{ ID, Text, Unit string }

// View is the present as the learner may see it.
func (e *Engine) View() View {
	v := View{
		Now: e.now, Over: e.over, Patient: e.c.Patient.Name, Order: e.order(),
		Shown: clone(e.shown), HandsTo: e.now, VoiceTo: e.now,
	}
	for _, p := range e.pumps {
		in := InfusionView{Pump: p.ID, MLH: p.rate, Running: p.running, EmptyIn: Never}
		if p.site != nil {
			in.Line = p.site.Subject
		}
		if p.bag != nil {
			in.Bag, in.Drug, in.Conc = p.bag.ID, p.bag.Drug, e.known(p.bag).Nominal
			if !e.withholds(SumDose, p.bag.Drug) {
				in.McgMin = float64(p.rate*in.Conc) / 60
			}
			in.LeftML = e.leftAt(p, e.now.Seconds())
			if p.delivers() && !e.withholds(SumRunOut, p.bag.Drug) {
				in.EmptyIn = FromSeconds(in.LeftML / (p.rate / 3600))
			}
		}
		v.Infusions = append(v.Infusions, in)
	}
	for _, s := range e.sites {
		if e.lastSite(s.Subject) != s {
			continue
		}
		l := LineView{Name: s.Subject, About: e.describe(s), In: s.inPlace(), Covered: s.covered, LastLook: s.lastLook, LastFeel: s.lastFeel}
		if s.pump != nil {
			l.Pump = s.pump.ID
		}
		v.Lines = append(v.Lines, l)
	}
	for _, b := range e.bags {
		v.Bags = append(v.Bags, e.known(b))
	}
	if e.hands != nil {
		v.Hands, v.HandsTo = e.hands.act.String(), e.hands.ends
	}
	if e.voice != nil {
		v.Voice, v.VoiceTo = e.voice.act.String(), e.voice.ends
	}
	if ch := e.chosen; ch != nil {
		v.InHand = describeChoice(ch, e.veins[ch.vein].ID)
	}
	for _, p := range e.people {
		pv := PersonView{ID: p.ID, Role: p.Role, Here: p.here, Comes: p.comes}
		if p.busy != nil {
			pv.Busy = p.busy.act.String()
		}
		v.People = append(v.People, pv)
	}
	for _, o := range e.calls {
		if !o.closed {
			c := e.c.Calls[o.call]
			v.Calls = append(v.Calls, CallView{c.ID, c.Text, o.at, o.at + c.Patience})
		}
	}
	for _, s := range e.sums {
		if s.At == Never {
			v.Sums = append(v.Sums, SumView{s.ID, e.question(s.ID).Text, e.question(s.ID).Point})
		}
	}
	switch {
	case e.central.granted == Never:
		v.Central = ""
	case !e.central.started:
		v.Central = "asked for, no one has come yet"
	case !e.central.done:
		v.Central = "being placed"
	default:
		v.Central = "in place"
	}
	return v
}

// known is a bag as the learner knows it: never the true concentration, and
// the nominal one only from its label, once they have worked it out.
func (e *Engine) known(b *bagState) BagRecord {
	r := b.BagRecord
	r.True = 0
	if r.LabelledAt == Never || (!isAntidote(r.Drug) && e.asks(SumConcentration)) {
		r.Nominal = 0
	}
	return r
}

// asks says that a sum of this sort was asked and not answered yet.
func (e *Engine) asks(s Sum) bool {
	for _, a := range e.sums {
		if a.Sum == s && a.At == Never {
			return true
		}
	}
	return false
}

// withholds says that the case asks for a sum of this sort about a drug, and
// that it has not been answered: what was running when the case opened would
// show the answer before it is asked.
func (e *Engine) withholds(s Sum, drug string) bool {
	for _, q := range e.c.Ask {
		if q.What != s || q.Drug != "" && q.Drug != drug {
			continue
		}
		if a := e.sumAsked(q.ID); a == nil || a.At == Never {
			return true
		}
	}
	return false
}

func (e *Engine) question(id string) Question {
	for _, q := range e.c.Ask {
		if q.ID == id {
			return q
		}
	}
	return Question{}
}

// Truth is what is so at this moment and nobody at the bed can read: for
// debriefs and for comparing the engine with others.
type Truth struct {
	MeanMmHg   float64
	Perfusion  float64 // of the worst depot, share of normal; 1 without one
	WidthMM    float64 // of the widest swelling
	IschaemicS float64 // so far, as last booked: at the latest a minute ago
}

// Truth reads it; it changes nothing.
func (e *Engine) Truth() Truth {
	t := Truth{MeanMmHg: e.meanAt(e.now.Seconds()), Perfusion: 1, IschaemicS: e.out.IschaemicS}
	for _, s := range e.sites {
		if s.depot == nil {
			continue
		}
		d := e.depotAt(s, e.now.Seconds())
		t.Perfusion = min(t.Perfusion, d.Perfusion())
		t.WidthMM = max(t.WidthMM, d.WidthMM())
	}
	return t
}
