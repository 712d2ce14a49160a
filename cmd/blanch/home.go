package main

import (
	"errors"
	"fmt"
	"slices"

	"blanch/cmd/blanch/internal/session"
	"blanch/cmd/blanch/internal/store"
	"blanch/sim"
)

// mostOffered is how many unfinished attempts are offered at home.
const mostOffered = 3

// home shows what there is to play and plays what is chosen.
func (p *program) home(f faces) error {
	if p.screened(f) {
		return p.screenHome(f)
	}
	face, err := p.open(f.plain)
	if err != nil {
		return err
	}
	defer face.Close()
	unfinished, fault := unfinishedAttempts()
	p.note(fault)
	choice, err := face.Home(session.Shelf(), unfinished)
	switch {
	case err != nil:
		return err
	case choice.Resume != "":
		return p.resume(face, choice.Resume, defaultSpeed)
	}
	return p.begin(face, choice.Case, playing{faces: f, speed: defaultSpeed})
}

// unfinishedAttempts are those that wait to be resumed, and those that are open
// elsewhere. The error tells of what cannot be read, which is left alone.
func unfinishedAttempts() ([]session.Recorded, error) {
	home, err := store.Home()
	if err != nil {
		return nil, nil // playing says so
	}
	open, fault := home.NotEnded()
	out, more := listed(open)
	return out, errors.Join(fault, more)
}

// finishedAttempts are the last attempts that were played to their end. What
// cannot be listed at all is for unfinishedAttempts to tell.
func finishedAttempts() ([]session.Recorded, error) {
	home, err := store.Home()
	if err != nil {
		return nil, nil
	}
	all, _ := home.Attempts()
	return listed(slices.DeleteFunc(all, func(a store.Attempt) bool { return !a.Ended }))
}

// listed are as many attempts as are offered, as they stand in a list.
func listed(from []store.Attempt) (out []session.Recorded, fault error) {
	for _, a := range from {
		if len(out) == mostOffered {
			break
		}
		one, err := waiting(a)
		if err != nil {
			fault = errors.Join(fault, err)
			continue
		}
		out = append(out, one)
	}
	return out, fault
}

// waiting is an attempt as it stands in a list.
func waiting(a store.Attempt) (session.Recorded, error) {
	head, err := a.ReadHead()
	if err != nil {
		return session.Recorded{}, err
	}
	title := head.CaseFile
	if c, _ := sourceOf(head).LoadCase(); c != nil {
		title = c.Title
	}
	return session.Recorded{
		Path: a.Path, Title: session.Harmless(title), Reached: sim.Time(a.Reached).Clock(), Played: a.Modified.Format("2006-01-02 15:04"), InUse: a.InUse,
	}, nil
}

// note tells of what cannot be read and is left alone.
func (p *program) note(fault error) {
	if fault != nil {
		fmt.Fprintf(p.err, "note: %s\n", session.Harmless(fault.Error()))
	}
}
