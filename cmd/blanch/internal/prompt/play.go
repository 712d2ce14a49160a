package prompt

import (
	"strings"
	"time"

	"blanch/cmd/blanch/internal/session"
)

// Real times of the running clock.
const (
	beat     = 100 * time.Millisecond // how often a running clock is moved on
	longBeat = time.Second            // more is taken for a machine that slept
)

// Play plays an attempt to its end from where it stands; of a resumed one it
// says first where that is. Draft is what was being typed. It returns ErrLeft
// or ErrInterrupted when the attempt is not finished.
func (f *Face) Play(s *session.Session, resumed bool, draft string) error {
	draft = session.Harmless(draft)
	f.with(func() { f.s = s })
	defer f.with(func() { f.s = nil })
	if resumed {
		f.reorient(s)
	}
	if !s.Over() {
		if err := f.shift(s, draft); err != nil {
			f.with(func() { s.Hold() })
			return err
		}
		draft = ""
	}
	return f.debrief(s, draft)
}

// Brief shows the briefing and waits to be told to start. Where says where the
// recording will lie.
func (f *Face) Brief(s *session.Session, where string) error {
	f.page(renderAll(append(s.Briefing(where),
		session.Line{Kind: session.Heading, Text: "Press Enter to start the clock, or type quit to leave."})))
	for {
		line, err := f.ask("> ", "")
		switch {
		case err != nil:
			return err
		case line == "":
			return nil
		case leaves(line):
			return ErrLeft
		case strings.HasPrefix(strings.ToLower(line), "help"):
			f.page(renderAll(session.Help("")))
		default:
			f.Say("Enter starts the case; quit leaves; help says how to play.")
		}
	}
}

// reorient says where a resumed attempt stands.
func (f *Face) reorient(s *session.Session) {
	f.put("", s.Title()+", resumed")
	f.Say("%s", session.Caution)
	f.put("The last that happened:")
	f.say(s.Last(8)...)
}

// shift is the case itself.
func (f *Face) shift(s *session.Session, draft string) error {
	fresh := true // the status has not been shown since something happened
	for !s.Over() {
		if fresh {
			f.status(s)
		}
		line, err := f.line(s, draft)
		draft = ""
		if err != nil {
			return leaving(err)
		}
		if strings.TrimSpace(line) == "" && f.turn() {
			fresh = false
			continue
		}
		f.more = nil
		if leaves(line) {
			return ErrLeft
		}
		fresh = f.take(s, line)
	}
	return nil
}

// take carries out one line and, where no clock runs in real time, all that
// follows from it. It reports whether the status is to be shown: not while
// the clock runs.
func (f *Face) take(s *session.Session, line string) bool {
	var said []session.Line
	f.with(func() { said = s.Handle(line) })
	f.page(renderAll(said))
	for s.Running() && s.Jumps() {
		f.with(func() { said = s.Pass(0) })
		f.say(said...)
	}
	return !s.Running() && len(f.more) == 0
}

func (f *Face) status(s *session.Session) {
	f.put("")
	f.put(joined(s.View().Status())...)
}

// mark is the prompt: it says what the clock does.
func (f *Face) mark(s *session.Session) string {
	switch {
	case len(f.more) > 0:
		return moreMark + "> "
	case s.Running() && f.narrow():
		return s.View().Clock + "> "
	case s.Running():
		return s.View().Clock + " running, Enter holds > "
	}
	return "> "
}

// line reads one line while the clock may run.
func (f *Face) line(s *session.Session, draft string) (string, error) {
	shown := f.mark(s)
	f.in.Ask(shown, draft)
	tick := time.NewTicker(beat)
	defer tick.Stop()
	last := time.Now()
	drafts := drafting{last: last, keep: func(text string) { f.with(func() { s.Draft(text) }) }}
	for {
		select {
		case <-f.signals:
			drafts.leave(f.in.Text())
			return "", ErrInterrupted
		case p := <-f.in.Panics():
			panic(p)
		case t := <-f.in.Lines():
			if t.err != nil {
				drafts.leave(t.text)
			}
			return f.fitting(t), t.err
		case <-f.in.Typing():
			drafts.typed = true
		case now := <-tick.C:
			passed := min(now.Sub(last), longBeat)
			last = now
			ran := s.Running()
			f.beat(s, passed)
			if ran && !s.Running() {
				drafts.save(f.in.Text())
			}
			drafts.beat(now, f.in.Text())
			if s.Over() {
				return "", nil
			}
			if m := f.mark(s); m != shown {
				shown = m
				f.in.Prompt(m)
			}
		}
	}
}

// beat moves a running clock and shows what came of it.
func (f *Face) beat(s *session.Session, passed time.Duration) {
	if !s.Running() {
		return
	}
	var said []session.Line
	f.with(func() { said = s.Pass(passed) })
	rows := renderAll(said)
	if !s.Running() && !s.Over() {
		rows = append(append(rows, ""), joined(s.View().Status())...)
	}
	f.put(rows...)
}
