package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"blanch/cmd/blanch/internal/session"
	"blanch/content"
	"blanch/scenarios"
)

func (p *program) policiesCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "policies",
		Short: "List the policies that come with the program",
		Args:  cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			all, err := session.Policies()
			if err != nil {
				return unreadable(err)
			}
			var b strings.Builder
			for _, one := range all {
				said := map[string]string{}
				for _, l := range one.Limits() {
					said[l.Key] = l.Says
				}
				b.WriteString(one.ID + "\n")
				writeFolded(&b, "  ", one.Title)
				every := func(key string) string { return strings.TrimPrefix(said[key], "at least ") }
				writeFolded(&b, "  ", fmt.Sprintf("Longest run: %s. Sites: %s. Checks %s at first, later %s.",
					said["longest run"], said["sites"], every("check early"), every("check later")))
			}
			_, err = fmt.Fprint(p.out, b.String())
			return err
		},
	}
}

func (p *program) policyCommand() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "policy",
		Short: "Compare policies",
		Args:  cobra.NoArgs,
		RunE:  func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	cmd.AddCommand(p.policyDiffCommand())
	return cmd
}

func (p *program) policyDiffCommand() *cobra.Command {
	asJSON := false
	cmd := &cobra.Command{
		Use:   "diff A B",
		Short: "Say in words what two policies differ on",
		Long: `Prints each limit on which two policies differ, with what both say and where both take it from, then
the limits on which they agree, then the walk-throughs of the shipped cases that come out otherwise.
A and B are IDs of shipped policies or paths of files. It ends with 0 whether they differ or not.`,
		Args:              cobra.ExactArgs(2),
		ValidArgsFunction: completePolicies,
		RunE: func(_ *cobra.Command, args []string) error {
			d, err := comparePolicies(args[0], args[1])
			if err != nil {
				return unreadable(err)
			}
			if asJSON {
				return p.policyDiffAsJSON(d)
			}
			_, err = fmt.Fprint(p.out, d.text())
			return err
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "one JSON document instead of text")
	return cmd
}

// policyDiff is two policies held against each other.
type policyDiff struct {
	a, b     *scenarios.Policy
	names    [2]string // what to call them: their IDs, or as they were named where these are the same
	differ   []session.Difference
	same     []string
	walks    []session.WalkDiffers
	played   int
	unmarked []string
}

func comparePolicies(a, b string) (d policyDiff, err error) {
	if d.a, err = session.PolicyNamed(a); err != nil {
		return d, err
	}
	if d.b, err = session.PolicyNamed(b); err != nil {
		return d, err
	}
	d.names = [2]string{d.a.ID, d.b.ID}
	if d.a.ID == d.b.ID {
		d.names = [2]string{a, b}
	}
	d.differ, d.same = session.Compare(d.a, d.b)
	d.walks, d.played, d.unmarked, err = session.CompareWalks(d.a, d.b)
	return d, err
}

// widestName is how wide a name may be to stand before what it says.
const widestName = 18

// behind writes text behind a name, or under it where the name is too long.
func (d policyDiff) behind(b *strings.Builder, name, text string) {
	wide := max(len([]rune(d.names[0])), len([]rune(d.names[1])))
	if wide > widestName {
		if name != "" {
			b.WriteString("  " + name + "\n")
		}
		writeFolded(b, "    ", text)
		return
	}
	writeFolded(b, fmt.Sprintf("  %-*s  ", wide, name), text)
}

func (d policyDiff) text() string {
	var b strings.Builder
	d.behind(&b, d.names[0], d.a.Title)
	d.behind(&b, d.names[1], d.b.Title)
	switch n := len(d.differ); n {
	case 0:
		b.WriteString("\nThey say the same on every limit.\n")
	default:
		fmt.Fprintf(&b, "\nThey differ on %s of %d.\n", plural(n, "limit"), n+len(d.same))
	}
	for _, one := range d.differ {
		b.WriteString("\n" + one.A.Key + "\n")
		for i, l := range []scenarios.Limit{one.A, one.B} {
			d.behind(&b, d.names[i], l.Says)
			if why := strings.Join(strings.Fields(l.Because), " "); why != "" {
				d.behind(&b, "", "Why: "+why)
			}
		}
	}
	var same, unsaid []string
	for _, l := range d.a.Limits() {
		switch {
		case !slices.Contains(d.same, l.Key):
		case l.Says == scenarios.Unsaid:
			unsaid = append(unsaid, l.Key)
		default:
			same = append(same, l.Key)
		}
	}
	b.WriteString("\n")
	if len(d.differ) > 0 && len(same) > 0 {
		writeFolded(&b, "The same in both: ", strings.Join(same, ", ")+".")
	}
	if len(unsaid) > 0 {
		writeFolded(&b, "Neither says: ", strings.Join(unsaid, ", ")+".")
	}
	b.WriteString("\nWalk-throughs of the shipped cases\n")
	switch {
	case d.played > 0 && len(d.walks) == 0:
		writeFolded(&b, "  ", fmt.Sprintf("All %d come out the same under both.", d.played))
	case d.played > 0:
		writeFolded(&b, "  ", fmt.Sprintf("%d of %d come out otherwise. The arm is the same; what is asked of it differs.", len(d.walks), d.played))
	}
	for _, w := range d.walks {
		fmt.Fprintf(&b, "\n  %s, %s\n", w.Case, w.Walk)
		writeChanges(&b, "    ", w.Changes.Words(d.names[0], d.names[1]))
	}
	for _, u := range d.unmarked {
		b.WriteString("\n  Its rules want a limit that one of them does not set, so it is not marked:\n  " + u + "\n")
	}
	return b.String()
}

// writeChanges writes how the marks of a run change, each behind a dash.
func writeChanges(b *strings.Builder, lead string, lines []session.Line) {
	for _, l := range lines {
		if rest, dash := strings.CutPrefix(l.Text, "- "); dash {
			writeFolded(b, lead+"- ", rest)
		} else if rest, under := strings.CutPrefix(l.Text, "    "); under {
			writeFolded(b, lead+"  ", rest)
		} else {
			writeFolded(b, lead, l.Text)
		}
	}
}

func (p *program) policyDiffAsJSON(d policyDiff) error {
	type limit struct {
		Says    string `json:"says"`
		Because string `json:"because"`
	}
	type difference struct {
		Limit string `json:"limit"`
		A     limit  `json:"a"`
		B     limit  `json:"b"`
	}
	type policy struct {
		ID    string `json:"id"`
		Title string `json:"title"`
		File  string `json:"file"`
	}
	type mark struct {
		Rule string `json:"rule"`
		A    string `json:"a"`
		B    string `json:"b"`
	}
	type walk struct {
		Case   string `json:"case"`
		Walk   string `json:"walk_through"`
		Passed struct {
			A bool `json:"a"`
			B bool `json:"b"`
		} `json:"passed"`
		Marks []mark `json:"marks"`
	}
	out := struct {
		A        policy       `json:"a"`
		B        policy       `json:"b"`
		Differ   []difference `json:"differ"`
		Same     []string     `json:"same"`
		Walks    []walk       `json:"walk_throughs"`
		Played   int          `json:"walk_throughs_played"`
		Unmarked []string     `json:"cases_not_marked"`
	}{
		A: policy{d.a.ID, d.a.Title, d.a.File}, B: policy{d.b.ID, d.b.Title, d.b.File},
		Differ: []difference{}, Same: append([]string{}, d.same...), Walks: []walk{}, Played: d.played, Unmarked: append([]string{}, d.unmarked...),
	}
	for _, one := range d.differ {
		out.Differ = append(out.Differ, difference{one.A.Key, limit{one.A.Says, one.A.Because}, limit{one.B.Says, one.B.Because}})
	}
	for _, w := range d.walks {
		one := walk{Case: w.Case, Walk: w.Walk, Marks: []mark{}}
		one.Passed.A, one.Passed.B = w.Changes.Passed[0], w.Changes.Passed[1]
		for _, m := range w.Changes.Marks {
			one.Marks = append(one.Marks, mark{m.Rule, m.Verdict[0], m.Verdict[1]})
		}
		out.Walks = append(out.Walks, one)
	}
	return p.encode(out)
}

// completePolicies offers the IDs of the policies to the shell.
func completePolicies(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 1 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return content.Policies(), cobra.ShellCompDirectiveDefault
}
