package main

import (
	"fmt"
	"strings"

	"blanch/cmd/blanch/internal/trial"
	"blanch/scenarios"
	"blanch/scoring"
	"blanch/sim"
)

// explainLoose looks for a field without its kind of file, a fact or an
// action without that word, and for the nearest meant name.
func explainLoose(about string) (string, error) {
	var found, names []string // found as it is asked for in full
	for _, kind := range scenarios.Kinds() {
		for _, e := range scenarios.Entries(kind) {
			full := kind + "." + e.Path
			if e.Path == about || e.Key == about {
				found = append(found, full)
			}
			names = append(names, full, e.Path)
		}
	}
	for _, f := range scoring.Facts() {
		if f.Name == about {
			found = append(found, "fact "+about)
		}
		names = append(names, f.Name)
	}
	for _, s := range sim.Actions() {
		if s.Name == about {
			found = append(found, "action "+about)
		}
		names = append(names, s.Name)
	}
	switch len(found) {
	case 0:
	case 1:
		return explain(found[0])
	default:
		return fmt.Sprintf("%q stands for several things:\n\n  blanch explain %s\n", about, strings.Join(found, "\n  blanch explain ")), nil
	}
	for _, c := range scenarios.Codes() {
		names = append(names, c.Name)
	}
	for _, c := range trial.Codes() {
		names = append(names, c.Name)
	}
	for _, role := range scoring.LineRoles() {
		names = append(names, role.Name)
	}
	return "", missed("code, field, fact or action", about, names, "explain alone lists what can be explained")
}

// explainVerdict explains a finding of "blanch try".
func explainVerdict(c trial.Code) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s (%s in the verdict of blanch try)\n\n", c.Name, c.Level)
	writeFolded(&b, "", c.Means)
	b.WriteString("\n")
	writeFolded(&b, "Why it matters: ", c.Why)
	b.WriteString("\n")
	writeFolded(&b, "What to do: ", c.Do)
	return b.String()
}

// explainRole says which line a role means, and which facts take one.
func explainRole(role scoring.Meaning) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s (role of a line)\n\n", role.Name)
	writeFolded(&b, "", role.Says)
	var takers []string
	for _, f := range scoring.Facts() {
		for _, a := range f.Arguments() {
			if len(a.Names) > 0 && a.Names[0] == scoring.LineRoles()[0] {
				takers = append(takers, f.Name)
			}
		}
	}
	b.WriteString("\n")
	writeFolded(&b, "Facts that take a role: ", strings.Join(takers, ", "))
	fmt.Fprintf(&b, "\n    first_on(\"feel\", %q).known\n", role.Name)
	return b.String()
}

// writeArguments lists what each argument can be.
func writeArguments(b *strings.Builder, arguments []scoring.Argument) {
	for _, a := range arguments {
		if a.Where != "" {
			b.WriteString("\n")
			writeFolded(b, a.StandsAs+", ", a.What+": "+a.Where+".")
			continue
		}
		fmt.Fprintf(b, "\n%s, a %s:\n\n", a.StandsAs, a.What)
		for _, n := range a.Names {
			writeFolded(b, fmt.Sprintf("  %-22s", `"`+n.Name+`"`), n.Says)
		}
	}
}
