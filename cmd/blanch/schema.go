package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"blanch/scenarios"
)

func (p *program) schemaCommand() *cobra.Command {
	page := false
	cmd := &cobra.Command{
		Use:   "schema [" + strings.Join(scenarios.Kinds(), "|") + "]",
		Short: "Print the JSON Schema of a kind of file, or its reference page",
		Long: `Prints the JSON Schema (draft 2020-12) of a kind of file, of a case when none is named, for an editor that
completes and explains fields as one writes. The kinds: ` + calledAll(scenarios.Kinds(), "and") + `.

  blanch schema case > case.schema.json

With --page it prints the reference of the fields in Markdown, of every kind of file when none
is named. Both are made from the table that the loader reads files by.`,
		Args:      cobra.MaximumNArgs(1),
		ValidArgs: scenarios.Kinds(),
		RunE: func(_ *cobra.Command, args []string) error {
			kinds := scenarios.Kinds()
			if len(args) > 0 {
				if !slices.Contains(kinds, args[0]) {
					return unknownKind(args[0], kinds)
				}
				kinds = args
			} else if !page {
				kinds = kinds[:1]
			}
			for i, kind := range kinds {
				text := scenarios.Page(kind)
				if !page {
					schema, err := scenarios.Schema(kind)
					if err != nil {
						return err
					}
					text = string(schema)
				}
				if i > 0 {
					fmt.Fprintln(p.out)
				}
				if _, err := fmt.Fprint(p.out, text); err != nil {
					return err
				}
			}
			return nil
		},
	}
	cmd.Flags().BoolVar(&page, "page", false, "print the reference page in Markdown instead")
	return cmd
}
