package scoring

import (
	"reflect"

	"blanch/scenarios"
	"blanch/sim"

	"github.com/expr-lang/expr/ast"
)

// mostAtoms bounds the conditions in one rule that are tried both ways.
const mostAtoms = 12

// constancy decides, where it can be decided before play, whether a
// condition is the same whatever the learner does: every comparison that
// reads something of the run may come out either way, all others have their
// value under this case and policy, and counts are never under zero. With
// anyPolicy, what the order and the policy say may come out either way too.
func constancy(x *expression, c *scenarios.Case, p *scenarios.Policy, anyPolicy bool) (value, decided bool) {
	d := &decider{record: &record{Result: &sim.Result{Case: &c.Case}, policy: p}, anyPolicy: anyPolicy}
	truth := d.read(x.tree)
	if len(d.atoms) > mostAtoms {
		return false, false
	}
	var met, missed bool
	for world := range 1 << len(d.atoms) {
		if truth(world) {
			met = true
		} else {
			missed = true
		}
	}
	return met, met != missed
}

// decider turns a condition into a function of its atoms: a world gives each
// atom one bit.
type decider struct {
	record    *record
	anyPolicy bool
	atoms     []string
}

func (d *decider) read(n ast.Node) func(world int) bool {
	switch n := n.(type) {
	case *ast.UnaryNode:
		inner := d.read(n.Node)
		return func(w int) bool { return !inner(w) }
	case *ast.BinaryNode:
		switch n.Operator {
		case "and", "&&":
			left, right := d.read(n.Left), d.read(n.Right)
			return func(w int) bool { return left(w) && right(w) }
		case "or", "||":
			left, right := d.read(n.Left), d.read(n.Right)
			return func(w int) bool { return left(w) || right(w) }
		}
	}
	if value, ok := d.value(n); ok {
		return func(int) bool { return value }
	}
	if binary, ok := n.(*ast.BinaryNode); ok {
		if value, ok := d.bounded(binary); ok {
			return func(int) bool { return value }
		}
	}
	name, negated := atom(n)
	bit := -1
	for i, known := range d.atoms {
		if known == name {
			bit = i
		}
	}
	if bit < 0 {
		bit = len(d.atoms)
		d.atoms = append(d.atoms, name)
	}
	return func(w int) bool { return (w>>bit&1 == 1) != negated }
}

// atom names a condition so that it and its plain opposite are one atom:
// for times and counts a > b is just not a <= b.
func atom(n ast.Node) (name string, negated bool) {
	binary, ok := n.(*ast.BinaryNode)
	if !ok {
		return n.String(), false
	}
	opposite := map[string]string{">": "<=", ">=": "<", "!=": "=="}[binary.Operator]
	if opposite == "" || isAmount(binary.Left) {
		return n.String(), false
	}
	return (&ast.BinaryNode{Operator: opposite, Left: binary.Left, Right: binary.Right}).String(), true
}

// isAmount says that a side may be an amount that is not known, which fails
// a comparison and its opposite alike.
func isAmount(n ast.Node) bool {
	kind := kindOf(n)
	return kind == nil || kind != intKind && kind != numberKind && kind != momentKind && kind != spanKind && kind != boolKind
}

func kindOf(n ast.Node) reflect.Type {
	v := vetter{c: &scenarios.Case{}, policy: &scenarios.Policy{}, inText: true, shift: func(int, int) scenarios.Pos { return scenarios.Pos{} }}
	switch n := n.(type) {
	case *ast.CallNode:
		if full, ok := path(n.Callee); ok && leafKinds[full] != nil && leafKinds[full].Kind() == reflect.Func {
			return leafKinds[full].Out(0)
		}
		return nil
	case *ast.BinaryNode:
		left, right := kindOf(n.Left), kindOf(n.Right)
		if left == intKind && right == intKind {
			return intKind
		}
		return operatorResult(n.Operator, left, right)
	}
	return v.visit(n)
}

// value is the truth of a condition that reads nothing of the run.
func (d *decider) value(n ast.Node) (value, ok bool) {
	finder := &usesOf{}
	ast.Walk(&n, finder)
	for _, f := range finder.facts {
		if !f.fixed || d.anyPolicy && f.Group != amountsGroup {
			return false, false
		}
	}
	x := &expression{tree: n, uses: finder.facts}
	return x.of(d.record).holds(), true
}

// bounded decides a comparison of a count with a whole number under zero, or
// of zero itself where no count can be less.
func (d *decider) bounded(n *ast.BinaryNode) (value, ok bool) {
	left, right, op := n.Left, n.Right, n.Operator
	if kindOf(left) != intKind || kindOf(right) != intKind {
		return false, false
	}
	if _, literal := whole(left); literal {
		left, right = right, left
		op = map[string]string{"<": ">", "<=": ">=", ">": "<", ">=": "<=", "==": "==", "!=": "!="}[op]
	}
	limit, literal := whole(right)
	if !literal || hasMinus(left) {
		return false, false
	}
	switch {
	case op == ">=" && limit <= 0, op == ">" && limit < 0, op == "!=" && limit < 0:
		return true, true
	case op == "<" && limit <= 0, op == "<=" && limit < 0, op == "==" && limit < 0:
		return false, true
	}
	return false, false
}

func whole(n ast.Node) (int, bool) {
	switch n := n.(type) {
	case *ast.IntegerNode:
		return n.Value, true
	case *ast.UnaryNode:
		v, ok := whole(n.Node)
		return -v, ok && n.Operator == "-"
	}
	return 0, false
}

func hasMinus(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.UnaryNode:
		return true
	case *ast.BinaryNode:
		return n.Operator == "-" || hasMinus(n.Left) || hasMinus(n.Right)
	}
	return false
}

// usesOf collects the facts of a part of an expression.
type usesOf struct{ facts []Fact }

// Visit sees every node of the part.
func (u *usesOf) Visit(n *ast.Node) {
	if full, ok := path(*n); ok {
		if f, known := factByName[full]; known {
			u.facts = append(u.facts, f)
		}
	}
}
