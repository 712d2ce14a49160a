package session

import (
	"fmt"
	"strings"

	"blanch/sim"
	"blanch/sim/sentence"
)

// Session is an attempt under way.
type Session struct {
	a   *Attempt
	e   *sim.Engine
	rec Recorder

	clock
	entries  []sim.Entry // everything so far
	stopped  bool        // by the learner, before the case ended
	asking   bool        // "stop here" waits to be confirmed
	draft    string      // as last recorded
	reflects []string    // answers, by question
	sheet    string
	unsaved  error    // why nothing more is being recorded
	saved    sim.Time // the attempt is recorded up to here
	told     bool     // the learner knows of unsaved
}

// New begins an attempt. Speed is simulated seconds a real second; 0 makes
// every action and wait jump to its end. Nothing is kept before Record.
func New(a *Attempt, speed float64) (*Session, error) {
	e, err := sim.New(&a.Case.Case, a.Place, a.Seed)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", a.Source.CaseFile, err)
	}
	s := &Session{a: a, e: e, rec: forgetful{}, clock: clock{speed: speed}}
	s.reflects = make([]string, len(a.Case.Reflect))
	s.entries = e.Result().Journal
	return s, nil
}

// Record keeps from here on what goes into the attempt.
func (s *Session) Record(rec Recorder) { s.rec, s.saved = rec, s.e.Now() }

// Over says that the attempt has ended: the case has, or the learner stopped.
func (s *Session) Over() bool { return s.stopped || s.e.Over() }

// Handle takes one line that was typed: an action's sentence, or one of the
// words listed by "help". It returns what to show at once; when the clock then
// runs, Pass brings the rest.
func (s *Session) Handle(typed string) []Line {
	line := sentence.Tidy(typed)
	kept := s.draft
	lines := s.handle(line)
	if kept != "" && s.draft == kept {
		s.Draft("")
	}
	return append(lines, s.trouble()...)
}

func (s *Session) handle(line string) []Line {
	if s.Over() {
		return []Line{fault("the case has ended; what was done stands")}
	}
	if s.asking {
		return s.confirm(line)
	}
	if line == "" {
		return s.enter()
	}
	word, rest, _ := strings.Cut(line, " ")
	if w, ok := wordNamed(strings.ToLower(word)); ok && (rest == "" || w.takes != "") {
		if w.moves {
			return w.does(s, rest)
		}
		return append(s.Hold(), w.does(s, rest)...) // time never runs under what is read
	}
	if strings.EqualFold(line, stopSaid) {
		s.Hold()
		s.asking = true
		return []Line{told("Stop the case at %s and go to the marks? Nothing can be done in it afterwards. Type yes, or anything else to go on.", s.e.Now().Exact())}
	}
	a, err := sim.ParseAction(line)
	if err != nil {
		return append(s.Hold(), fault("%s", err), told("Tab completes a sentence; \"what\" lists what can be done now."))
	}
	var notes []Line
	if s.e.Possible(a) == "" {
		for _, text := range s.taken(line, a) {
			notes = append(notes, told("%s", text))
		}
	}
	return append(s.act(a), notes...)
}

// enter is an empty line: it holds a running clock, and lets an action that
// was held go on.
func (s *Session) enter() []Line {
	switch {
	case s.running:
		return s.Hold()
	case s.busyTo() > s.e.Now():
		s.run(goal{to: s.busyTo()})
	}
	return nil
}

// act begins an action and lets the clock run to its end.
func (s *Session) act(a sim.Action) []Line {
	s.save(s.rec.Do(int64(s.e.Now()), a.String()), s.e.Now())
	s.draft = ""
	s.marked = s.e.Now()
	s.quicken()
	s.acted = len(s.entries)
	entries := s.e.Do(a)
	lines := s.show(entries)
	if len(entries) == 0 || entries[0].Kind == sim.Refused || s.e.Over() {
		return lines
	}
	if a.By != "" {
		lines = append(lines, told(HandsStay))
		if s.letPass() {
			lines = append(lines, s.Hold()...)
		}
		return lines
	}
	return s.follow(a.String(), lines)
}

// letPass says that the clock runs for a wait, which an act ends.
func (s *Session) letPass() bool {
	return s.running && (s.goal.kind == waiting || s.goal.kind == watching)
}

// follow lets the clock run after an action of the learner's own has begun.
func (s *Session) follow(said string, lines []Line) []Line {
	v := s.e.View()
	switch said {
	case v.Hands:
		lines[0].Text += " (until " + v.HandsTo.Exact() + ")"
		s.run(goal{to: s.busyTo()})
	case v.Voice:
		lines[0].Text += " (until " + v.VoiceTo.Exact() + ")"
		switch {
		case !s.running || s.letPass():
			s.run(goal{to: s.busyTo()})
		case s.goal.kind == acting:
			s.goal.to = max(s.goal.to, v.VoiceTo)
		}
	default: // done at once, and what came of it says so
		if len(lines) > 1 {
			lines = lines[1:]
		}
		if s.letPass() {
			s.goal.kind = acting
		}
		if s.running && s.goal.kind == acting {
			if s.goal.to = s.busyTo(); s.goal.to <= s.e.Now() {
				return append(lines, s.Hold()...)
			}
		}
	}
	return lines
}

// HandsStay is told when someone else was asked to act.
const HandsStay = "Your own hands stay as they are; \"wait\" lets time pass."

// busyTo is when the learner's hands and voice are free.
func (s *Session) busyTo() sim.Time {
	v := s.e.View()
	return max(v.HandsTo, v.VoiceTo)
}

// saidAlready says that an act's findings or answer have told that it is done.
func saidAlready(before []sim.Entry, en sim.Entry) bool {
	if en.Kind != sim.Done || len(before) == 0 {
		return false
	}
	last := before[len(before)-1]
	if last.At != en.At || last.Who != en.Who {
		return false
	}
	answered := (last.Kind == sim.Found || last.Kind == sim.Replied) && last.Act == en.Act
	return answered || last.Kind == sim.Reading && en.Act == "pressure"
}

// show keeps entries and returns those that the learner may see.
func (s *Session) show(entries []sim.Entry) []Line {
	s.entries = append(s.entries, entries...)
	var lines []Line
	for i, en := range entries {
		if en.Kind != sim.Hidden && !saidAlready(entries[:i], en) {
			lines = append(lines, happened(en))
		}
		switch en.Kind {
		case sim.Asked:
			lines = append(lines, told("         To answer: give %s as ...", en.Subject))
		case sim.Rang:
			lines = append(lines, told("         To go: answer %s. To say that you cannot: decline %s.", en.Subject, en.Subject))
		}
	}
	return lines
}

// confirm takes the answer to "stop here".
func (s *Session) confirm(line string) []Line {
	s.asking = false
	if l := strings.ToLower(line); l != "yes" && l != "y" {
		return []Line{told("The case goes on.")}
	}
	s.save(s.rec.Do(int64(s.e.Now()), stopSaid), s.e.Now())
	s.draft = ""
	s.stopped = true
	return []Line{told("You stopped the case at %s.", s.e.Now().Exact())}
}

// Draft keeps text that is being typed.
func (s *Session) Draft(text string) {
	text = strings.ToValidUTF8(text, "")
	if text != s.draft {
		s.draft = text
		s.save(s.rec.Draft(text), s.saved)
	}
}
