package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"blanch/cmd/blanch/internal/session"
)

func (p *program) actionsCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "actions [WORD]",
		Short: "List every action there is, or those that a word is about",
		Long:  "Lists the sentences that a learner can type and a script can hold: what each does, how long it\ntakes, who else can be asked to do it, and what makes it impossible.",
		RunE: func(_ *cobra.Command, args []string) error {
			lines := session.Actions(strings.Join(args, " "))
			for _, l := range lines {
				if l.Kind == session.Fault {
					return misused("%s", l.Text)
				}
				if l.Kind == session.Heading {
					fmt.Fprintln(p.out)
				}
				fmt.Fprintln(p.out, l.Text)
			}
			return nil
		},
	}
}
