package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"blanch/content"
)

func (p *program) guideCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "guide",
		Short: "Print the guide for those who write cases",
		Long:  "Prints, in Markdown, how a case is written, from nothing to one that plays.",
		Args:  cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			_, err := fmt.Fprint(p.out, content.Guide())
			return err
		},
	}
}
