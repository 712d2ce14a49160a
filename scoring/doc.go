// Package scoring judges a run by rules that an educator wrote, and says what
// each mark rests on.
//
// A rule is an expression over a closed set of facts, the one table behind
// [Facts]. Facts are what was shown, done and chosen; the true state of the
// body is out of their reach. Every rule and every {hole} in a text is
// checked before play, so that a slip of the pen is a complaint to the
// author and never a learner's lost mark:
//
//	m, complaints := scoring.Compile(c, policy)
//	result, faults, err := scoring.Play(c, place, seed, steps)
//	sheet := m.Mark(result)
//	fmt.Print(sheet.Text(result))
//
// Values have the kinds of the trade: moments, spans, shares, doses,
// concentrations, pressures, masses, volumes and counts. Only like compares
// with like. A moment that never came is later than every other; a span that
// would end or begin with it is never over, so it fails every <= and every
// <. An amount that is not known fails every comparison.
//
// Marking is total and quick: no loops, no text handling, no maps, and at
// most a few hundred nodes in an expression. The expression library is
// confined to this package.
package scoring
