package ui

import (
	"fmt"
	"strings"
	"time"
)

// hold holds the clock or lets it run.
func (u *UI) hold() {
	s := u.s()
	if s.Running() {
		s.Stand()
		u.flash = "The clock stands."
		return
	}
	s.Start()
	u.flash = "The clock runs."
	for s.Running() && s.Jumps() {
		u.tell(s.Pass(0))
	}
	if s.Over() {
		u.ended()
	}
}

// speeds are simulated seconds a real second.
var speeds = []float64{1, 10, 60, 600}

// faster goes to the next speed and begins again after the last.
func (u *UI) faster() {
	s := u.s()
	next := speeds[0]
	for i := len(speeds) - 1; i >= 0 && speeds[i] > s.Speed(); i-- {
		next = speeds[i]
	}
	s.SetSpeed(next)
	u.flash = fmt.Sprintf("%g simulated seconds a second.", next)
}

// Real times of the running clock.
const (
	beat       = 100 * time.Millisecond
	longBeat   = time.Second // more is taken for a machine that slept
	draftEvery = 500 * time.Millisecond
)

// tick moves a running clock on and keeps what is being typed. It reports
// whether anything is to be drawn again.
func (u *UI) tick(now time.Time) bool {
	passed := min(max(0, now.Sub(u.beatAt)), longBeat)
	u.beatAt = now
	if u.play == nil {
		return false
	}
	s := u.s()
	if now.Sub(u.draftAt) >= draftEvery {
		u.draftAt = now
		u.draft()
	}
	if !s.Running() || u.stands() {
		return u.warn()
	}
	speed := s.Speed()
	if lines := s.Pass(passed); len(lines) > 0 {
		u.tell(lines)
		u.loud = u.loud || s.Speed() < speed
		if u.loud && s.Speed() < speed {
			u.flash = strings.TrimSpace("x1 now: " + u.flash)
		}
	}
	if s.Over() {
		u.ended()
	} else {
		u.onward()
	}
	u.warn()
	return true
}

// draft keeps what is being typed, under whatever lies on it.
func (u *UI) draft() {
	if u.left.Finished {
		return
	}
	for i := len(u.stack) - 1; i >= 0; i-- {
		if t, ok := u.stack[i].(typist); ok {
			if _, draft := t.typing(); draft != "" {
				u.s().Draft(draft)
				return
			}
		}
	}
	if u.note != "" {
		u.s().Draft(notesDraft + u.note)
		return
	}
	u.s().Draft("")
}
