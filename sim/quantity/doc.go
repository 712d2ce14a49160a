// Package quantity reads, converts and prints amounts with their units.
//
// A [Quantity] is a number and a [Unit]. [Parse] accepts what people type
// ("16mcg/mL", "13.1 ml/hr", "141 lb") and refuses, with the reason, what
// could be read in two ways or not at all. [Quantity.In] converts between
// units of one [Dimension] and is an error between dimensions:
//
//	q, err := quantity.Parse("0.9 mL/min")
//	rate, err := q.In(quantity.MustUnit("mL/h")) // 54
//
// Printing follows safe notation: mcg and units in letters, a leading zero,
// no trailing zero, no exponent, no comma, a space before the unit. Unsafe
// notation is accepted in value when its meaning is plain; [Unsafe] names it
// so that a lesson can be made of it.
//
// Rounding happens once, at the end, with [Round].
//
// # Body weight is not drug mass
//
// Drug mass is g, mg and mcg. Body weight is kg and lb, a dimension of its
// own, so that a dose per kg can never cancel against the drug. A pound is
// 1/2.2 kg, the teaching convention (OpenStax, Pharmacology for Nurses, 2.4
// Dosage Calculations), not the exact 1/2.20462.
package quantity
