package main

import (
	"fmt"

	"blanch/cmd/blanch/internal/prompt"
	"blanch/cmd/blanch/internal/session"
	"blanch/cmd/blanch/internal/store"
	"blanch/scenarios"
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

// unfinished are the attempts that wait to be resumed. What cannot be read
// is told and left alone.
func (p *program) unfinished() []prompt.Unfinished {
	home, err := store.Home()
	if err != nil {
		return nil
	}
	open, err := home.Unfinished()
	if err != nil {
		fmt.Fprintf(p.err, "note: %s\n", err)
	}
	var out []prompt.Unfinished
	for _, a := range open[:min(len(open), mostOffered)] {
		title := a.Head.CaseFile
		if c, _ := scenarios.LoadCase(a.Head.CaseFile, []byte(a.Head.Case)); c != nil {
			title = c.Title
		}
		out = append(out, prompt.Unfinished{
			Path: a.Path, Title: title, Reached: sim.Time(a.Reached).Clock(), Played: a.Modified.Format("2006-01-02 15:04"),
		})
	}
	return out
}
