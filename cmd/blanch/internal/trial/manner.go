package trial

import "blanch/sim"

// manner is how a kind of learner goes about the job. A step is something
// that a good learner does; a vice is something that nobody should do.
type manner struct {
	care  float64            // chance of taking a step that is not named below
	steps map[string]float64 // chance of taking a step, by its name
	vices map[string]float64 // chance of a vice, by its name; 0 when not named

	thinks  sim.Time // between two acts, on average
	every   float64  // a look at the arm, as a share of the gap the policy allows
	looks   []string // the acts of one look
	goes    float64  // chance of going when called, rather than declining
	slips   float64  // chance of a slip in a sum
	slipsBy []float64
	from    sim.Time // does nothing before this
}

// Kind is a kind of simulated learner.
type Kind struct {
	ID   string // "hurried-novice"
	Says string // what this one does, in plain words

	manner
	plays func(l *learner)
	wrong bool // an expert but for one bad habit
}

// thorough is a look with eye, hand and ear.
var thorough = []string{"uncover", "feel", "ask-pain"}

// wrongBy are the slips of sums that reach patients: sixty-fold when minutes
// and hours are mixed up, tenfold when a point is misplaced.
var wrongBy = []float64{60, 10, 0.1, 1.0 / 60}

func expertly() manner {
	return manner{care: 1, thinks: 4 * sim.Second, every: 0.45, looks: thorough, goes: 0.4}
}

// but changes a manner.
func but(m manner, change func(*manner)) manner {
	change(&m)
	return m
}

// Names of the kinds that the verdict is about.
const (
	Expert       = "expert"
	Hurried      = "hurried-novice"
	Nothing      = "does-nothing"
	Everything   = "treats-everything"
	random       = "at-random"
	hesitatesFor = 35 * sim.Minute
)

// Kinds lists every kind, from the best to the worst.
func Kinds() []Kind {
	return []Kind{
		{ID: Expert, Says: "reads, proves, checks, looks at the arm first, treats what is found",
			manner: expertly()},
		{ID: "steady-nurse", Says: "ordinary skill: now and then forgets a step, slips in one sum of thirty",
			manner: but(expertly(), func(m *manner) {
				m.care, m.thinks, m.every, m.goes = 0.97, 12*sim.Second, 0.75, 0.5
				m.slips, m.slipsBy = 1.0/30, wrongBy
				m.steps = map[string]float64{"mix": 1, "start": 1, "place": 1, "sums": 1, "titrate": 1, "scan": 0.6, "look-first": 0.8, "good-backup": 0.6}
			})},
		{ID: Hurried, Says: "starts fast, skips proving, second checks and most looks at the arm",
			manner: manner{
				care: 0.5, thinks: 2 * sim.Second, every: 1.6, looks: []string{"feel"}, goes: 0.8,
				slips: 0.1, slipsBy: wrongBy,
				steps: map[string]float64{
					"read-order": 0.9, "sums": 0.95, "mix": 1, "start": 1, "place": 1, "prove": 0.3, "second-check": 0.25, "scan": 0.1, "replace-poor": 0.4,
					"baseline": 0, "first-look": 0.3, "tell-apart": 0.3, "say-sound": 0.3, "bag-ahead": 0.2, "heed-pump": 0.5, "second-drug": 0.9,
					"backup": 0.4, "good-backup": 0, "look-first": 0.2, "check": 0.7, "heed": 0.85, "titrate": 0.95, "stop-leak": 0.9,
				},
				vices: map[string]float64{"pull-first": 0.3},
			}},
		{ID: "turns-it-up", wrong: true, Says: "turns the rate up when the pressure sags, before looking at the arm",
			manner: but(expertly(), func(m *manner) {
				m.every = 2.5
				m.steps = map[string]float64{"look-first": 0, "examine-patient": 0}
			})},
		{ID: "trusts-the-monitor", wrong: true, Says: "watches the screen and glances at the arm, never touches it",
			manner: but(expertly(), func(m *manner) {
				m.looks = []string{"glance"}
				m.steps = map[string]float64{"look-first": 0}
			})},
		{ID: "pulls-at-once", wrong: true, Says: "pulls the cannula as soon as a leak is found",
			manner: but(expertly(), func(m *manner) { m.vices = map[string]float64{"pull-first": 1} })},
		{ID: "flushes-the-leak", wrong: true, Says: "flushes the line that leaks, to see whether it still runs",
			manner: but(expertly(), func(m *manner) { m.vices = map[string]float64{"flush-leak": 1} })},
		{ID: "blames-the-arm", wrong: true, Says: "takes every fall of the pressure for a leak, and stops the drug for it",
			manner: but(expertly(), func(m *manner) {
				m.steps = map[string]float64{"look-first": 0, "examine-patient": 0}
				m.vices = map[string]float64{"blame-arm": 1, "arm-before-drug": 1}
			})},
		{ID: "overrides-the-pump", wrong: true, Says: "turns the rate up as far as the pump takes it, past order and policy",
			manner: but(expertly(), func(m *manner) {
				m.steps = map[string]float64{"heed-pump": 0, "examine-patient": 0}
				m.vices = map[string]float64{"past-the-order": 1}
			})},
		{ID: "one-antidote", wrong: true, Says: "gives phentolamine for a leak of whatever drug",
			manner: but(expertly(), func(m *manner) { m.vices = map[string]float64{"phentolamine-always": 1} })},
		{ID: "asks-nobody", wrong: true, Says: "never calls for help and never asks for central access",
			manner: but(expertly(), func(m *manner) {
				m.steps = map[string]float64{"call": 0, "central": 0, "send-for": 0, "query": 0, "second-check": 0, "kit-by-others": 0}
			})},
		{ID: "goes-to-every-call", Says: "answers every call at once, and leaves the bed for it",
			manner: but(expertly(), func(m *manner) {
				m.goes, m.every = 1, 0.9
				m.vices = map[string]float64{"goes-anyway": 1}
			})},
		{ID: "slow-to-start", wrong: true, Says: "does everything right, but only begins after 35 min",
			manner: but(expertly(), func(m *manner) { m.from, m.thinks = hesitatesFor, 25*sim.Second })},
		{ID: "waits-for-central", wrong: true, Says: "will not use an arm vein, and waits for the central line",
			manner: but(expertly(), func(m *manner) { m.vices = map[string]float64{"central-only": 1} })},
		{ID: Everything, Says: "takes every arm for leaking: stops, draws back, gives the antidote",
			manner: but(expertly(), func(m *manner) { m.vices = map[string]float64{"treat-anyway": 1, "arm-before-drug": 1} })},
		{ID: "slips-in-sums", wrong: true, Says: "a tenfold or sixty-fold slip in each sum, and nobody checks",
			manner: but(expertly(), func(m *manner) {
				m.slips, m.slipsBy = 1, wrongBy
				m.steps = map[string]float64{"second-check": 0}
			})},
		{ID: Nothing, Says: "does nothing at all", plays: func(*learner) {}},
		{ID: random, Says: "anything that can be done, and now and then what cannot, at any time", plays: (*learner).playAtRandom},
		{ID: "worst-choice", Says: "the worst choice wherever there is one",
			manner: manner{
				care: 0, thinks: 20 * sim.Second, every: 20, goes: 1, slips: 1, slipsBy: []float64{60, 10},
				steps: map[string]float64{"mix": 1, "start": 1, "place": 1, "titrate": 1, "heed": 1},
				vices: map[string]float64{"pull-first": 1, "flush-leak": 1, "poor-line": 1, "goes-anyway": 1, "keep-high": 1},
			}},
	}
}

// KindNamed is the kind of that name.
func KindNamed(id string) (Kind, bool) {
	for _, k := range Kinds() {
		if k.ID == id {
			return k, true
		}
	}
	return Kind{}, false
}
