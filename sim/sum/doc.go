// Package sum is the sums of the job: what is given, the exact key, the steps
// that lead there, and the wrong ways that people are known to take.
//
// A [Kind] is one kind of sum, such as the pump rate for a dose. Its working
// is one small program over what is given. The program is run once as it is,
// which gives the key and the [Step]s. Each place in it where people slip
// offers a [Slip]; the program is then run again for each of them, with that
// one slip made and nothing else changed. So no table holds a wrong number:
// every wrong answer comes from the numbers of the sum itself, and says at
// which step it left the path.
//
//	k, _ := sum.Named("rate")
//	s, err := k.New(map[string]quantity.Quantity{
//		"dose":   quantity.Of(0.1, "mcg/kg/min"),
//		"weight": quantity.Of(70, "kg"),
//		"amount": quantity.Of(4, "mg"),
//		"volume": quantity.Of(250, "mL"),
//	}, quantity.Unit{})
//	m := s.Mark("1575 mL/h")
//	m.Verdict              // Wrong
//	m.Diagnosis.Sentence() // Your number is 60 times too large: you have multiplied by 60 twice, in step 4 (dose in an hour).
//
// Nothing is rounded before the end. The answer is then rounded half up, once,
// to what the device takes: the step of a pump, the graduation of a syringe.
// An answer is right when it sets the device as the key does. Body weights in
// pounds pass by either published convention, 2.2 or 2.20462 lb to the kg. A
// wrong way that nothing tells from the key, or from another wrong way, with
// the numbers of one sum, is reported by [Sum.Overlaps], so that whoever draws
// the numbers can draw others.
//
// An answer is read by [Read]: what is plain is taken in value, unsafe
// notation is told with its rule, and what could be read in two ways is
// refused. Nothing this package prints is unsafe notation.
package sum
