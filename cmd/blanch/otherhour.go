package main

import (
	"errors"
	"fmt"
	"os"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"blanch/cmd/blanch/internal/otherhour"
	"blanch/cmd/blanch/internal/session"
	"blanch/cmd/blanch/internal/store"
	"blanch/content"
	"blanch/sim"
)

const otherHourHelp = `

With --move a finished attempt is played again with one decision moved. --move alone lists the
decisions and shows the one that mattered most; with a move after it, both hours stand side by side:

  blanch replay FILE --move
  blanch replay FILE --move "3 earlier by 20 min"
  blanch replay FILE --move "3 later by 5 min"
  blanch replay FILE --move "3 to 1:10"
  blanch replay FILE --move "3 also at 1:10"
  blanch replay FILE --move "3 left out"
  blanch replay FILE --move "3 as set pump-1 to 10.9 mL/h"
  blanch replay FILE --move "add at 1:10: ask how LINE feels"

What follows because of a decision shifts with it; all else stays at its time; what becomes impossible
is skipped and told. The hours describe the teaching model and never a real arm.`

// moving is what the flags of another hour say.
type moving struct {
	move   bool
	lucks  int
	script string
}

// otherHour gives the replay command the flags that move a decision.
func (p *program) otherHour(cmd *cobra.Command) *cobra.Command {
	o := moving{}
	replay, args := cmd.RunE, cmd.Args
	cmd.Use += " [--move [MOVE]]"
	cmd.Long += otherHourHelp
	cmd.Args = func(cmd *cobra.Command, given []string) error {
		if !o.move {
			return args(cmd, given)
		}
		return cobra.RangeArgs(1, 2)(cmd, given)
	}
	cmd.RunE = func(cmd *cobra.Command, given []string) error {
		switch {
		case o.move && cmd.Flags().Changed("policy"):
			return errors.New("--move and --policy are two questions: ask one, then the other")
		case o.move:
			return p.playOtherHour(given, o, cmd.Flags().Changed("lucks"))
		case cmd.Flags().Changed("lucks"), o.script != "":
			return errors.New("--lucks and --script-out go with --move, which plays the hour otherwise")
		}
		return replay(cmd, given)
	}
	f := cmd.Flags()
	f.BoolVar(&o.move, "move", false, "play it with one decision moved; alone it lists the decisions")
	f.IntVar(&o.lucks, "lucks", 0, "with --move: also play both hours under this many other seeds")
	f.StringVar(&o.script, "script-out", "", "with --move: write the other hour to this `file` as a script for play")
	return cmd
}

func (p *program) playOtherHour(args []string, o moving, lucky bool) error {
	if lucky && (o.lucks < 1 || o.lucks > otherhour.MostLucks) {
		return fmt.Errorf("--lucks %d: give a number of other seeds from 1 to %d", o.lucks, otherhour.MostLucks)
	}
	path, said := recordingAndMove(args)
	h, err := hourOf(path)
	if err != nil {
		return err
	}
	var m otherhour.Move
	var played otherhour.Played
	if said == "" {
		fmt.Fprintf(p.out, "%s\n", h.List())
		c := h.Choose()
		fmt.Fprint(p.out, h.Tell(c))
		m, played = c.Best.Move, c.Played
	} else {
		if m, err = h.ParseMove(said); err != nil {
			return err
		}
		played = h.Play(m)
		fmt.Fprint(p.out, h.Compare(m, "", played))
	}
	if lucky {
		fmt.Fprintf(p.out, "\n%s", h.TellLucks(m, h.Lucks(m, o.lucks)))
	}
	if o.script == "" {
		return nil
	}
	if m.Way == otherhour.Nothing {
		return unreadable(fmt.Errorf("%s was not written: no decision was moved; name one after --move", o.script))
	}
	return p.writeScript(o.script, path, h, m, played)
}

// recordingAndMove tells the two arguments apart: the move may stand before
// the recording, where the flag stands.
func recordingAndMove(args []string) (path, move string) {
	if len(args) == 1 {
		return args[0], ""
	}
	if _, err := os.Stat(args[0]); err != nil {
		if _, err := os.Stat(args[1]); err == nil {
			return args[1], args[0]
		}
	}
	return args[0], args[1]
}

// hourOf reads a finished attempt that this engine plays as it was stored.
func hourOf(path string) (*otherhour.Hour, error) {
	log, err := store.Open(path)
	if err != nil {
		return nil, unreadable(err)
	}
	r := recordOf(log)
	refuse := func(format string, args ...any) error {
		return unreadable(fmt.Errorf("recording %s: %s", path, fmt.Sprintf(format, args...)))
	}
	switch {
	case r.Ended == nil:
		return nil, refuse("the attempt has not ended, and only a finished hour can be played otherwise: blanch resume %s goes on with it", quoted(path))
	case r.Revision != sim.Revision:
		return nil, refuse("it was played with engine revision %d and this is revision %d, in which the same acts can come to something else: no decision of it can be moved. blanch replay %s shows it as it was stored", r.Revision, sim.Revision, quoted(path))
	}
	out, err := session.Replay(r)
	if err != nil {
		return nil, refuse("%s", err)
	}
	if out.Differs != "" {
		return nil, refuse("the replay differs from what was stored, so that two hours cannot be compared: blanch replay %s shows where", quoted(path))
	}
	a, err := session.Load(r.Source, r.Seed)
	if err != nil {
		return nil, err
	}
	attempt := otherhour.Attempt{Case: a.Case, Place: a.Place, Policy: a.Policy, Seed: a.Seed, Ended: sim.Time(r.Ended.At)}
	for _, s := range r.Acts() {
		attempt.Said = append(attempt.Said, otherhour.Said{At: sim.Time(s.At), Text: s.Text})
	}
	h, err := otherhour.New(attempt)
	if err != nil {
		return nil, refuse("%s", err)
	}
	return h, nil
}

// writeScript writes the other hour; it never overwrites.
func (p *program) writeScript(to, from string, h *otherhour.Hour, m otherhour.Move, played otherhour.Played) error {
	f, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return unreadable(err)
	}
	remark := fmt.Sprintf("%s with one decision moved: %s\nplay it with --seed %d", strings.Join(strings.Fields(from), " "), h.Moved(m), h.Seed)
	_, err = f.WriteString(otherhour.Script(played.Result, remark))
	if err = errors.Join(err, f.Close()); err != nil {
		return unreadable(err)
	}
	fmt.Fprintf(p.out, "\nThe other hour as a script: %s. To play it: blanch play %s --script %s --seed %d\n", to, playable(h), quoted(to), h.Seed)
	return nil
}

// playable is how the case of an hour is named to play it.
func playable(h *otherhour.Hour) string {
	if slices.Contains(content.Cases(), h.Case.ID) {
		return h.Case.ID
	}
	return quoted(h.Case.File)
}
