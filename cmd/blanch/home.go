package main

import (
	"fmt"

	"blanch/cmd/blanch/internal/prompt"
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
	choice, err := face.Home(session.Shelf(), p.unfinished())
	switch {
	case err != nil:
		return err
	case choice.Resume != "":
		return p.resume(face, choice.Resume, defaultSpeed)
	}
	return p.begin(face, choice.Case, playing{faces: f, speed: defaultSpeed})
}

// unfinished are the attempts that wait to be resumed, and those that are open
// elsewhere. What cannot be read is told and left alone.
func (p *program) unfinished() []prompt.Unfinished {
	home, err := store.Home()
	if err != nil {
		return nil
	}
	open, err := home.NotEnded()
	if err != nil {
		fmt.Fprintf(p.err, "note: %s\n", err)
	}
	var out []prompt.Unfinished
	for _, a := range open[:min(len(open), mostOffered)] {
		out = append(out, waiting(a))
	}
	return out
}

// waiting is an attempt as it stands in a list.
func waiting(a store.Attempt) prompt.Unfinished {
	title := a.Head.CaseFile
	if c, _ := sourceOf(a.Head).LoadCase(); c != nil {
		title = c.Title
	}
	return prompt.Unfinished{
		Path: a.Path, Title: title, Reached: sim.Time(a.Reached).Clock(), Played: a.Modified.Format("2006-01-02 15:04"), InUse: a.InUse,
	}
}

// finished are the last attempts that were played to their end.
func (p *program) finished() []prompt.Unfinished {
	home, err := store.Home()
	if err != nil {
		return nil
	}
	all, _ := home.Attempts() // what cannot be read was told already
	var out []prompt.Unfinished
	for _, a := range all {
		if a.Ended && len(out) < mostOffered {
			out = append(out, waiting(a))
		}
	}
	return out
}
