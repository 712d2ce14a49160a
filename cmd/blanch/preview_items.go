package main

import (
	"errors"
	"fmt"
	"os"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"blanch/cmd/blanch/internal/session"
	"blanch/content"
	"blanch/scenarios"
	"blanch/sim/quantity"
)

func (p *program) previewItemsCommand() *cobra.Command {
	policy := ""
	cmd := &cobra.Command{
		Use:   "items [FILE|NAME] [ITEM...]",
		Short: "Read the items of a file, with keys and explanations",
		Long: `Prints every item of a file as it is worded, with its key and every explanation, so that an author
or a reviewer reads all that a learner can come to read. FILE is a path, NAME a file of items that
comes with the program; alone it lists those. With the names of items it prints these alone.

Where the key follows a policy, it says which of the shipped policies make each option right; with
--policy it marks the key under that one. Options stand in the order of the file.`,
		ValidArgsFunction: completeItems,
		RunE: func(_ *cobra.Command, args []string) error {
			var b strings.Builder
			if len(args) == 0 {
				if err := listItems(&b); err != nil {
					return err
				}
				_, err := fmt.Fprint(p.out, b.String())
				return err
			}
			items, err := p.loadItems(args[0])
			if err != nil {
				return err
			}
			under, err := policiesForItems(policy)
			if err != nil {
				return err
			}
			if err := previewItems(&b, items, under, policy != "", args[1:]); err != nil {
				return err
			}
			_, err = fmt.Fprint(p.out, b.String())
			return err
		},
	}
	cmd.Flags().StringVar(&policy, "policy", "", "mark keys under this `policy`, an ID or the path of a file")
	return cmd
}

// loadItems reads a file of items, or one that comes with the program. Its
// complaints are printed; with a fault among them nothing is shown.
func (p *program) loadItems(about string) (*scenarios.Items, error) {
	src, file, err := content.ItemFile(about)
	if err != nil {
		if scenarios.IsName(about) {
			if _, missing := os.Stat(about); missing != nil {
				return nil, unreadable(err)
			}
		}
		file = about
		if src, err = session.ReadFile(about); err != nil {
			return nil, unreadable(err)
		}
	}
	items, complaints := scenarios.LoadItems(file, src)
	for _, c := range complaints {
		fmt.Fprintln(p.err, scenarios.Render(c, src))
	}
	if items == nil {
		return nil, unreadable(errors.New(file + " has faults"))
	}
	return items, nil
}

// policiesForItems are the policies that keys are shown under: the one that
// is named, or all that come with the program.
func policiesForItems(about string) ([]*scenarios.Policy, error) {
	if about != "" {
		one, err := session.PolicyNamed(about)
		if err != nil {
			return nil, unreadable(err)
		}
		return []*scenarios.Policy{one}, nil
	}
	all, err := session.Policies()
	return all, unreadable(err)
}

func listItems(b *strings.Builder) error {
	all, err := content.Items()
	if err != nil {
		return err
	}
	for _, f := range all {
		fmt.Fprintf(b, "%s\n", f.ID)
		writeFolded(b, "  ", f.Title)
		writeFolded(b, "  ", fmt.Sprintf("Unit %s. %s, %s, %s.", f.Unit,
			plural(len(f.Singles), "single best answer"), plural(len(f.Orders), "ordering"), plural(len(f.Concordances), "script concordance")))
	}
	return nil
}

// previewItems writes a file's items, or those that are named.
func previewItems(b *strings.Builder, f *scenarios.Items, under []*scenarios.Policy, chosen bool, wanted []string) error {
	var names []string
	show := func(h scenarios.ItemHead, kind string, body func()) {
		names = append(names, h.ID)
		if len(wanted) > 0 && !slices.Contains(wanted, h.ID) {
			return
		}
		critical := ""
		if h.Critical {
			critical = ", critical"
		}
		b.WriteString("\n")
		writeFolded(b, "", fmt.Sprintf("%s (%s, %s%s)", h.ID, kind, h.Level, critical))
		writeFolded(b, "  Objective: ", h.Objective)
		body()
		for i, v := range h.Views {
			if i == 0 {
				b.WriteString("\n  Where sources disagree\n")
			}
			writeFolded(b, "    - ", v.By+": "+v.Holds)
		}
		b.WriteString("\n  Sources\n")
		for _, s := range h.Sources {
			writeFolded(b, "    - ", s)
		}
	}
	writeFolded(b, "", fmt.Sprintf("%s (%s, unit %s)", f.Title, f.ID, f.Unit))
	if f.Note != "" {
		writeFolded(b, "", f.Note)
	}
	for _, s := range f.Singles {
		show(s.ItemHead, "single best answer", func() { previewSingle(b, &s, under, chosen) })
	}
	for _, o := range f.Orders {
		show(o.ItemHead, "ordering", func() {
			if chosen {
				o = *o.Under(under[0])
			}
			previewOrdering(b, &o)
		})
	}
	for _, c := range f.Concordances {
		show(c.ItemHead, "script concordance", func() { previewConcordance(b, &c) })
	}
	for _, w := range wanted {
		if !slices.Contains(names, w) {
			return missed("item", w, names, "without a name all of them are printed")
		}
	}
	return nil
}

func previewSingle(b *strings.Builder, s *scenarios.SingleBest, under []*scenarios.Policy, chosen bool) {
	b.WriteString("\n")
	writeFolded(b, "  ", s.Stem)
	writeFolded(b, "  ", s.LeadIn)
	if s.Decides != "" {
		writeFolded(b, "  ", "(the key follows the policy: "+s.Decides+")")
	}
	for i, o := range s.Options {
		var right []string
		for _, p := range under {
			if s.Key(p) == i {
				right = append(right, p.ID)
			}
		}
		mark := " "
		if o.Key || chosen && len(right) > 0 {
			mark = "*"
		}
		b.WriteString("\n")
		writeFolded(b, fmt.Sprintf("  %s %c  ", mark, 'A'+i), o.Says)
		if s.Decides != "" && !chosen && len(right) > 0 {
			writeFolded(b, "       ", "[right under "+strings.Join(right, ", ")+"]")
		}
		if s.Decides != "" && o.When != "" {
			writeFolded(b, "       ", "[right when "+s.Decides+": "+o.When+"]")
		}
		writeFolded(b, "       ", o.Because)
	}
}

func previewOrdering(b *strings.Builder, o *scenarios.Ordering) {
	b.WriteString("\n")
	writeFolded(b, "  ", o.Stem)
	writeFolded(b, "  ", o.LeadIn)
	b.WriteString("\n")
	place := map[string]int{}
	for i, s := range o.Steps {
		place[s.ID] = i + 1
		writeFolded(b, fmt.Sprintf("    %d  ", i+1), s.Says)
		if s.When != "" {
			writeFolded(b, "       ", "[only when "+o.Decides+": "+s.When+"]")
		}
	}
	var pairs []string
	for _, pair := range o.May {
		if place[pair[0]] == 0 || place[pair[1]] == 0 {
			continue // one of them does not belong under this policy
		}
		pairs = append(pairs, fmt.Sprintf("%d and %d", place[pair[0]], place[pair[1]]))
	}
	if len(pairs) > 0 {
		writeFolded(b, "  May swap: ", strings.Join(pairs, "; "))
	}
	b.WriteString("\n")
	writeFolded(b, "  ", o.Because)
}

func previewConcordance(b *strings.Builder, c *scenarios.Concordance) {
	b.WriteString("\n")
	writeFolded(b, "  ", c.Vignette)
	writeFolded(b, "  If you were thinking: ", c.Hypothesis)
	writeFolded(b, "  and then you learn: ", c.Information)
	writeFolded(b, "  ", "this makes it")
	b.WriteString("\n")
	for i, point := range scenarios.ConcordanceScale {
		writeFolded(b, "    - ", fmt.Sprintf("%s: %s, credit %s", point, plural(c.Votes[i], "vote"), quantity.Number(quantity.Round(c.Credit(i), 0.01))))
	}
	b.WriteString("\n")
	writeFolded(b, "  Panel: ", c.Panel)
	writeFolded(b, "  ", c.Because)
}

// completeItems offers the shipped files of items to the shell.
func completeItems(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return content.ItemNames(), cobra.ShellCompDirectiveDefault
}
