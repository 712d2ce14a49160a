package sim

// Kind says what sort of journal entry this is.
type Kind uint8

// Kinds of entry. The zero value is invalid.
const (
	Started  Kind = iota + 1 // an action began
	Done                     // an action took effect
	Refused                  // an action could not begin; Why says why
	LeftOff                  // an action was broken off
	NotDone                  // an action came to its end and could not take effect any more; Why says why
	Found                    // one finding from one act of looking
	Reading                  // the monitor showed a pressure
	Alarm                    // a machine called
	Asked                    // a sum is wanted
	Answered                 // a sum was given; Word is the raw text
	Rang                     // something wants the learner
	Lapsed                   // it was not answered in time
	Came                     // a person arrived
	Replied                  // what a person said to a call or a check
	Happened                 // planned by the case, or said by the patient
	Event                    // a step of central access, or the end of the case
	Hidden                   // true but not shown until the debrief
)

// Entry is one line of the journal. Entries hold names, numbers and what was
// said; Text renders them, so an engine that nobody reads spends little on
// prose.
type Entry struct {
	At      Time
	Kind    Kind
	Who     string  // who acted; empty is the learner
	Act     string  // name in the action table; empty for what nobody did
	Said    string  // the action's canonical sentence, for Started, Done, NotDone, Refused and LeftOff
	Subject string  // vein of the line, pump, bag, person, call or question concerned
	What    string  // which finding, reading, alarm, event or hidden thing; what a check or a call was about
	Word    string  // the finding, the reply, the question, the raw answer, or what else was told
	Value   float64 // the finding, reading, rate or volume as a number, where it has one; 1 for a request that was granted
	Unit    string  // unit of Value, or of the answer that is wanted
	Why     string  // the reason, for Refused and NotDone

	Own bool // a finding that is this patient's own: it was there before any leak

	Sys, Dia, Rate float64 // of a Reading, beside its mean
}
