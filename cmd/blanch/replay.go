package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"blanch/cmd/blanch/internal/session"
	"blanch/cmd/blanch/internal/store"
)

func (p *program) replayCommand() *cobra.Command {
	policy := ""
	cmd := &cobra.Command{
		Use:   "replay RECORDING",
		Short: "Play a recording again and compare it with what was stored",
		Long: `Plays a recording again from its actions and prints journal and marks. A finished attempt must come
to the same bytes as were stored with it; where it does not, the first difference is shown and the
exit code is 1. An attempt of another engine revision is shown as it was stored, and marked so.

With --policy a finished recording is marked under another policy: its sheet is printed, and in words
which marks change. The arm stays as it was, to the bit, since a policy never reaches the engine.`,
		Args: cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			log, err := store.Open(args[0])
			if err != nil {
				return unreadable(err)
			}
			if policy != "" {
				return p.remark(args[0], log, policy)
			}
			out, err := session.Replay(recordOf(log))
			if err != nil {
				return unreadable(fmt.Errorf("recording %s: %w", args[0], err))
			}
			if out.Stored {
				fmt.Fprintf(p.out, "As stored: this attempt was played with engine revision %d and is not marked again.\n\n", out.Revision)
			}
			fmt.Fprintf(p.out, "%s\n%s", session.Harmless(out.Journal), session.Harmless(out.Sheet))
			switch {
			case out.Differs != "":
				fmt.Fprintf(p.err, "the replay differs from what was stored:\n%s", out.Differs)
				return errFaults
			case !out.Over:
				fmt.Fprintf(p.out, "Unfinished: blanch resume %s goes on with it.\n", asTyped(args[0]))
			case !out.Stored:
				fmt.Fprintln(p.out, "Replayed: the same journal and marks as stored, byte for byte.")
			}
			return nil
		},
	}
	cmd.Flags().StringVar(&policy, "policy", "", "mark under this policy, by its ID or the path of a YAML file, and say what changes")
	return cmd
}
