package main

import (
	"errors"
	"fmt"
	"os"
	"os/signal"
	"runtime"
	"strings"
	"syscall"
	"time"

	"blanch/cmd/blanch/internal/prompt"
	"blanch/cmd/blanch/internal/session"
	"blanch/cmd/blanch/internal/store"
	"blanch/cmd/blanch/internal/ui"
)

// faces is how the learner wants to play, as flags and environment say.
type faces struct {
	plain    bool // numbered lines, nothing drawn
	lines    bool // sentences at a prompt, on a terminal too
	ascii    bool
	noColour bool
}

// screened says that the case is played on a whole screen: both ends are a
// terminal that can draw, and nothing else was asked for.
func (p *program) screened(f faces) bool {
	return !f.plain && !f.lines && draws(runtime.GOOS, os.Getenv) && prompt.OnTerminal(p.in, p.out)
}

// draws says that a terminal can be drawn on. On Windows nothing need say so.
func draws(system string, env func(string) string) bool {
	term := env("TERM")
	return term != "dumb" && (system == "windows" || term != "")
}

// utf8Locale says that the terminal is told to speak UTF-8, as it does on
// Windows unless it is told otherwise.
func utf8Locale(system string, env func(string) string) bool {
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if v := strings.ToUpper(env(name)); v != "" {
			return strings.Contains(v, "UTF-8") || strings.Contains(v, "UTF8")
		}
	}
	return system == "windows"
}

// screen plays on a whole screen and says afterwards where the attempt is.
func (p *program) screen(o ui.Opening, f faces) error {
	signals := make(chan os.Signal, 1)
	signal.Notify(signals, os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	defer signal.Stop(signals)
	left, err := ui.Run(o, ui.Options{
		ASCII:    f.ascii || !utf8Locale(runtime.GOOS, os.Getenv),
		NoColour: f.noColour || os.Getenv("NO_COLOR") != "",
		Signals:  signals,
	})
	if errors.Is(err, ui.ErrNoScreen) {
		err = unreadable(fmt.Errorf("%w; blanch --lines plays without a screen", err))
	}
	var fault *ui.PanicError
	if errors.As(err, &fault) {
		fmt.Fprintf(p.err, "%s\n", fault.Stack)
	}
	if a := left.Attempt; a != nil {
		err = alsoLost(err, p.tellWhere(a.Session, a.Path, left.Finished))
	}
	return err
}

// alsoLost is how a play ended when some of it could not be saved: that is
// never passed over for an end that is no fault.
func alsoLost(err, lost error) error {
	switch {
	case lost == nil:
		return err
	case err == nil, errors.Is(err, prompt.ErrLeft), errors.Is(err, prompt.ErrInterrupted), errors.Is(err, ui.ErrInterrupted):
		return lost
	}
	return errors.Join(err, lost)
}

// tellWhere says where the recording of an attempt lies and how to go on. The
// error says from when on the attempt is not in it.
func (p *program) tellWhere(s *session.Session, path string, finished bool) error {
	if lost := s.NotSaved(); lost != "" {
		return unreadable(fmt.Errorf("%s. What was saved before lies in %s: make room for it, and blanch resume %s goes on from there", lost, path, asTyped(path)))
	}
	if finished {
		fmt.Fprintf(p.out, "\nFinished and saved (seed %d). To see it again:\n  blanch replay %s\n", s.Seed(), asTyped(path))
		return nil
	}
	fmt.Fprintf(p.out, "\nSaved. To go on where you stood:\n  blanch resume")
	if newest(path) {
		fmt.Fprintf(p.out, "\nIt goes on with the last attempt; this one lies in\n  %s\n", path)
		return nil
	}
	fmt.Fprintf(p.out, " %s\n", asTyped(path))
	return nil
}

// newest says that a recording is the one that resume goes on with by default.
func newest(path string) bool {
	home, err := store.Home()
	if err != nil {
		return false
	}
	open, _ := home.NotEnded()
	return len(open) > 0 && open[0].Path == path
}

// sitting keeps the recordings open that a screen began or resumed.
type sitting struct {
	p    *program
	open []*store.Recording
}

func (s *sitting) Close() { s.letGo() }

// letGo closes what is open, so that it does not count as played elsewhere.
func (s *sitting) letGo() {
	for _, rec := range s.open {
		rec.Close()
	}
	s.open = nil
}

// readAgain opens a finished attempt to be read.
func readAgain(path string) (*ui.Attempt, error) {
	log, err := store.Open(path)
	if err != nil {
		return nil, unreadable(err)
	}
	s, err := session.Read(recordOf(log))
	if err != nil {
		return nil, unreadable(fmt.Errorf("recording %s: %w", path, err))
	}
	return &ui.Attempt{Session: s, Path: path, Read: true}, nil
}

// begin readies a case. Nothing is recorded before the clock starts.
func (s *sitting) begin(name string, o playing) (*ui.Attempt, error) {
	if !o.seeded {
		o.seed = drawSeed()
	}
	a, err := load(name, o)
	if err != nil {
		return nil, err
	}
	path, err := recordingPath(a.Case.ID, o.record)
	if err != nil {
		return nil, err
	}
	play, err := session.New(a, o.speed)
	if err != nil {
		return nil, unreadable(err)
	}
	start := func() error {
		rec, err := store.Create(path, headOf(a, "practice", time.Now().Format(time.RFC3339)))
		if err != nil {
			return unreadable(err)
		}
		s.open = append(s.open, rec)
		play.Record(recorder{rec})
		return nil
	}
	return &ui.Attempt{Session: play, Path: path, Start: start}, nil
}

// resume readies an unfinished attempt.
func (s *sitting) resume(path string, speed float64) (*ui.Attempt, error) {
	play, rec, draft, err := reopen(path, speed)
	if err != nil {
		return nil, err
	}
	s.open = append(s.open, rec)
	return &ui.Attempt{Session: play, Path: path, Resumed: true, Draft: draft}, nil
}

// recordingPath is where a new attempt is recorded.
func recordingPath(caseID, wanted string) (string, error) {
	if wanted != "" {
		return wanted, nil
	}
	home, err := store.Home()
	if err != nil {
		return "", unreadable(err)
	}
	path, err := home.NewPath(caseID)
	return path, unreadable(err)
}

// reopen opens an unfinished recording and makes its attempt again.
func reopen(path string, speed float64) (*session.Session, *store.Recording, string, error) {
	rec, log, err := store.OpenAppend(path)
	if err != nil {
		return nil, nil, "", unreadable(err)
	}
	record := recordOf(log)
	s, err := session.Resume(record, speed)
	if err != nil {
		rec.Close()
		var other *session.OtherRevisionError
		if errors.As(err, &other) {
			return nil, nil, "", unreadable(fmt.Errorf("recording %s: %w (--seed %d)", path, err, record.Seed))
		}
		return nil, nil, "", unreadable(fmt.Errorf("recording %s: %w", path, err))
	}
	s.Record(recorder{rec})
	return s, rec, record.Draft, nil
}

// screenHome opens the screen at home.
func (p *program) screenHome(f faces) error {
	sit := &sitting{p: p}
	defer sit.Close()
	list := func() (unfinished, finished []session.Recorded, fault error) {
		sit.letGo()
		unfinished, fault = unfinishedAttempts()
		finished, more := finishedAttempts()
		return unfinished, finished, errors.Join(fault, more)
	}
	refresh := func() (unfinished, finished []session.Recorded) {
		unfinished, finished, _ = list() // what cannot be read was told at the start; the screen is drawn on now
		return unfinished, finished
	}
	unfinished, finished, fault := list()
	p.note(fault)
	return p.screen(ui.Opening{
		Cases: session.Shelf(), Unfinished: unfinished, Finished: finished, Refresh: refresh,
		Begin:  func(id string) (*ui.Attempt, error) { return sit.begin(id, playing{speed: defaultSpeed}) },
		Resume: func(path string) (*ui.Attempt, error) { return sit.resume(path, defaultSpeed) },
		Read:   readAgain,
		Quiz:   p.practice,
		Study:  p.study,
	}, f)
}
