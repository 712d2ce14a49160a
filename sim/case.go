package sim

import (
	"blanch/sim/quantity"
	"blanch/sim/vein"
)

// Case is what the engine must know of one patient and one course. It holds
// no limit of conduct: those belong to a policy, which never reaches sim.
// A Case is not changed once an Engine has been made from it.
type Case struct {
	ID      string
	Patient Patient
	Order   Order
	Mended  *Mended     // what becomes of the order when the prescriber is asked; nil when it stands
	Also    []Order     // other drugs ordered beside it; Order alone has a pressure to keep
	Running []Running   // infusions that run when the case opens
	Veins   []VeinOffer // in the order the case lists them
	InPlace []InPlace   // cannulae that lie there when the case opens
	CuffArm Side        // where the pressure cuff sits when the case opens
	Leak    Fate
	Wear    vein.Ends   // base hazards per hour of the other ways in which lines end; Leak is not read
	Calls   []CallOn    // calls on the learner, by time
	Planned []Happening // what happens whatever the learner does, by time
	Ask     []Question
	Strains []Strain // by time
	Away    []Absence
	Relief  Time // nobody takes over before this
	Ends    Time // the shift ends here
}

// Patient is the body in the bed.
type Patient struct {
	Name      string
	AgeY      float64
	Sex       string // "female" or "male"
	WeightKG  float64
	IdealKG   float64 // 0 when the case does not say; the engine reckons by WeightKG
	StatedKG  float64 // 0 when the case does not say
	SAPS2     float64 // illness severity score, on which the clearance of some drugs depends
	Untreated []Point // mean pressure over time without a vasopressor, linear between points
	HeartRate int     // untreated, beats/min
	PulseMmHg float64 // untreated pulse pressure
	Tells     bool    // can say that it hurts
	SaysAfter Time    // once told what to report, says so this long after it began to hurt; 0 never
	Skin      string  // "light", "brown" or "dark": colour is harder to see on darker skin
	Difficult bool    // known difficult vascular access
	Restless  bool    // moves about and pulls at lines
	Story     string  // what the notes say, shown by "read the notes"
	Arms      map[Side]string
}

// Point is one knot of a course over time.
type Point struct {
	At   Time
	MmHg float64
}

// Side is an arm.
type Side string

// The two arms.
const (
	Left  Side = "left"
	Right Side = "right"
)

// Other is the opposite arm.
func (s Side) Other() Side {
	if s == Left {
		return Right
	}
	return Left
}

// Order is what has been prescribed.
type Order struct {
	Text       string // as the learner reads it
	Drug       string // a name of package drug
	Start      quantity.Quantity
	Least      quantity.Quantity
	Most       quantity.Quantity
	TargetMmHg float64 // keep the mean pressure at or above this
	CeilMmHg   float64 // and at or below this
}

// Mended is what becomes of an order that the prescriber did not mean as
// written. Drug and pressures stay.
type Mended struct {
	Says string // the prescriber's answer
	Order
}

// Running is an infusion that others have started long enough before the case
// opens for the drug to have settled in the blood.
type Running struct {
	Pump   string
	Drug   string
	Amount quantity.Quantity // in the bag when it was mixed
	BagML  float64           // labelled volume; the drug was added to it
	LeftML float64
	Line   string // a vein with a line in place
	MLH    float64
}

// VeinOffer is a vein the learner may use.
type VeinOffer struct {
	ID   string // "left-cephalic-forearm"
	Side Side
	Look string // what examining it by eye and hand shows
	vein.Vein
	Kind string // of vein.Kinds; its size is then drawn, and Vein is what it came to be

	// AsFound is what looks at this place show although nothing leaks, by what
	// they look for: "colour": "blue, an old bruise".
	AsFound map[string]string
}

// InPlace is a cannula that someone else has placed before the case opens.
type InPlace struct {
	Vein     string
	Cannula  vein.Cannula
	AngleDeg float64
}

// Strain is something besides the vasopressor that moves the pressure.
type Strain struct {
	ID    string
	At    Time
	Over  Time    // from nothing to the whole of it
	MmHg  float64 // negative lowers the mean pressure
	By    string  // name of the action that treats it
	Eases Time    // from treated to gone
	Told  string  // what is told when it begins; empty when nothing is
	Found string  // what looking the patient over shows of it
}

// Absence is someone of the place who cannot be reached at first.
type Absence struct {
	Person string
	Until  Time
	Heard  string // what is heard until then
}

// Fate says what becomes of the peripheral lines.
type Fate struct {
	Kind     FateKind
	PerHour  float64 // ByHazard: the base hazard of the setting
	Setting  string  // ByHazard: of vein.Settings, where PerHour and Wear come from it; the engine does not read it
	Drug     string  // Placed: only a line that carries this drug leaks; empty for whichever carries a vasopressor
	Vein     string  // Placed: only a line in this vein leaks; empty for wherever it runs
	Begins   Time    // Placed: this long after a vasopressor, or Drug, first ran
	Over     Time    // Placed: from nothing to the final share lost
	Fraction float64 // Placed: the final share of the flow lost to tissue
}

// FateKind is how a case decides on leaks.
type FateKind uint8

// The fates a case can give its lines. The zero value is invalid.
const (
	ByHazard FateKind = iota + 1 // accumulated hazard meets keyed luck
	Placed                       // whichever peripheral line carries the vasopressor, or Fate.Drug, then
	NoLeak                       // an arm that never leaks
)

// CallOn is something that wants the learner.
type CallOn struct {
	ID       string // "bed-4"
	Text     string // what is heard
	At       Time
	Patience Time // how long it waits
	Takes    Time // how long answering holds the hands
	Answered string
	Lapsed   string // the cost of not answering
	Declined string
}

// Happening is something planned by the case.
type Happening struct {
	At   Time
	Text string
	Does Effect
	Line string // vein whose site it touches; empty for every site
}

// Effect is what a happening does beyond being told.
type Effect uint8

// The effects a case can plan.
const (
	Tells  Effect = iota + 1 // only told
	Covers                   // the site slips out of sight
)

// Question is a sum the learner is asked for; the engine computes the key.
type Question struct {
	ID    string
	Text  string
	When  string // name of the action that raises it when it is first done
	What  Sum
	Point string // unit the answer is wanted in
	Drug  string // asked only of this drug; empty for the bag made last, or the first pump that is connected
}

// Sum is a question the engine can answer from its own state.
type Sum uint8

// The sums a case may ask for. The zero value is invalid.
const (
	SumConcentration Sum = iota + 1 // of the bag made last
	SumRate                         // for the order's start dose with that bag
	SumRunOut                       // time until the bag on the connected pump is empty, at its rate
	SumAntidote                     // volume of the syringe drawn up last that holds half of its dose
	SumFirstDrug                    // time from start until drug has passed the line's own dead volume
	SumDose                         // dose per minute that the connected pump gives at its rate
)
