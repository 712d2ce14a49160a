package drill

import "blanch/sim/sum"

// Question is one question with its numbers.
type Question struct {
	Drill Drill
	Seed  uint64

	// Stem is paragraphs. The last has the one question, names the unit of the
	// answer and says how to round.
	Stem []string

	Shown Picture  // what there is to see
	Sum   *sum.Sum // the key, its steps and slips, and the marking

	// Either is the coincidences of these numbers. With Key, rounding that sets
	// the device as the key does, and so is no mistake. Otherwise ways of
	// rounding that meet on one number, or two digits swapped in what was given
	// or in the answer; the marking tells them together and asks what would part
	// them. No other slips ever meet.
	Either []sum.Overlap

	// Device is what the answer is set or measured on: "pump", "syringe",
	// "drip chamber"; or "label" for what is written on one. Empty for a number
	// that is only worked out.
	Device string
}
