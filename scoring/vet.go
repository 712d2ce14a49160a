package scoring

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"blanch/scenarios"

	"github.com/expr-lang/expr/ast"
	"github.com/expr-lang/expr/file"
	"github.com/expr-lang/expr/parser"
)

// vetter holds one expression to the language: every name is a fact, every
// text argument is one of a closed set, and only like meets like. It collects
// every independent fault.
type vetter struct {
	c      *scenarios.Case
	policy *scenarios.Policy
	text   scenarios.Text
	shift  func(line, column int) scenarios.Pos // place of a character of the expression
	inText bool                                 // outcome facts may be shown
	faults []scenarios.Complaint
	uses   []Fact // facts read, once each
	seen   map[ast.Node]reflect.Type
}

func (v *vetter) complain(line, column int, c scenarios.Complaint) {
	c.Level = scenarios.Error
	c.Pos = v.shift(line, column)
	v.faults = append(v.faults, c)
}

// refuse complains about the character at the offset, in characters.
func (v *vetter) refuse(offset int, code, said, allowed string) {
	line, column := v.lineColumn(offset)
	v.complain(line, column, scenarios.Complaint{Code: code, Said: said, Allowed: allowed})
}

func (v *vetter) lineColumn(offset int) (line, column int) {
	at := file.Error{Location: file.Location{From: offset, To: offset}}
	at.Bind(file.NewSource(v.text.Source))
	return at.Line, at.Column
}

func (v *vetter) refuseNode(n ast.Node, code, said, allowed string) {
	v.refuse(n.Location().From, code, said, allowed)
}

// parse reads the expression and gives its kind, nil when it is at fault.
func (v *vetter) parse() (ast.Node, reflect.Type) {
	if !v.scan() {
		return nil, nil
	}
	tree, err := parser.ParseWithConfig(v.text.Source, limits())
	if err != nil {
		v.syntax(err)
		return nil, nil
	}
	kind := v.visit(tree.Node)
	if len(v.faults) > 0 {
		return nil, nil
	}
	return tree.Node, kind
}

// visit gives the kind of a node, nil when a fault has been reported in it.
// In a < b < c the library's reader uses b twice; it is visited once, so that
// chains inside chains cost no more than their length.
func (v *vetter) visit(n ast.Node) reflect.Type {
	kind, seen := v.seen[n]
	if !seen {
		kind = v.judge(n)
		if v.seen == nil {
			v.seen = map[ast.Node]reflect.Type{}
		}
		v.seen[n] = kind
	}
	return kind
}

func (v *vetter) judge(n ast.Node) reflect.Type {
	switch n := n.(type) {
	case *ast.IntegerNode:
		return v.number(n, float64(n.Value), intKind)
	case *ast.FloatNode:
		return v.number(n, n.Value, numberKind)
	case *ast.BoolNode:
		return boolKind
	case *ast.StringNode:
		v.refuseNode(n, "text-refused", fmt.Sprintf("%q stands by itself", n.Value), "text only as the argument of a fact, such as "+`did("feel")`)
		return nil
	case *ast.IdentifierNode, *ast.MemberNode:
		return v.name(n)
	case *ast.CallNode:
		return v.call(n)
	case *ast.BuiltinNode: // the library's own functions
		v.unknown(n, n.Name)
		return nil
	case *ast.UnaryNode:
		return v.unary(n)
	case *ast.BinaryNode:
		return v.binary(n)
	}
	v.refuseNode(n, "not-in-rules", "this is not used in rules", "facts, amounts, comparisons, and, or, not")
	return nil
}

func (v *vetter) number(n ast.Node, value float64, kind reflect.Type) reflect.Type {
	if value > largestNumber || value < -largestNumber {
		v.refuseNode(n, "number-too-large", "this number is too large", "at most 1000000")
		return nil
	}
	return kind
}

// call is a fact with its arguments.
func (v *vetter) call(n *ast.CallNode) reflect.Type {
	full, ok := path(n.Callee)
	f, known := factByName[full]
	switch {
	case !ok:
		v.refuseNode(n, "not-in-rules", "this cannot be asked", "a fact with its argument in round brackets")
		return nil
	case !known:
		v.unknown(n.Callee, full)
		return nil
	case leafKinds[full].Kind() != reflect.Func:
		v.refuseNode(first(n.Callee), "too-many-arguments", full+" takes no argument", f.Signature)
		return nil
	}
	shape := leafKinds[full]
	if len(n.Arguments) != shape.NumIn() {
		v.refuseNode(first(n.Callee), "wrong-arguments", fmt.Sprintf("%s has %d arguments", full, len(n.Arguments)), f.Signature)
		return nil
	}
	sound := v.use(n.Callee, f)
	sets := f.args
	for i, argument := range n.Arguments {
		if shape.In(i) == stringKind {
			sound = v.word(f, sets[0], argument) && sound
			sets = sets[1:]
			continue
		}
		kind := v.visit(argument)
		switch {
		case kind == nil:
			sound = false
		case kind != shape.In(i) && !(kind == intKind && shape.In(i) == numberKind):
			v.refuseNode(leftmost(argument), "wrong-kind", fmt.Sprintf("this is %s; %s wants %s", a(kind), full, a(shape.In(i))), f.Signature)
			sound = false
		}
	}
	if !sound {
		return nil
	}
	return shape.Out(0)
}

func (v *vetter) unary(n *ast.UnaryNode) reflect.Type {
	kind := v.visit(n.Node)
	if kind == nil {
		return nil
	}
	switch {
	case n.Operator == "-" && (kind == intKind || kind == numberKind):
		return kind
	case (n.Operator == "not" || n.Operator == "!") && kind == boolKind:
		return boolKind
	case n.Operator == "-" || n.Operator == "+":
		v.refuseNode(n, "wrong-kind", fmt.Sprintf("%s before %s means nothing", n.Operator, a(kind)), "a plain number after it")
	default:
		v.refuseNode(n, "wrong-kind", fmt.Sprintf("%s wants a condition, and this is %s", n.Operator, a(kind)), "a comparison, or .known of a moment")
	}
	return nil
}

func (v *vetter) binary(n *ast.BinaryNode) reflect.Type {
	left, right := v.visit(n.Left), v.visit(n.Right)
	if left == nil || right == nil {
		return nil
	}
	number := func(k reflect.Type) bool { return k == intKind || k == numberKind }
	switch op := n.Operator; op {
	case "and", "or", "&&", "||":
		for i, kind := range []reflect.Type{left, right} {
			if kind != boolKind {
				v.refuseNode(leftmost([]ast.Node{n.Left, n.Right}[i]), "wrong-kind", fmt.Sprintf("%s wants conditions on both sides, and this is %s", op, a(kind)), "a comparison, or .known of a moment")
				return nil
			}
		}
		return boolKind
	case "==", "!=":
		if left == right && (left == boolKind || left == intKind) {
			return boolKind
		}
		v.refuseNode(n, "equality-refused", fmt.Sprintf("%s between %s and %s: only counts can be equal for certain", op, a(left), a(right)), "<= or >=")
		return nil
	case "<", "<=", ">", ">=":
		if number(left) && number(right) {
			return boolKind
		}
	case "+", "-":
		if left == intKind && right == intKind {
			return intKind
		}
		if number(left) && number(right) {
			return numberKind
		}
	}
	if kind := operatorResult(n.Operator, left, right); kind != nil {
		return kind
	}
	v.refuseNode(n, "unlike-kinds", fmt.Sprintf("%s does not go between %s and %s", n.Operator, a(left), a(right)), wouldFit(n.Operator, left))
	return nil
}

// wouldFit says what could stand right of a kind.
func wouldFit(op string, left reflect.Type) string {
	var kinds []string
	for _, o := range operations {
		shape := reflect.TypeOf(o.shape).Elem()
		if o.symbol == op && shape.In(0) == left && !slices.Contains(kinds, a(shape.In(1))) {
			kinds = append(kinds, a(shape.In(1)))
		}
	}
	if len(kinds) == 0 {
		return "like with like: a span with a span, such as start - ordered <= minutes(15)"
	}
	return strings.Join(kinds, " or ") + " on the right, such as " + sample(left, op)
}

func sample(left reflect.Type, op string) string {
	if left == momentKind && op == "+" {
		return "start + minutes(15)"
	}
	for _, f := range facts {
		if kind := leafKinds[f.Name]; kind == left || kind.Kind() == reflect.Func && f.fixed && kind.Out(0) == left {
			return f.Example
		}
	}
	return "start - ordered <= minutes(15)"
}
