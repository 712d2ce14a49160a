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
	LongestRun    sim.Time // longest peripheral run
	DecideBy      sim.Time // decide on central access by this long after the start
	CheckEarly    sim.Time // longest gap between checks in the first EarlyFor
	EarlyFor      sim.Time
	CheckLater    sim.Time
	Sites         []vein.Site
	Gauges        []int
	LeastMM       float64            // shortest cannula
	LeastShare    float64            // of the cannula in the vein, 0 to 1
	MostMcgML     map[string]float64 // highest peripheral concentration by drug
	MostMcgMin    map[string]float64 // highest peripheral dose by drug
	SecondChecks  []string           // moments that want a second person: "bag", "pump"
	BackupBy      sim.Time           // a second working line by this long after the start
	StartBy       sim.Time           // drug in the blood by this long after the order
	AntidoteMG    [2]float64         // least and most accepted
	AntidoteML    [2]float64         // dilution volume accepted, least and most
	AntidoteBy    sim.Time           // after recognition
	RateStepMLH   float64            // rounding of pump rates
	Tolerance     float64            // of a sum, as a share of the key, besides half a device step
	WithdrawFirst bool               // take the drug's volume out of the bag before adding

	Because map[string]string // for a limit's key, where its value comes from

	Source []byte
	File   string
}
