package main

import (
	"errors"
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"blanch/cmd/blanch/internal/store"
	"blanch/cmd/blanch/internal/ui"
)

func (p *program) resumeCommand(how *faces) *cobra.Command {
	var speed float64
	cmd := &cobra.Command{
		Use:   "resume [RECORDING]",
		Short: "Go on with an attempt where it stood, the last unfinished one by default",
		Args:  cobra.MaximumNArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			if err := validSpeed(speed); err != nil {
				return err
			}
			path := ""
			if len(args) > 0 {
				path = args[0]
			} else {
				var err error
				if path, err = p.lastUnfinished(); err != nil {
					return err
				}
			}
			if p.screened(*how) {
				sit := &sitting{p: p}
				defer sit.Close()
				first, err := sit.resume(path, speed)
				if err != nil {
					return err
				}
				return p.screen(ui.Opening{First: first}, *how)
			}
			face, err := p.open(how.plain)
			if err != nil {
				return err
			}
			defer face.Close()
			return p.resume(face, path, speed)
		},
	}
	cmd.Flags().Float64Var(&speed, "speed", defaultSpeed, "simulated seconds a real second while the clock runs; 0 jumps at once")
	return cmd
}

// lastUnfinished is the attempt that resume goes on with by default: the last
// one that can be read and that nobody is playing. What cannot be read is told.
func (p *program) lastUnfinished() (string, error) {
	home, err := store.Home()
	if err != nil {
		return "", unreadable(err)
	}
	open, fault := home.NotEnded()
	free := store.Free(open)
	for _, a := range free {
		_, err := store.Open(a.Path)
		if err == nil {
			p.note(fault)
			return a.Path, nil
		}
		fault = errors.Join(fault, err)
	}
	if len(open) > len(free) {
		busy := open[slices.IndexFunc(open, func(a store.Attempt) bool { return a.InUse })]
		return "", unreadable(errors.Join(fault, fmt.Errorf("the unfinished attempt %s is open in another window or terminal: leave it there first, then go on here", busy.Path)))
	}
	return "", unreadable(errors.Join(fault, fmt.Errorf("no unfinished attempt in %s: blanch play begins one", home)))
}

// resume goes on with an attempt.
func (p *program) resume(face *desk, path string, speed float64) error {
	s, rec, draft, err := reopen(path, face.speed(speed))
	if err != nil {
		return err
	}
	defer rec.Close()
	return face.play(s, path, true, draft)
}
