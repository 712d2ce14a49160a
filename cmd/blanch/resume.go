package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"blanch/cmd/blanch/internal/session"
	"blanch/cmd/blanch/internal/store"
)

func (p *program) resumeCommand(plain *bool) *cobra.Command {
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
				open, err := home.Unfinished()
				if len(open) == 0 {
					return unreadable(errors.Join(err, fmt.Errorf("no unfinished attempt in %s: blanch play begins one", home)))
				}
				path = open[0].Path
			}
			face, err := p.open(*plain)
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
	rec, log, err := store.OpenAppend(path)
	if err != nil {
		return unreadable(err)
	}
	defer rec.Close()
	record := recordOf(log)
	s, err := session.Resume(record, face.speed(speed))
	var other *session.OtherRevisionError
	switch {
	case errors.As(err, &other):
		return unreadable(fmt.Errorf("recording %s: %w (--seed %d)", path, err, record.Seed))
	case err != nil:
		return unreadable(fmt.Errorf("recording %s: %w", path, err))
	}
	s.Record(recorder{rec})
	return face.play(s, path, true, record.Draft)
}
