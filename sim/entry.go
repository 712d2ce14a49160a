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
	Reading                  // the monitor or the cuff showed a pressure
	Alarm                    // a machine called
	Asked                    // a sum is wanted
	Answered                 // a sum was given; Word is the raw text
	Rang                     // something wants the learner
	Lapsed                   // it was not answered in time
	Came                     // a person arrived
	Replied                  // what a person said to a call or a check
	Happened                 // planned by the case, or said by the patient
	Event                    // something about a line, pump or bag that can be seen
	Hidden                   // true but not shown until the debrief
)

// Entry is one line of the journal. Entries hold names and numbers; Text
// renders them, so an engine that nobody reads spends nothing on prose.
type Entry struct {
	At      Time
	Kind    Kind
	Who     string  // who acted; empty is the learner
	Act     string  // name in the action table, for Started, Done, Refused, LeftOff, Found, Replied
	Said    string  // the action's canonical sentence, for Started and Refused
	Subject string  // vein of the line, pump, bag, person, call or question concerned
	What    string  // finding, reading, alarm or event; see Findings and Events
	Word    string  // the finding in words, the reply, or the raw answer
	Value   float64 // the finding or reading as a number, where it has one
	Unit    string  // unit of Value
	Why     string  // the reason of a refusal

	Own bool // a finding that is this patient's own: it was there before any leak

	Sys, Dia, Rate float64 // of a Reading, beside its mean
}
