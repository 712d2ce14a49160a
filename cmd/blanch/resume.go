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
			path := ""
			if len(args) > 0 {
				path = args[0]
			} else {
				home, err := store.Home()
				if err != nil {
					return unreadable(err)
				}
				open, err := home.NotEnded()
				free := slices.DeleteFunc(slices.Clone(open), func(a store.Attempt) bool { return a.InUse })
				switch {
				case len(open) == 0:
					return unreadable(errors.Join(err, fmt.Errorf("no unfinished attempt in %s: blanch play begins one", home)))
				case len(free) == 0:
					return unreadable(errors.Join(err, fmt.Errorf("the unfinished attempt %s is open in another window or terminal: leave it there first, then go on here", open[0].Path)))
				}
				path = free[0].Path
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

// resume goes on with an attempt.
func (p *program) resume(face *desk, path string, speed float64) error {
	s, rec, draft, err := reopen(path, face.speed(speed))
	if err != nil {
		return err
	}
	defer rec.Close()
	return face.play(s, path, true, draft)
}
