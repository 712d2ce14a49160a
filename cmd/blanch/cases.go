package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"blanch/cmd/blanch/internal/session"
)

func (p *program) casesCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "cases",
		Short: "List the cases that come with the program",
		Args:  cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			for _, c := range session.Shelf() {
				if c.Broken {
					fmt.Fprintf(p.out, "%s\n  has faults: run blanch check\n", c.ID)
					continue
				}
				var summary strings.Builder
				writeFolded(&summary, "  ", c.Summary)
				fmt.Fprintf(p.out, "%s\n  %s\n  %s, level: %s, about %s, %s\n%s", c.ID, c.Title, c.Track, c.Level, c.Minutes, c.Status, summary.String())
			}
			return nil
		},
	}
}

// completeCases offers the IDs of the cases to the shell.
func completeCases(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	var ids []string
	for _, c := range session.Shelf() {
		ids = append(ids, c.ID+"\t"+c.Title)
	}
	return ids, cobra.ShellCompDirectiveDefault
}
