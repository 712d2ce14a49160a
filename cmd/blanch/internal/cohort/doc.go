// Package cohort runs many simulated patients and counts what becomes of
// them: it compares the engine with published cohorts and says how much the
// answers hang on what is assumed.
//
// A patient is drawn from a [Preset] by (seed, number) alone, so a cohort
// gives the same bytes however many cores share the work:
//
//	p, _ := cohort.PresetNamed("routine")
//	tally := p.Infusions(1, 20000) // patients, leaks, hours of line
//
// Where only the hazard of a line matters, its luck is read directly; a test
// holds that the engine, playing the same patients, says the same. What
// happens to an arm is always the engine's.
package cohort
