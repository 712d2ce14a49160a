// Package review decides when a question of the quiz comes again, what has been
// mastered, and what is to be studied next. It is pure: it reads no clock and no
// file, and a question is known to it only by a name, a unit of study, a level
// and whether it is critical.
//
//	model := review.Default()
//	card := review.Card{Question: q}
//	card = model.Review(card, review.Answer{Question: q, At: at, Right: true, Try: 1})
//	card.Due                                // when it comes again
//	review.Stand(bank, cards, model, now)   // how far each unit is
//	review.Next(bank, cards, model, limits, now)
//
// The scheduler is FSRS-6 as open-spaced-repetition publishes it, with its
// default parameters. They were fitted to other people learning other things,
// and nothing is fitted to this learner. Spaced review has helped in some trials
// of teaching clinicians and not in others: trials in urology of 2007 and 2010
// found gains (PMID 17382760, 20800189), one with paediatric residents of 2014
// and one in internal medicine of 2017 found none overall (PMC4054725,
// PMC5536283). So this is a way to order practice, and no promise that it lasts.
// What it says of a learner is no licence to practise: that is for local
// protocol and for the people who grant it.
package review
