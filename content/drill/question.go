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

	// Either is the coincidences of these numbers. With Key, rounding between
	// two steps that sets the device as the key does, and so is no mistake.
	// Otherwise two digits swapped in what was given, or in the answer, where
	// that comes to one number in nearly every draw; the marking tells both and
	// asks what would part them.
	Either []sum.Overlap

	// Device is what the answer is set or measured on: "pump", "syringe",
	// "drip chamber"; or "label" for what is written on one. Empty for a number
	// that is only worked out.
	Device string
}
