package main

import (
	"errors"
	"fmt"
	"os"
	"os/signal"
	"syscall"

	"blanch/cmd/blanch/internal/prompt"
	"blanch/cmd/blanch/internal/session"
)

// desk is the prompt with what has to be tidied up after it.
type desk struct {
	*prompt.Face
	p    *program
	stop func()
}

// open readies the prompt. Signals that would end the program end the play
// first, so that the attempt is saved and the terminal put right.
func (p *program) open(plain bool) (*desk, error) {
	signals := make(chan os.Signal, 1)
	signal.Notify(signals, os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	face, err := prompt.Open(p.in, p.out, prompt.Options{Plain: plain, Signals: signals})
	if err != nil {
		signal.Stop(signals)
		return nil, unreadable(fmt.Errorf("the terminal cannot be read: %w", err))
	}
	return &desk{face, p, func() { signal.Stop(signals) }}, nil
}

// Close puts the terminal right, after a panic too.
func (d *desk) Close() {
	d.Face.Close()
	d.stop()
}

// speed is how fast the clock runs here: in real time only on a terminal.
func (d *desk) speed(wanted float64) float64 {
	if !d.Live() {
		return 0
	}
	return wanted
}

// play plays an attempt and says afterwards where it is kept.
func (d *desk) play(s *session.Session, path string, resumed bool, draft string) error {
	err := d.Play(s, resumed, draft)
	if err == nil || errors.Is(err, prompt.ErrLeft) || errors.Is(err, prompt.ErrInterrupted) {
		err = alsoLost(err, d.p.tellWhere(s, path, err == nil))
	}
	return err
}
