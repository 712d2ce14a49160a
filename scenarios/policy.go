package scenarios

import (
	"blanch/sim"
	"blanch/sim/vein"
)

// Policy is a unit's limits and rules of conduct. It judges and words; it
// never reaches the engine. Every limit carries where it comes from.
type Policy struct {
	ID            string
	Title         string
	Note          string // whose policy it is, and what wins over it
	Sources       []string
	LongestRun    sim.Time // longest peripheral run; 0 for no end
	DecideBy      sim.Time // decide on central access by this long after the start
	CheckEarly    sim.Time // longest gap between checks in the first EarlyFor
	EarlyFor      sim.Time
	CheckLater    sim.Time
	Sites         []vein.Site
	Gauges        []int
	LeastMM       float64            // shortest cannula
	LeastShare    float64            // of the cannula in the vein, 0 to 1
	MostMcgML     map[string]float64 // highest peripheral concentration by drug; vasopressin in units
	MostMcgMin    map[string]float64 // highest peripheral dose by drug; vasopressin in units
	SecondChecks  []string           // of [SecondCheckMoments]
	BackupBy      sim.Time           // a second working line by this long after the start
	StartBy       sim.Time           // drug in the blood by this long after the order
	AntidoteMG    [2]float64         // least and most accepted
	AntidoteML    [2]float64         // dilution volume accepted, least and most
	AntidoteBy    sim.Time           // after recognition
	RateStepMLH   float64            // rounding of pump rates
	Tolerance     float64            // of a sum, as a share of the key, besides half a device step
	WithdrawFirst bool               // take the drug's volume out of the bag before adding

	// What a policy may leave unsaid; the zero value says nothing.
	LeastVeinMM    float64               // narrowest vein
	DosingWeight   string                // of [DosingWeights]
	SharedWith     string                // of [SharedLines]
	ChangeBagAfter sim.Time              // after it was made up
	BloodReturn    string                // of [BloodReturns]: while the vasopressor runs
	AntidoteFor    []string              // signs of a leak that call for it; "leak" is any
	OtherAntidotes map[string][2]float64 // least and most in mg, by drug, besides phentolamine
	Scale          string                // that a leak is graded by
	CallFor        CallFor

	Because map[string]string // for a limit's key, where its value comes from

	Source []byte
	File   string
}

// CallFor is what makes a policy want central access asked for before
// DecideBy. What is 0 or empty does not.
type CallFor struct {
	Over         map[string]float64 // a dose through a peripheral line over this, by drug, in mcg/min or units/min
	Vasopressors int                // as many run at once
	Tries        int                // as many punctures have failed
}

// SecondCheckMoments are the moments at which a policy can want a second
// person.
var SecondCheckMoments = []string{"bag", "pump", "set-up", "new-bag", "new-concentration", "changeover", "handover"}

// DosingWeights are the weights that a policy can dose by.
var DosingWeights = []string{"actual", "ideal", "stated"}

// SharedLines is what may go through a line that carries a vasopressor, each
// allowing what stands before it.
var SharedLines = []string{"nothing", "flush", "other-vasopressor"}

// BloodReturns is what a policy can say of testing blood return while a
// vasopressor runs.
var BloodReturns = []string{"never", "allowed", "with every check"}
