package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"blanch/cmd/blanch/internal/session"
	"blanch/scenarios"
	"blanch/sim/quantity"
)

// previews are the parts of a case that can be read without playing it.
var previews = []string{"briefing", "bedside", "sheet"}

func (p *program) previewCommand() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "preview CASE [briefing|bedside|sheet]",
		Short: "Read what a case says, without playing it",
		Long: `Prints the briefing, the bedside as the case opens, and the sheet with every rule and both of its
texts, so that an author reads every sentence that a learner can come to read. Values that a run
would fill in are shown as they are written, in braces. CASE is an ID or the path of a file. "blanch preview items" is for items of a quiz.`,
		Args:              cobra.RangeArgs(1, 2),
		ValidArgsFunction: completeCases,
		RunE: func(_ *cobra.Command, args []string) error {
			parts := previews
			if len(args) == 2 {
				if !slices.Contains(previews, args[1]) {
					return missed("part", args[1], previews, "there are briefing, bedside and sheet")
				}
				parts = args[1:]
			}
			a, err := load(args[0], playing{seed: 1})
			if err != nil {
				return err
			}
			s, err := session.New(a, 0)
			if err != nil {
				return unreadable(err)
			}
			var b strings.Builder
			for i, part := range parts {
				if i > 0 {
					b.WriteString("\n")
				}
				switch part {
				case "briefing":
					writeLines(&b, s.Briefing(""))
				case "bedside":
					previewBedside(&b, s.View())
				case "sheet":
					previewSheet(&b, a.Case)
				}
			}
			_, err = fmt.Fprint(p.out, strings.TrimPrefix(b.String(), "\n"))
			return err
		},
	}
	cmd.AddCommand(p.previewItemsCommand())
	return cmd
}

func writeLines(b *strings.Builder, lines []session.Line) {
	for _, l := range lines {
		if l.Kind == session.Heading {
			b.WriteString("\n")
		}
		writeFolded(b, "", l.Text)
	}
}

// previewBedside writes how things stand as the clock starts.
func previewBedside(b *strings.Builder, v session.View) {
	b.WriteString("The bedside at " + v.Clock + "\n")
	for _, part := range []struct {
		title string
		lines []string
	}{
		{"Pressure", []string{v.Pressure}}, {"Pumps", v.Infusions}, {"Lines", v.Lines}, {"Bags", v.Bags},
		{"People", v.People}, {"Calls", v.Calls}, {"Sums", v.Sums},
	} {
		for i, l := range part.lines {
			lead := fmt.Sprintf("  %-10s", part.title)
			if i > 0 {
				lead = fmt.Sprintf("  %-10s", "")
			}
			if l != "" {
				writeFolded(b, lead, l)
			}
		}
	}
}

// previewSheet writes every rule with both of its texts, by objective, and
// what the debrief says besides.
func previewSheet(b *strings.Builder, c *scenarios.Case) {
	b.WriteString("The sheet: " + c.Title + "\n")
	var total float64
	for _, o := range c.Objectives {
		b.WriteString("\n")
		writeFolded(b, "", o.Text)
		for _, r := range c.Rules {
			if r.Serves != o.ID {
				continue
			}
			total += r.Points
			worth := plural(0, "point")
			if r.Points > 0 {
				worth = quantity.Number(r.Points) + " points"
			}
			if r.Points == 1 {
				worth = "1 point"
			}
			if r.Critical {
				worth += ", critical"
			}
			writeFolded(b, "  ", r.ID+" ("+worth+")")
			if r.Applies.Source != "" {
				writeFolded(b, "    applies when  ", r.Applies.Source)
			}
			writeFolded(b, "    when          ", r.When.Source)
			writeFolded(b, "    met           ", r.Met.Source)
			writeFolded(b, "    not met       ", r.NotMet.Source)
		}
	}
	fmt.Fprintf(b, "\n%s points in all. Pass mark: %s %% of those that apply.\n",
		quantity.Number(quantity.Round(total, 0.01)), quantity.Number(quantity.Round(c.PassPoints*100, 0.1)))
	writeFolded(b, "Set by: ", c.PassSetBy)
	b.WriteString("\nAsked before the marks\n")
	for _, q := range c.Reflect {
		writeFolded(b, "  - ", q)
	}
	b.WriteString("\nTeaching note\n")
	writeFolded(b, "  ", c.Teaching)
	b.WriteString("\nSources\n")
	for _, s := range c.Sources {
		writeFolded(b, "  - ", s)
	}
}
