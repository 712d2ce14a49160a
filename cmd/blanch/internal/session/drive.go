package session

import (
	"fmt"
	"strings"

	"blanch/sim"
	"blanch/sim/quantity"
)

// What a screen needs to drive the clock: it runs by itself once it was
// started, at a speed that may change, and what cannot be left for later
// slows it then. A wait is held by the same as everywhere.

// Slows makes what cannot be left for later slow a clock that was started to
// one simulated second a real second.
func (s *Session) Slows() { s.slows = true }

// Start lets the clock run until it is held. One that jumps runs to whatever
// happens next.
func (s *Session) Start() {
	if s.Over() {
		return
	}
	if s.Jumps() {
		s.run(goal{to: s.a.Case.Ends, kind: watching})
		return
	}
	s.roams = true
	s.quicken()
	if !s.running {
		if s.busyTo() > s.e.Now() {
			s.run(goal{to: s.busyTo()})
		} else {
			s.roam()
		}
	}
}

func (s *Session) roam() { s.run(goal{to: s.a.Case.Ends, kind: roaming}) }

// Stand holds the clock and records how far it came. An action that was under
// way goes on with Start or GoOn.
func (s *Session) Stand() {
	s.running, s.roams = false, false
	s.mark()
}

// GoOn lets an action that was held run to its end.
func (s *Session) GoOn() {
	s.quicken()
	s.enter()
}

// Keep records how far the attempt has been shown, without holding anything.
func (s *Session) Keep() { s.mark() }

// Wait lets time pass for "10 min" or to "0:45". The error says what cannot
// be read.
func (s *Session) Wait(typed string) error {
	typed = oneLine(typed)
	if to, open := s.Held(); typed == "" && open {
		typed = to
	}
	if strings.Contains(typed, ":") && !strings.HasPrefix(typed, "until ") && !strings.HasPrefix(typed, "to ") {
		typed = "until " + typed
	}
	to, err := until(s.e.Now(), typed)
	switch {
	case err != nil:
		return err
	case to <= s.e.Now():
		return fmt.Errorf("%s is past: it is %s", to.Exact(), s.e.Now().Exact())
	}
	s.roams = false
	s.quicken()
	s.run(goal{to: to, kind: waiting})
	return nil
}

// Held is the time to which a wait was meant that something held; false when
// there is none.
func (s *Session) Held() (string, bool) {
	return s.waited.Exact(), !s.running && s.waited > s.e.Now()
}

// slow slows a clock that the learner let run for what cannot be left for
// later. While an act goes on, sums and arrivals wait for its end.
func (s *Session) slow(en sim.Entry) bool {
	urgent := en.Kind == sim.Alarm || en.Kind == sim.Rang || en.Kind == sim.Lapsed || en.Kind == sim.Happened
	if s.speed <= 1 || !urgent && (s.goal.kind != roaming || !s.news(en)) {
		return false
	}
	s.wanted, s.speed = s.speed, 1
	return true
}

// quicken goes back to the speed that was chosen, once the learner has acted
// on what slowed the clock.
func (s *Session) quicken() {
	if s.wanted > 0 {
		s.speed, s.wanted = s.wanted, 0
	}
}

// Speed is simulated seconds a real second; 0 jumps.
func (s *Session) Speed() float64 { return s.speed }

// SetSpeed changes how fast the clock runs.
func (s *Session) SetSpeed(speed float64) { s.speed, s.wanted = max(0, speed), 0 }

// Pace says what the clock does, for a line that is always in sight.
func (s *Session) Pace() string {
	at := "at once"
	if s.speed > 0 {
		at = "x" + quantity.Number(s.speed)
	}
	switch {
	case s.Over():
		return "ended"
	case !s.running:
		return at + " held"
	case s.goal.kind == waiting:
		return at + " to " + s.goal.to.Clock()
	}
	return at + " running"
}

// Stop ends the case before its time.
func (s *Session) Stop() {
	if s.Over() {
		return
	}
	s.Stand()
	s.asking = true
	s.confirm("yes")
}
