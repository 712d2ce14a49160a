package sim

import (
	"blanch/sim/circulation"
	"blanch/sim/line"
	"blanch/sim/tissue"
	"blanch/sim/vein"
)

// site is one cannula that was placed, peripheral or central, with the
// tissue around it. It stays after the cannula is pulled: the arm remains.
type site struct {
	LineRecord
	record  int         // index in Engine.records
	column  line.Column // extension and cannula, from hub to tip
	pump    *pumpState  // what is connected to the hub
	held    int         // acts that pause the flow (a test, a flush)
	flush   float64     // mL/s of saline being pushed through by hand
	covered bool
	cuffed  bool // squeezed by the cuff at this moment
	marked  bool

	// Leaking.
	carried  bool // has carried a vasopressor
	nth      int  // it was the n-th cannula to do so
	wear     [nEnds]wear
	leaking  bool
	leakAt   float64 // s
	leakOver float64 // s
	leakTo   float64 // final share lost

	// Looked up; see flows.
	flow         flow
	moves, known bool

	depot    *depot
	kinked   bool    // what blocks it is a kink
	nitrate  bool    // ointment lies on the skin here
	burned   bool    // by a hot pack
	lastFlow float64 // s, when fluid last entered the tissue
	lastLook Time
	lastFeel Time
}

// An end is a way in which a line's use ends.
type end uint8

const (
	endLeak end = iota
	endOcclusion
	endPhlebitis
	endDislodging
	nEnds
)

// wear is how near a line is to one of its ends.
type wear struct {
	limit  float64 // hazard at which it comes, drawn when it first carries
	hazard float64 // accumulated while it ran
	rate   float64 // per second of running, as things stand
	came   Time    // Never
	draws  int
}

// blocked says that nothing can be pushed through.
func (s *site) blocked() bool { return s.wear[endOcclusion].came != Never }

// inflamed says that the vein is.
func (s *site) inflamed() bool { return s.wear[endPhlebitis].came != Never }

// slipped says that the cannula came out by itself.
func (s *site) slipped() bool { return s.wear[endDislodging].came != Never }

// depot is a tissue state with its place in time.
type depot struct {
	tissue.State
	began  float64 // s
	origin float64 // s; its grid is counted from here, the last change of what feeds it
	fed    stream
	seen   signSet

	ahead  tissue.State // at aheadT, the next change of the physics
	aheadT float64      // s; 0 when ahead is stale
}

// slot is where a drug is kept in the depot, -1 when it holds none of it.
func (d *depot) slot(drug int) int {
	if d != nil {
		for i := range d.Drugs {
			if d.Of[i].ID == drug {
				return i
			}
		}
	}
	return -1
}

// signSet is which signs could have been found so far, by their place in
// tissue.Signs.
type signSet uint16

func (s signSet) has(i int) bool { return s&(1<<i) != 0 }
func (s *signSet) add(i int)     { *s |= 1 << i }

func (s *site) inPlace() bool { return s.Placed != Never && s.Removed == Never }

// lost is the share of the flow that goes to tissue at t, and its slope.
func (s *site) lost(t float64) (share, slope float64) {
	switch {
	case !s.leaking || t < s.leakAt:
		return 0, 0
	case s.leakOver <= 0 || t >= s.leakAt+s.leakOver:
		return s.leakTo, 0
	}
	return float64((t - s.leakAt) / s.leakOver * s.leakTo), s.leakTo / s.leakOver
}

// running is an action under way.
type running struct {
	act     Action
	said    string // act, written out
	spec    *Spec
	who     *personState // nil for the learner
	began   Time
	ends    Time
	turn    Time // when Spec.turn is due; Never
	site    *site
	pump    *pumpState
	bag     *bagState
	with    *personState
	resumes bool // the pump ran when its tubing came off
	crossed bool // someone else did something meanwhile
}

// personState is someone who can be reached.
type personState struct {
	Person
	away  Absence
	here  bool
	comes Time // when on the way; Never
	busy  *running
}

// world is all that changes. Copying it copies the future.
type world struct {
	now     Time
	at      float64 // s; physics is committed up to here
	changed bool    // since what flows was last settled
	blood   [maxAgents]circulation.State
	led     ledger
	out     Outcome
	journal []Entry

	sites   []*site
	records []LineRecord
	pumps   []*pumpState
	bags    []*bagState
	runs    []Run
	people  []*personState

	hands, voice *running
	queue        []*running // everything under way, in the order it began

	// Memory for later; see emptied.
	depots []*depot
	acts   []*running        // under way no more
	said   map[string]spoken // the last of each action

	chosen   *choice
	tries    map[string]int
	scanned  map[string]bool
	kit      bool
	told     bool
	arms     [2]arm
	cuff     Side
	squeezes bool // the cuff is inflated
	carriers int  // cannulae that have carried a vasopressor
	placed   bool // a placed leak has begun
	firstRun float64
	running  bool // what a placed leak waits for has run

	shown     []Shown
	low, high limit // of the monitor
	pounded   bool  // has said that the head is pounding
	rung      int   // calls that have rung
	calls     []openCall
	happened  int
	sums      []AnswerRecord
	requests  []RequestRecord
	sights    []Sighting
	says      []saying
	strained  int    // strains that have begun
	treated   []Time // when each was first treated; Never
	central   centralState
	mended    bool // the prescriber has put the order right
	over      bool
}

// arm is what is being done to an arm.
type arm struct {
	raised   bool
	warm     bool
	hot      bool
	hotSince Time
	heated   bool // the hot pack has lain as long as a burn takes, and what it did is known
	tied     bool // a tourniquet is on
}

// arm is the state of the arm on that side.
func (w *world) arm(s Side) *arm {
	if s == Left {
		return &w.arms[0]
	}
	return &w.arms[1]
}

// choice is the vein and cannula the learner has in hand.
type choice struct {
	vein    int
	cannula vein.Cannula
	angle   float64
}

// Shown is one pressure as the monitor showed it.
type Shown struct {
	At   Time
	MmHg float64 // mean
	Sys  float64
	Dia  float64
	Rate float64 // beats/min
}

type openCall struct {
	call   int // index in Case.Calls
	at     Time
	closed bool
}

type saying struct {
	at   Time
	site string
	said bool
}

type centralState struct {
	granted Time
	skin    Time
	ready   Time
	started bool
	done    bool
}
