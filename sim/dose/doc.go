// Package dose is the arithmetic by which infusions run: mixes, rates, doses and
// run-out. Every function is pure; names and comments carry the units.
//
// Functions say mcg for the drug. Those of drugs measured in units (units,
// units/mL, units/min) are the same sums with units in place of mcg.
//
// Nothing is rounded here: round once, at the end, with quantity.Round on the
// step of the pump. A divisor of 0 (a stopped pump, an empty bag) gives +Inf,
// which reads as "never".
package dose
