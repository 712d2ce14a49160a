// Package store keeps attempts on disk. An attempt is one recording: what went
// into the engine, appended as it happened, from which the attempt can be
// resumed or replayed to the byte.
//
// A recording is a text file of one JSON object a line:
//
//	{"crc32c":"1c291ca3","line":{"n":0,"head":{"format":1,...}}}
//	{"crc32c":"8a9136aa","line":{"n":1,"do":{"at":61500,"said":"..."}}}
//
// The checksum covers the bytes of the value of "line", and n counts the lines
// from 0, so a line that is changed, lost or moved is noticed. The first line
// is the [Head]; each later one is a [Line].
//
//	path, err := folder.NewPath("first-shift")
//	rec, err := store.Create(path, head)
//	err = rec.Append(store.Line{Do: &store.Do{At: 61500, Said: said}})
//	...
//	rec, log, err := store.OpenAppend(path) // resume: log.Reached, log.Draft
//
// When Append has returned without an error the line is on the disk. A process
// or machine that stops in the middle of an append leaves bytes after the last
// line end: a reader drops them and the next append removes them. Any other
// damage is an error that names the line; nothing is repaired by guessing.
//
// A [Ledger] is the same framing for a file that outlives attempts and to which
// several processes append by turns.
//
// Lists of attempts read only the end of each recording, since its head carries
// whole files; [Attempt.ReadHead] reads that of one.
//
// A recording open for appending is locked, so that a second process cannot
// write to it. Reading needs no lock. Files and folders are private to the
// user. A [Recording] is for one goroutine.
package store
