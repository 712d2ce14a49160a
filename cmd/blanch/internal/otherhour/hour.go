package otherhour

import (
	"fmt"
	"slices"

	"blanch/scenarios"
	"blanch/scoring"
	"blanch/sim"
)

// Attempt is a finished attempt: what it began from, and what was said.
type Attempt struct {
	Case   *scenarios.Case
	Place  *sim.Place
	Policy *scenarios.Policy
	Seed   uint64
	Said   []Said   // in the order of time
	Ended  sim.Time // when the case ended or the learner stopped it
}

// Said is one action's sentence at its time.
type Said = scoring.Said

// Hour is an attempt that can be played again otherwise. It is not changed by
// playing and may be shared.
type Hour struct {
	Attempt
	Decisions []Decision
	Before    Played // the hour as it was

	until    sim.Time // an hour played otherwise can go on up to here
	marker   *scoring.Marker
	acts     []act
	rounds   []round
	episodes []episode
	owner    []int // the act that each journal entry tells of; -1
}

// Played is one playing of the hour.
type Played struct {
	Result  *sim.Result
	Sheet   scoring.Sheet
	Skipped []Skipped // what became impossible, in the order of time
	Waited  []Waited  // what had to wait for hands or voice

	// Unanswered counts the acts that were not done because no look found what
	// they answered.
	Unanswered int

	sooner, later shifted // acts that begin at another time than they did

	looked bool   // a look was moved or added
	saw    bool   // and found something
	blind  []look // looks that found something, and now do not, though the line leaks
}

// shifted counts acts that begin at another time, and the most by which one
// does.
type shifted struct {
	n    int
	most sim.Time
}

func (s *shifted) add(by sim.Time) {
	if by > 0 {
		s.n++
		s.most = max(s.most, by)
	}
}

// look is one round of looks.
type look struct {
	at   sim.Time
	line string
}

// Skipped is an act that was possible in the hour as it was and not in the
// other one.
type Skipped struct {
	At   sim.Time
	Said string
	Why  string
}

// Waited is an act that began later than planned, once hands or voice were
// free.
type Waited struct {
	Due, At sim.Time
	Said    string
}

// act is one thing that was said, with what came of it in the hour as it was.
type act struct {
	scoring.Said
	action  sim.Action
	said    string // its canonical sentence
	ends    sim.Time
	refused bool
	saw     sim.Time // when it first found something wrong; Never
	saws    string   // that finding as text
}

// New reads an attempt. The error says what cannot be played.
func New(a Attempt) (*Hour, error) {
	h := &Hour{Attempt: a}
	for _, s := range a.Said {
		action, err := sim.ParseAction(s.Text)
		if err != nil {
			return nil, fmt.Errorf("at %s: %w", s.At.Exact(), err)
		}
		h.acts = append(h.acts, act{Said: s, action: action, said: action.String(), saw: sim.Never})
	}
	var faults []scenarios.Complaint
	if h.marker, faults = scoring.Compile(a.Case, a.Policy); h.marker == nil {
		return nil, fmt.Errorf("the rules cannot be compiled: %s", faults[0].Said)
	}
	r, owner, err := h.straight()
	if err != nil {
		return nil, err
	}
	h.Before = Played{Result: r, Sheet: h.marker.Mark(r)}
	h.findRounds()
	h.findEpisodes()
	h.owner = owner
	h.decide()
	return h, nil
}

// straight plays what was said as it was said, and notes what came of each
// act and which act each journal entry belongs to, -1 for none.
func (h *Hour) straight() (*sim.Result, []int, error) {
	e, err := sim.New(&h.Case.Case, h.Place, h.Seed)
	if err != nil {
		return nil, nil, err
	}
	for i := range h.acts {
		a := &h.acts[i]
		e.Advance(a.At)
		first := e.Do(a.action)
		a.refused = len(first) > 0 && first[0].Kind == sim.Refused
		a.ends = a.At
		if !a.refused {
			a.ends = endOf(e, a.action)
		}
	}
	e.Advance(h.Ended)
	h.until = h.Ended
	if e.Over() { // by itself, as it does when the patient is handed over
		h.until = h.Case.Ends
	}
	r := e.Result()
	owner := make([]int, len(r.Journal))
	for j := range r.Journal {
		owner[j] = h.ownerOf(&r.Journal[j])
		if i := owner[j]; i >= 0 && wrong(&r.Journal[j]) && h.acts[i].saw == sim.Never {
			h.acts[i].saw, h.acts[i].saws = r.Journal[j].At, r.Journal[j].Text()
		}
	}
	return r, owner, nil
}

// endOf is when an act that just began will end, as far as it holds anyone.
func endOf(e *sim.Engine, a sim.Action) sim.Time {
	spec, _ := sim.ActionNamed(a.Name)
	switch {
	case spec.Holds == sim.Instant:
		return e.Now()
	case a.By == "" && spec.Holds == sim.Hands:
		return e.HandsFree()
	}
	return e.FreeFor(a)
}

// ownerOf finds the act that an entry tells of.
func (h *Hour) ownerOf(en *sim.Entry) int {
	for i := range slices.Backward(h.acts) {
		a := &h.acts[i]
		if a.At > en.At || a.action.Name != en.Act || a.action.By != en.Who {
			continue
		}
		switch en.Kind {
		case sim.Started, sim.Refused:
			if a.At == en.At && a.said == en.Said {
				return i
			}
		case sim.Done, sim.NotDone, sim.LeftOff:
			if a.said == en.Said {
				return i
			}
		case sim.Found, sim.Replied:
			if a.ends == en.At && !a.refused {
				return i
			}
		}
	}
	return -1
}

// wrong says that an entry is a finding of something wrong at a site.
func wrong(en *sim.Entry) bool {
	return en.Kind == sim.Found && sim.Abnormal(en.What, en.Word, en.Value)
}
