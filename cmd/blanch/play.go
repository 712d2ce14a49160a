package main

import (
	"crypto/rand"
	"encoding/binary"
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"blanch/cmd/blanch/internal/session"
	"blanch/cmd/blanch/internal/store"
	"blanch/cmd/blanch/internal/ui"
	"blanch/scenarios"
	"blanch/scoring"
)

// playing is what the flags of play say.
type playing struct {
	script, policy, record string
	seed                   uint64
	seeded                 bool
	speed                  float64
	faces
}

// defaultSpeed is simulated seconds a real second.
const defaultSpeed = 60

// fastest is the highest speed of the clock.
const fastest = 1e6

// validSpeed refuses a speed at which the clock could not run; NaN is one.
func validSpeed(speed float64) error {
	if !(speed >= 0 && speed <= fastest) {
		return misused("speed %g is out of reach: give simulated seconds a real second from 0, for at once, to %.0f", speed, fastest)
	}
	return nil
}

func (p *program) playCommand(how *faces) *cobra.Command {
	o := playing{}
	cmd := &cobra.Command{
		Use:   "play CASE",
		Short: "Play a case, on the screen, at the prompt or by a script",
		Long: `Plays a case: an ID of the list or a path of a YAML file. The attempt is saved as it goes and can
be resumed. With --script the timed actions of a file are played to the end of the
case, and journal and marks are printed:

  at 0 min: read the order
  then: examine left-cephalic-forearm
  after 30 s: ask the patient about the arms
  # a note

A step that the case refuses stands in the journal as refused, and the rest is played.`,
		Args:              cobra.ExactArgs(1),
		ValidArgsFunction: completeCases,
		RunE: func(cmd *cobra.Command, args []string) error {
			o.seeded, o.faces = cmd.Flags().Changed("seed"), *how
			if err := validSpeed(o.speed); err != nil {
				return err
			}
			if o.script != "" {
				return p.playScript(args[0], o)
			}
			return p.playPrompt(args[0], o)
		},
	}
	f := cmd.Flags()
	f.StringVar(&o.script, "script", "", "play the timed actions of this `file` to the end of the case")
	f.Uint64Var(&o.seed, "seed", 1, "the luck of the attempt; drawn when not given, except for scripts")
	f.StringVar(&o.policy, "policy", "", "mark under this policy, an `ID or file`, instead of the case's own")
	f.StringVar(&o.record, "record", "", "keep the recording in this `file`, which must not exist yet")
	f.Float64Var(&o.speed, "speed", defaultSpeed, "simulated seconds a real second while the clock runs; 0 jumps at once")
	return cmd
}

// load finds and loads a case with what it names.
func load(name string, o playing) (*session.Attempt, error) {
	src, err := session.Find(name, o.policy)
	if err != nil {
		return nil, unreadable(err)
	}
	return session.Load(src, o.seed)
}

// playScript plays timed steps and prints what came of them.
func (p *program) playScript(name string, o playing) error {
	a, err := load(name, o)
	if err != nil {
		return err
	}
	src, err := session.ReadFile(o.script)
	if err != nil {
		return unreadable(err)
	}
	steps, faults := scenarios.ParseSteps(o.script, src)
	if len(faults) > 0 {
		report := session.Report(faults, func(string) []byte { return src })
		if steps == nil {
			return &session.RefusedError{Report: report}
		}
		fmt.Fprintln(p.err, report)
	}
	result, notes, err := scoring.Play(a.Case, a.Place, a.Seed, steps)
	if err != nil {
		return unreadable(err)
	}
	for _, n := range notes {
		fmt.Fprintf(p.err, "note: %s\n", n)
	}
	journal, sheet := session.Journal(result.Journal), session.Sheet(a, result)
	fmt.Fprintf(p.out, "%s\n\n%s\n%s", session.Caution, journal, sheet)
	if o.record == "" {
		return nil
	}
	return recordScript(o.record, a, session.Inputs(result), int64(result.Ended), journal, sheet)
}

// recordScript keeps a finished run as a recording.
func recordScript(path string, a *session.Attempt, said []session.Said, ended int64, journal, sheet string) error {
	rec, err := store.Create(path, headOf(a, "script", ""))
	if err != nil {
		return unreadable(err)
	}
	keep := recorder{rec}
	for _, s := range said {
		err = errors.Join(err, keep.Do(s.At, s.Text))
	}
	return unreadable(errors.Join(err, keep.Ended(ended, journal, sheet), rec.Close()))
}

// playPrompt begins an attempt on the screen, or at the prompt where there is
// none.
func (p *program) playPrompt(name string, o playing) error {
	if p.screened(o.faces) {
		sit := &sitting{p: p}
		defer sit.Close()
		first, err := sit.begin(name, o)
		if err != nil {
			return err
		}
		return p.screen(ui.Opening{First: first}, o.faces)
	}
	face, err := p.open(o.plain)
	if err != nil {
		return err
	}
	defer face.Close()
	return p.begin(face, name, o)
}

// begin starts an attempt with its recording and plays it.
func (p *program) begin(face *desk, name string, o playing) error {
	if !o.seeded {
		o.seed = drawSeed()
	}
	a, err := load(name, o)
	if err != nil {
		return err
	}
	path, err := recordingPath(a.Case.ID, o.record)
	if err != nil {
		return err
	}
	s, err := session.New(a, face.speed(o.speed))
	if err != nil {
		return unreadable(err)
	}
	if err := face.Brief(s, path); err != nil {
		return err // nothing was begun
	}
	rec, err := store.Create(path, headOf(a, "practice", time.Now().Format(time.RFC3339)))
	if err != nil {
		return unreadable(err)
	}
	defer rec.Close()
	s.Record(recorder{rec})
	return face.play(s, path, false, "")
}

// drawSeed draws a seed that is short enough to be typed.
func drawSeed() uint64 {
	var b [8]byte
	rand.Read(b[:]) // never fails
	return binary.LittleEndian.Uint64(b[:])%999_999 + 1
}

// plural words a number of things.
func plural(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, strings.TrimSuffix(one, "y")+map[bool]string{true: "ies", false: "s"}[strings.HasSuffix(one, "y")])
}
