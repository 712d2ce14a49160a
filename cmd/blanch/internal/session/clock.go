package session

import (
	"strings"
	"time"

	"blanch/sim"
)

// markEvery is the longest stretch of real time that a running clock leaves
// unrecorded.
const markEvery = time.Second

// clock is what moves simulated time.
type clock struct {
	speed   float64
	running bool
	goal    goal
	waited  sim.Time      // what the last wait was for
	unsure  time.Duration // real time since the last mark
	marked  sim.Time
	part    float64 // of a millisecond that has not been passed yet
	roams   bool    // the clock goes on by itself when a goal is reached
	wanted  float64 // the speed before something slowed the clock; 0 when nothing has
	acted   int     // entries before the act that goes on
	slows   bool    // what cannot be left for later slows a clock that runs by itself
}

// goal is what the clock runs towards.
type goal struct {
	to   sim.Time
	kind purpose
}

// purpose is why the clock runs; it decides what holds it on the way.
type purpose uint8

const (
	acting   purpose = iota // an action goes on, whatever happens
	waiting                 // held by whatever cannot be left for later
	watching                // held by whatever happens
	roaming                 // held by nothing: the learner let it run
)

// news says that an entry cannot be left for later, whatever the face.
func (s *Session) news(en sim.Entry) bool {
	switch en.Kind {
	case sim.Alarm, sim.Rang, sim.Came, sim.Asked, sim.Lapsed, sim.Happened, sim.Event, sim.NotDone:
		return true
	case sim.Reading:
		return s.dropped(en)
	}
	return false
}

// holds says that an entry ends a wait or a run.
func (s *Session) holds(en sim.Entry) bool {
	switch s.goal.kind {
	case waiting:
		return s.news(en)
	case watching:
		return s.news(en) || en.Kind == sim.Done || en.Kind == sim.Replied
	}
	return false
}

// dropped says that a reading is under the target and the one before it was
// not. The target is known from the order.
func (s *Session) dropped(en sim.Entry) bool {
	low := s.a.Case.Order.TargetMmHg
	if en.Value >= low || !s.did("read-order") {
		return false
	}
	shown := s.e.View().Shown
	for i := len(shown) - 1; i > 0; i-- {
		if shown[i].At == en.At {
			return shown[i-1].MmHg >= low
		}
	}
	return false
}

// Running says that simulated time runs: call Pass.
func (s *Session) Running() bool { return s.running && !s.Over() }

// Jumps says that one call of Pass reaches whatever comes next, whatever the
// real time.
func (s *Session) Jumps() bool { return s.speed == 0 }

// run lets the clock run.
func (s *Session) run(g goal) {
	g.to = min(g.to, s.a.Case.Ends)
	s.goal, s.running = g, true
	if g.kind == waiting {
		s.waited = g.to
	}
}

// Hold stops the clock where it is.
func (s *Session) Hold() []Line {
	if !s.running {
		return nil
	}
	s.running = false
	s.mark()
	if s.busyTo() > s.e.Now() {
		return []Line{told("The clock stands at %s, in the middle of what you do. Enter goes on with it.", s.e.Now().Exact())}
	}
	return []Line{told("The clock stands at %s.", s.e.Now().Exact())}
}

// mark records how far the attempt has been shown.
func (s *Session) mark() {
	s.unsure = 0
	if now := s.e.Now(); now != s.marked {
		s.marked = now
		s.save(s.rec.Reached(int64(now)), now)
	}
}

// UnderNow is told of the first reading under the target.
const UnderNow = "The pressure is under the target now."

// Meanwhile begins what is told at the end of an act of what came while it
// went on.
const Meanwhile = "Meanwhile: "

// meanwhile is what came while an act went on, for a face on which it may have
// gone by.
func (s *Session) meanwhile() []Line {
	var said []string
	for _, en := range s.entries[min(s.acted, len(s.entries)):] {
		switch en.Kind {
		case sim.Alarm, sim.Rang, sim.Came, sim.Lapsed, sim.Happened, sim.Event:
			said = append(said, oneLine(en.Text()))
		}
	}
	if len(said) == 0 {
		return nil
	}
	return []Line{told("%s", Meanwhile+strings.Join(said, " "))}
}

// Pass moves simulated time by what goes with a stretch of real time, and
// returns what came about. It holds the clock when the goal is reached, when
// something happens that must not be missed, and at the end of the case.
func (s *Session) Pass(real time.Duration) []Line {
	if !s.Running() {
		return nil
	}
	to := s.goal.to
	if s.speed > 0 {
		ms := float64(real.Microseconds())*s.speed/1000 + s.part
		s.part = ms - float64(int64(ms))
		to = min(to, s.e.Now()+sim.Time(ms))
	}
	s.unsure += real
	var lines []Line
	for s.running && s.e.Now() < to && !s.e.Over() {
		step := s.e.Advance(min(to, max(s.e.Next(), s.e.Now()+1)))
		lines = append(lines, s.show(step)...)
		slowed := false
		for _, en := range step {
			switch {
			case s.holds(en):
				s.running = false
				if en.Kind == sim.Reading {
					lines = append(lines, told(UnderNow))
				}
			case s.slows && s.speed > 0:
				slowed = s.slow(en) || slowed
			}
		}
		if slowed {
			break // the rest of this stretch was meant at the old speed
		}
	}
	held := !s.running
	if s.e.Now() >= s.goal.to || s.e.Over() {
		s.running = false
		if s.goal.kind == acting && s.slows {
			lines = append(lines, s.meanwhile()...)
		}
		if s.roams && !s.e.Over() {
			s.roam()
		}
	}
	if !s.running || len(lines) > 0 || s.unsure >= markEvery {
		s.mark()
	}
	if held && s.e.Now() < s.goal.to && !s.e.Over() {
		if s.goal.kind == waiting {
			lines = append(lines, told("The clock stands. What now? (wait alone goes on to %s)", s.goal.to.Exact()))
		} else {
			lines = append(lines, told("The clock stands. What now?"))
		}
	}
	return append(lines, s.trouble()...)
}
