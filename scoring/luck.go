package scoring

import (
	"slices"
	"strings"

	"blanch/scenarios"

	"github.com/expr-lang/expr/ast"
)

// chance are the facts that, without any other of the run, tell of luck and
// not of a decision: when a leak came to be visible, and against what.
var chance = []string{"visible", "start", "first_drug", "ended"}

// lucky complains about a mark that would go to luck: a condition, or one
// comparison in it, that holds visible(...) against nothing the learner did
// about it. What applies when is free to ask whether there was a leak.
func lucky(x *expression, text scenarios.Text) []scenarios.Complaint {
	for _, part := range append([]ast.Node{x.tree}, comparisons(x.tree)...) {
		finder := &usesOf{}
		node := part
		ast.Walk(&node, finder)
		seen, other := false, false
		for _, f := range finder.facts {
			seen = seen || f.Name == "visible"
			other = other || !f.fixed && !slices.Contains(chance, f.Name)
		}
		if !seen || other {
			continue
		}
		before := []rune(text.Source)[:leftmost(part).Location().From]
		line := 1 + strings.Count(string(before), "\n")
		column := len(before) - (lastIndex(before, '\n') + 1)
		return []scenarios.Complaint{{
			Level: scenarios.Error, Code: "mark-for-luck", Pos: text.At(line, column),
			Said:    "this marks when a leak came to be visible, which is luck and no decision",
			Allowed: `visible(...) as the beginning of a delay, such as found("leak") - visible("leak") <= policy.check_early, or in applies when`,
		}}
	}
	return nil
}

func lastIndex(runes []rune, r rune) int {
	for i, each := range slices.Backward(runes) {
		if each == r {
			return i
		}
	}
	return -1
}

// comparisons lists the comparisons that a condition is joined from.
func comparisons(n ast.Node) []ast.Node {
	switch n := n.(type) {
	case *ast.UnaryNode:
		return comparisons(n.Node)
	case *ast.BinaryNode:
		switch n.Operator {
		case "and", "or", "&&", "||":
			return append(comparisons(n.Left), comparisons(n.Right)...)
		}
		return []ast.Node{n}
	}
	return nil
}
