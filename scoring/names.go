package scoring

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"blanch/scenarios"

	"github.com/expr-lang/expr/ast"
)

// path is the full name that a chain of names and dots spells, false for
// anything else.
func path(n ast.Node) (string, bool) {
	switch n := n.(type) {
	case *ast.IdentifierNode:
		return n.Value, true
	case *ast.MemberNode:
		before, ok := path(n.Node)
		property, isName := n.Property.(*ast.StringNode)
		if !ok || !isName {
			return "", false
		}
		return before + "." + property.Value, true
	}
	return "", false
}

// name is a fact without arguments, or .known of something.
func (v *vetter) name(n ast.Node) reflect.Type {
	if full, ok := path(n); ok {
		if _, isFact := factByName[full]; isFact {
			return v.fact(n, full)
		}
		// start.known is a property of start; what has no such fact is a typo.
		if before, isKnown := strings.CutSuffix(full, ".known"); !isKnown || factByName[before].Name == "" {
			v.unknown(n, full)
			return nil
		}
	}
	member, ok := n.(*ast.MemberNode)
	if !ok {
		return nil
	}
	property, isName := member.Property.(*ast.StringNode)
	of := v.visit(member.Node)
	if of == nil {
		return nil
	}
	if !isName || property.Value != "known" || of != momentKind && of != spanKind {
		v.refuseNode(member.Property, "no-such-part", fmt.Sprintf("%s has no part of that name", a(of)), "known, of a moment or a span")
		return nil
	}
	// The library cannot take a part of what an operator of ours gives.
	if _, computed := member.Node.(*ast.BinaryNode); computed {
		v.refuseNode(member.Property, "known-of-result", "known is asked of a result", "known asked of each fact in it, such as start.known")
		return nil
	}
	return boolKind
}

// fact is the kind of a fact that is named without a call.
func (v *vetter) fact(n ast.Node, full string) reflect.Type {
	kind := leafKinds[full]
	f := factByName[full]
	if kind.Kind() == reflect.Func {
		v.refuseNode(first(n), "missing-argument", fmt.Sprintf("%s is asked with an argument", full), f.Example)
		return nil
	}
	if !v.use(n, f) {
		return nil
	}
	return kind
}

// use notes a fact as read. It is false when the fact cannot be read here.
func (v *vetter) use(n ast.Node, f Fact) bool {
	if f.TextOnly && !v.inText {
		v.refuseNode(first(n), "outcome-in-rule", fmt.Sprintf("%s cannot earn or lose a mark: it is luck as much as care", f.Name), "what was shown, done and chosen; texts may show the outcome")
		return false
	}
	if !slices.ContainsFunc(v.uses, func(u Fact) bool { return u.Name == f.Name }) {
		v.uses = append(v.uses, f)
	}
	if wanted, written := baseOf[f.Name]; written && inUnits(v.c.Order.Drug) != (wanted == "units") {
		v.refuseNode(first(n), "wrong-unit", fmt.Sprintf("%s is not a measure of %s, which is ordered", f.Name, v.c.Order.Drug), otherBase[f.Name])
		return false
	}
	missing := f.Name == "policy.most_dose" && v.policy.MostMcgMin[v.c.Order.Drug] <= 0 ||
		f.Name == "policy.most_concentration" && v.policy.MostMcgML[v.c.Order.Drug] <= 0
	if missing {
		v.refuseNode(first(n), "no-such-limit", fmt.Sprintf("the policy %q sets no %s for %s", v.policy.ID, strings.TrimPrefix(f.Name, "policy."), v.c.Order.Drug), "a limit that the policy sets, or an amount written out")
		return false
	}
	return true
}

// first is the leftmost node of a chain of names.
func first(n ast.Node) ast.Node {
	for {
		member, ok := n.(*ast.MemberNode)
		if !ok {
			return n
		}
		n = member.Node
	}
}

func (v *vetter) unknown(n ast.Node, full string) {
	line, column := v.lineColumn(first(n).Location().From)
	full = strings.TrimSuffix(full, ".known")
	c := scenarios.Complaint{Code: "unknown-fact", Said: fmt.Sprintf("there is no fact called %q", full), Meant: nearestFact(full)}
	if group, _, dotted := strings.Cut(full, "."); dotted {
		var parts []string
		for _, f := range facts {
			if part, ok := strings.CutPrefix(f.Name, group+"."); ok {
				parts = append(parts, part)
			}
		}
		if len(parts) > 0 {
			c.Allowed = "one of " + strings.Join(parts, ", ") + " of " + group
		}
	}
	if c.Allowed == "" {
		c.Allowed = "a fact of the reference, such as start, first(\"feel\") or policy.check_early"
	}
	v.complain(line, column, c)
}

func nearestFact(name string) string {
	names := make([]string, len(facts))
	for i, f := range facts {
		names[i] = f.Name
	}
	if near := scenarios.Nearest(name, names); near != "" {
		return near
	}
	// The right part of the wrong thing: line.gauge for first_line.gauge.
	if _, part, dotted := strings.Cut(name, "."); dotted {
		for _, n := range names {
			if strings.HasSuffix(n, "."+part) {
				return n
			}
		}
	}
	return ""
}

// word checks a text argument against its closed set.
func (v *vetter) word(f Fact, s set, argument ast.Node) bool {
	text, ok := argument.(*ast.StringNode)
	names := s.names(v.c)
	if !ok {
		v.refuseNode(leftmost(argument), "not-a-name", fmt.Sprintf("%s wants the name of %s in double quotes", f.Name, withArticle(s.what())), f.Signature)
		return false
	}
	if slices.Contains(names, text.Value) {
		return true
	}
	line, column := v.lineColumn(text.Location().From)
	allowed := "one of: " + strings.Join(names, ", ")
	if len(names) == 0 {
		allowed = "nothing: the case has none"
	}
	v.complain(line, column, scenarios.Complaint{
		Code: "unknown-name", Said: fmt.Sprintf("there is no %s called %q", s.what(), text.Value),
		Allowed: allowed, Meant: scenarios.Nearest(text.Value, names),
	})
	return false
}

func withArticle(noun string) string {
	if strings.ContainsRune("aeiou", rune(noun[0])) {
		return "an " + noun
	}
	return "a " + noun
}

// leftmost is the node whose place is where an expression begins.
func leftmost(n ast.Node) ast.Node {
	switch n := n.(type) {
	case *ast.BinaryNode:
		return leftmost(n.Left)
	case *ast.CallNode:
		return leftmost(n.Callee)
	}
	return first(n)
}

// baseOf is the base unit of an amount of drug that is written out, and
// otherBase what to write instead for a drug of the other one.
var (
	baseOf    = map[string]string{"mcg_per_min": "mcg", "mcg_per_mL": "mcg", "units_per_min": "units", "units_per_mL": "units"}
	otherBase = map[string]string{"mcg_per_min": "units_per_min", "mcg_per_mL": "units_per_mL", "units_per_min": "mcg_per_min", "units_per_mL": "mcg_per_mL"}
)
