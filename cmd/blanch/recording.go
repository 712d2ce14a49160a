package main

import (
	"blanch/cmd/blanch/internal/session"
	"blanch/cmd/blanch/internal/store"
	"blanch/sim"
)

// recorder writes what a session keeps to a recording.
type recorder struct{ *store.Recording }

func (r recorder) Do(at int64, said string) error {
	return r.Append(store.Line{Do: &store.Do{At: at, Said: said}})
}

func (r recorder) Reached(at int64) error {
	return r.Append(store.Line{Reached: &store.Reached{At: at}})
}

func (r recorder) Draft(text string) error {
	return r.Append(store.Line{Draft: &store.Draft{Text: text}})
}

func (r recorder) Ended(at int64, journal, sheet string) error {
	return r.Append(store.Line{Ended: &store.Ended{At: at, Journal: journal, Sheet: sheet}})
}

// headOf is the head of a recording of an attempt.
func headOf(a *session.Attempt, mode, started string) store.Head {
	var fragments []store.Fragment
	for _, f := range a.Source.Fragments {
		fragments = append(fragments, store.Fragment{File: f.File, Text: string(f.Src)})
	}
	return store.Head{
		Revision: sim.Revision, Seed: a.Seed, Mode: mode, Started: started,
		CaseFile: a.Source.CaseFile, Case: string(a.Source.Case),
		PlaceFile: a.Source.PlaceFile, Place: string(a.Source.Place),
		PolicyFile: a.Source.PolicyFile, Policy: string(a.Source.Policy),
		Fragments: fragments,
	}
}

// sourceOf is what an attempt began from.
func sourceOf(h store.Head) session.Source {
	s := session.Source{
		CaseFile: h.CaseFile, Case: []byte(h.Case), PlaceFile: h.PlaceFile, Place: []byte(h.Place),
		PolicyFile: h.PolicyFile, Policy: []byte(h.Policy),
	}
	for _, f := range h.Fragments {
		s.Fragments = append(s.Fragments, session.Text{File: f.File, Src: []byte(f.Text)})
	}
	return s
}

// recordOf is a recording as a session reads it.
func recordOf(log store.Log) session.Record {
	h := log.Head
	r := session.Record{
		Revision: h.Revision, Seed: h.Seed, Reached: log.Reached, Draft: log.Draft,
		Source: sourceOf(h),
	}
	for _, l := range log.Lines {
		if l.Do != nil {
			r.Said = append(r.Said, session.Said{At: l.Do.At, Text: l.Do.Said})
		}
	}
	if log.Ended != nil {
		r.Ended = &session.Stored{At: log.Ended.At, Journal: log.Ended.Journal, Sheet: log.Ended.Sheet}
	}
	return r
}
