package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"blanch/cmd/blanch/internal/fold"
	"blanch/cmd/blanch/internal/trial"
	"blanch/scenarios"
	"blanch/scoring"
	"blanch/sim"
)

func (p *program) explainCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "explain [CODE | FIELD.PATH | fact NAME | action NAME | ROLE OF A LINE]",
		Short: "Explain a code, a field, a fact, an action or the role of a line",
		Long: `Explains, without a network:

  blanch explain out-of-range          a complaint code, with an example and its mended form
  blanch explain never-taken           a code of "blanch try": what it means, and what to do about it
  blanch explain case.patient.weight   a field, or a group of fields: case, place.pumps, policy.check early
  blanch explain fact visible          what a rule can read; fact alone lists every one
  blanch explain action feel           what a learner can do; action alone lists every one
  blanch explain second line           which line a rule means by it

The words fact and action can be left out where nothing else has that name. Alone it lists the codes and where the rest is found.`,
		RunE: func(_ *cobra.Command, args []string) error {
			text, err := explain(strings.Join(args, " "))
			if err != nil {
				return err
			}
			_, err = fmt.Fprint(p.out, text)
			return err
		},
		ValidArgsFunction: completeExplain,
	}
}

// explain gives the explanation of what was asked about.
func explain(about string) (string, error) {
	about = strings.TrimSpace(about)
	first, rest, _ := strings.Cut(about, " ")
	switch {
	case about == "":
		return explainAll(), nil
	case first == "fact" || first == "facts":
		return explainFact(strings.TrimSpace(rest))
	case first == "action" || first == "actions":
		return explainAction(strings.TrimSpace(rest))
	}
	if code, ok := scenarios.CodeNamed(about); ok {
		return explainCode(code), nil
	}
	if code, ok := trial.CodeNamed(about); ok {
		return explainVerdict(code), nil
	}
	for _, role := range scoring.LineRoles() {
		if role.Name == about {
			return explainRole(role), nil
		}
	}
	kind, path, _ := strings.Cut(about, ".")
	if slices.Contains(scenarios.Kinds(), kind) {
		return explainField(kind, path)
	}
	return explainLoose(about)
}

func missed(what, about string, names []string, list string) error {
	if near := scenarios.Nearest(about, names); near != "" {
		return misused("there is no %s %q: did you mean %q?", what, about, near)
	}
	return misused("there is no %s %q; %s", what, about, list)
}

func explainAll() string {
	var b strings.Builder
	b.WriteString("Complaint codes (blanch explain CODE):\n\n")
	for _, c := range scenarios.Codes() {
		fmt.Fprintf(&b, "  %-24s%s\n", c.Name, c.Level)
	}
	b.WriteString("\nCodes of the verdict of blanch try:\n\n")
	for _, c := range trial.Codes() {
		fmt.Fprintf(&b, "  %-28s%s\n", c.Name, c.Level)
	}
	b.WriteString("\nRoles of a line in rules:\n\n")
	for _, role := range scoring.LineRoles() {
		fmt.Fprintf(&b, "  %s\n", role.Name)
	}
	b.WriteString("\nFields (blanch explain case, blanch explain case.patient):\n\n")
	for _, kind := range scenarios.Kinds() {
		keys := make([]string, 0, 30)
		for _, e := range scenarios.Under(kind, "") {
			keys = append(keys, e.Key)
		}
		writeFolded(&b, "  "+kind+": ", strings.Join(keys, ", "))
	}
	fmt.Fprintf(&b, "\n%d facts that rules can read:      blanch explain fact\n", len(scoring.Facts()))
	fmt.Fprintf(&b, "%d actions that a learner can do:  blanch explain action\n", len(sim.Actions()))
	return b.String()
}

func explainCode(c scenarios.Code) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s (%s)\n\n", c.Name, c.Level)
	writeFolded(&b, "", c.Means)
	example := func(title, text string) {
		if c.Whole {
			title += ", the whole file"
		}
		fmt.Fprintf(&b, "\n%s:\n", title)
		if text == "" {
			b.WriteString("    (nothing in its place)\n")
			return
		}
		for _, l := range strings.Split(strings.Trim(text, "\n"), "\n") {
			b.WriteString(strings.TrimRight("    "+l, " ") + "\n")
		}
	}
	example("In a "+scenarios.Called(c.In)+" this fails", c.Fails)
	example("This does not", c.Mended)
	return b.String()
}

// explainField explains a field, and lists what stands below a group.
func explainField(kind, path string) (string, error) {
	var b strings.Builder
	if path == "" {
		fmt.Fprintf(&b, "A %s begins with format: 1 and %s: and its name. Its fields:\n\n", scenarios.Called(kind), kind)
		writeFields(&b, scenarios.Under(kind, ""))
		return b.String(), nil
	}
	e, ok := scenarios.FieldAt(kind, path)
	if !ok {
		var names []string
		for _, each := range scenarios.Entries(kind) {
			names = append(names, each.Path, strings.ReplaceAll(each.Path, ".NAME", ""))
		}
		err := missed("field of a "+scenarios.Called(kind), path, names, "blanch explain "+kind+" lists its fields")
		return "", err
	}
	fmt.Fprintf(&b, "%s.%s (%s)\n\n", kind, e.Path, neededOrNot(e.Field))
	writeFolded(&b, "", e.Doc)
	writeFolded(&b, "Wanted: ", e.Value.Says+".")
	choices := e.Value.Choices
	if e.Value.Kind == "list" {
		choices = e.Value.Each.Choices
	}
	if len(choices) > 0 {
		writeFolded(&b, "One of: ", strings.Join(choices, ", "))
	}
	fmt.Fprintf(&b, "\n    %s: %s\n", e.Key, e.Example)
	if below := scenarios.Under(kind, e.Path); len(below) > 0 {
		b.WriteString("\nBelow it:\n\n")
		writeFields(&b, below)
	}
	return b.String(), nil
}

func neededOrNot(f scenarios.Field) string {
	if f.Needed {
		return "needed"
	}
	return "may be left out"
}

func writeFields(b *strings.Builder, entries []scenarios.Entry) {
	for _, e := range entries {
		mark := " "
		if e.Needed {
			mark = "*"
		}
		lead := fmt.Sprintf("%s %-22s", mark, e.Key)
		if len(lead) > 24 {
			b.WriteString(lead + "\n")
			lead = strings.Repeat(" ", 24)
		}
		writeFolded(b, lead, e.Doc)
	}
	b.WriteString("\n* needed\n")
}

func explainFact(name string) (string, error) {
	var b strings.Builder
	facts := scoring.Facts()
	if name == "" {
		group := ""
		for _, f := range facts {
			if f.Group != group {
				group = f.Group
				fmt.Fprintf(&b, "\n%s\n", group)
			}
			fmt.Fprintf(&b, "  %s\n", f.Signature)
		}
		return strings.TrimPrefix(b.String(), "\n"), nil
	}
	var names []string
	for _, f := range facts {
		names = append(names, f.Name)
		if f.Name != name {
			continue
		}
		fmt.Fprintf(&b, "%s (%s)\n\n", f.Signature, f.Group)
		writeFolded(&b, "", f.Says)
		if f.TextOnly {
			b.WriteString("For texts only: it is luck as much as care, so no rule can read it.\n")
		}
		fmt.Fprintf(&b, "\n    %s\n", f.Example)
		writeArguments(&b, f.Arguments())
		return b.String(), nil
	}
	return "", missed("fact", name, names, "blanch explain fact lists every one")
}

func explainAction(name string) (string, error) {
	var b strings.Builder
	var names []string
	for _, s := range sim.Actions() {
		names = append(names, s.Name)
		if name == "" {
			fmt.Fprintf(&b, "%-20s%s\n", s.Name, s.Example())
		}
		if s.Name != name {
			continue
		}
		fmt.Fprintf(&b, "%s\n\n    %s\n\n", s.Name, s.Example())
		writeFolded(&b, "", s.Does+".")
		writeFolded(&b, "Takes ", s.Duration()+".")
		if s.Impossible != "" {
			writeFolded(&b, "Impossible when ", s.Impossible+".")
		}
		for _, h := range s.Holes() {
			says := h.Says
			if len(h.Choices) > 3 {
				says += ": " + strings.Join(h.Choices, ", ")
			}
			writeFolded(&b, "  "+h.Example+": ", says)
		}
		fmt.Fprintf(&b, "\nIn a rule:\n\n    did(%q)\n", s.Name)
		return b.String(), nil
	}
	if name == "" {
		return b.String(), nil
	}
	return "", missed("action", name, names, "blanch actions WORD lists those that a word is about")
}

// writeFolded writes text behind a lead, folded to 80 columns; later rows
// stand under the text.
func writeFolded(b *strings.Builder, lead, text string) {
	const width, widest = 80, 24
	hang := fold.Under(lead)
	if len(hang) > widest {
		hang = "    "
	}
	b.WriteString(strings.TrimRight(strings.Join(fold.Rows(lead, hang, text, width), "\n"), " ") + "\n")
}

// completeExplain offers what can be explained to the shell.
func completeExplain(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	var out []string
	switch {
	case len(args) == 0:
		out = append(out, "fact", "action")
		for _, c := range scenarios.Codes() {
			out = append(out, c.Name)
		}
		for _, c := range trial.Codes() {
			out = append(out, c.Name)
		}
		for _, kind := range scenarios.Kinds() {
			out = append(out, kind)
			for _, e := range scenarios.Entries(kind) {
				out = append(out, kind+"."+e.Path)
			}
		}
	case args[0] == "fact":
		for _, f := range scoring.Facts() {
			out = append(out, f.Name)
		}
	case args[0] == "action":
		for _, s := range sim.Actions() {
			out = append(out, s.Name)
		}
	}
	return out, cobra.ShellCompDirectiveNoFileComp
}
