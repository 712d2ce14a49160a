package sim

import (
	"blanch/sim/quantity"
	"blanch/sim/vein"
)

// Result is a copy of everything that marking and debriefing may read.
// Indices named Entry point into Journal; -1 means none.
type Result struct {
	Case     *Case
	Place    *Place
	Seed     uint64
	Ended    Time
	Journal  []Entry
	Lines    []LineRecord // every cannula placed, in order; failed tries included
	Runs     []Run        // every stretch of a pump at one rate, from one bag, through one line
	Bags     []BagRecord
	Answers  []AnswerRecord
	Requests []RequestRecord
	Sights   []Sighting
	Outcome  Outcome
	Tissue   []TissueDrug // each vasopressor that went into tissue
	Short    bool         // at the end a core was still short of blood, so IschaemicS had not run its course
}

// TissueDrug is what went into tissue of one drug.
type TissueDrug struct {
	Drug   string
	Amount float64 // in the drug's base unit
}

// LineRecord is one cannula, or one try at one.
type LineRecord struct {
	Subject  string // vein, or "central"
	Central  bool
	Side     Side
	Vein     vein.Vein
	Cannula  vein.Cannula
	AngleDeg float64
	Share    float64 // share of the cannula's length in the vein, 0 to 1
	Scan     bool    // placed under ultrasound
	Placed   Time    // in place; Never when the try failed
	Pressor  Time    // a vasopressor first ran through it; Never
	Removed  Time    // Never while in place
	Leaks    Time    // true onset of its leak; Never. Hidden from the learner
	Entry    int
}

// Run is a stretch during which a pump ran one bag at one rate through one line.
type Run struct {
	Pump    string
	Subject string // the line
	Bag     string
	From    Time
	To      Time    // Never while it still runs
	MLH     float64 // as set
	McgMin  float64 // dose that rate gives at the nominal concentration of the bag, in the drug's base unit a minute
	Entry   int     // the last one when it began: the act that began it, or what came of it at once
}

// BagRecord is one bag, or one syringe of antidote.
type BagRecord struct {
	ID         string
	Drug       string
	Nominal    float64 // in the drug's base unit a mL, amount over the labelled volume
	True       float64 // likewise, what the arm sees
	Withdrawn  bool    // the drug's volume was withdrawn first
	LabelledAt Time
	CheckedAt  Time    // a second person checked it; Never
	MixedAt    Time    // made up, drawn up or taken from stock; 0 for what hung there when the case opened
	VolumeML   float64 // that it held at first
	Entry      int
}

// AnswerRecord is one answered sum.
type AnswerRecord struct {
	ID      string
	Sum     Sum
	Bag     string            // whose concentration it asks for; empty for the other sums
	Key     quantity.Quantity // computed by the engine when the sum was asked
	Working string            // how the key comes about, in this run's own numbers
	From    *Inputs           // what it was reckoned from; never changed
	Raw     string
	Given   quantity.Quantity
	Asked   Time
	At      Time // Never when never answered
	Entry   int  // the answer, or the question while there is none
}

// RequestRecord is one call the learner made.
type RequestRecord struct {
	Person  string
	Facts   []string
	Request string
	Granted bool
	Reply   string
	At      Time
	Entry   int
}

// Sighting is the first instant at which a competent look would have found a sign.
type Sighting struct {
	Subject string // line
	Sign    string // one of tissue.Signs; "leak" is the first of any
	At      Time   // located to 0.05 s
}

// Outcome is what became of the body. Endings and texts read it, marks never do.
type Outcome struct {
	UnderS       float64 // seconds of true mean pressure under the target, after drug first reached the blood
	UnderArea    float64 // mmHg x min
	OverS        float64
	OverArea     float64
	FirstDrug    Time    // drug first reached the blood
	DrugFreeS    float64 // seconds after FirstDrug in which no line delivered drug to the blood
	SetMcg       float64 // of the ordered drug, what the pumps gave after FirstDrug
	ReachedMcg   float64 // what of it reached the blood, from lines and out of tissue
	TissueMcg    float64 // of the ordered drug, what went into tissue
	TissueML     float64 // of whatever ran, what went into tissue
	IschaemicS   float64 // seconds that the core of a depot had less than the stated perfusion, added up over depots
	WidestMM     float64 // greatest swelling by what leaked; an antidote's own volume is not counted
	FlushedMcg   float64 // drug pushed on by flushes, into blood, tissue or the bed, of every drug in its base unit
	PeakDoseMcgM float64 // of the ordered drug, the most that any pump was set to while it ran, in its base unit a minute
	Burned       bool    // a hot pack burned skin that was short of blood
}
