// Package progress keeps on this machine what a learner has answered in the
// quiz, and says what is due, what comes next and how far each unit is.
//
//	p, err := progress.Open(progress.Path(folder))
//	for _, fault := range p.Faults() { ... }   // lines that could not be read
//	plan := p.Next(now, bank)                  // what to put now
//	card, err := p.Record(answer)              // on the disk when it returns
//	p.Due(now); p.Units(now, bank)
//
// The file holds one line an answer, framed as recordings are (package store):
//
//	{"crc32c":"...","line":{"format":1,"n":0,"review":{"question":"bag-4-in-250",...}}}
//
// What was observed is kept, never what was reckoned from it: memory, due times
// and mastery are worked out anew from the answers whenever the file is opened.
// The question's text and what was typed are not kept.
//
// Each line names its format and its number. A line of a newer format makes the
// whole file one that this program reads no more and does not touch. Any other
// line that cannot be read, is lost or is there twice is told by Faults, and all
// the others count. The answer that was being written when a process died is
// dropped if it is not whole, and the next one takes its place. Several
// processes can record at once: each answer waits its turn, and Record takes in
// the answers of the others.
//
// Times are those of the wall clock, in UTC; package review says what follows
// from a clock that is set. Answers count in the order in which they were
// recorded, whatever their times are.
package progress
