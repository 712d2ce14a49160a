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

var (
	boolKind   = reflect.TypeFor[bool]()
	intKind    = reflect.TypeFor[int]()
	numberKind = reflect.TypeFor[float64]()
	stringKind = reflect.TypeFor[string]()
	momentKind = reflect.TypeFor[Moment]()
	spanKind   = reflect.TypeFor[Span]()
)

// kindNames are the kinds in signatures and messages.
var kindNames = map[reflect.Type]string{
	boolKind: "yes or no", intKind: "count", numberKind: "number", stringKind: "name",
	momentKind: "moment", spanKind: "span",
	reflect.TypeFor[Share](): "share", reflect.TypeFor[Dose](): "dose",
	reflect.TypeFor[Concentration](): "concentration", reflect.TypeFor[Pressure](): "pressure",
	reflect.TypeFor[Mass](): "mass", reflect.TypeFor[Volume](): "volume",
	reflect.TypeFor[Length](): "length", reflect.TypeFor[Words](): "words",
}

// a names a kind with its article.
func a(kind reflect.Type) string {
	switch kind {
	case boolKind, reflect.TypeFor[Words]():
		return kindNames[kind]
	}
	return "a " + kindNames[kind]
}

// leafKinds is the kind of every leaf of the environment by its full name.
var leafKinds = func() map[string]reflect.Type {
	m := map[string]reflect.Type{}
	var walk func(t reflect.Type, prefix string)
	walk = func(t reflect.Type, prefix string) {
		for i := range t.NumField() {
			f := t.Field(i)
			name := f.Tag.Get("expr")
			switch {
			case f.Anonymous:
				walk(f.Type, prefix)
			case f.Type.Kind() == reflect.Struct && kindNames[f.Type] == "":
				walk(f.Type, prefix+name+".")
			default:
				m[prefix+name] = f.Type
			}
		}
	}
	walk(reflect.TypeFor[textEnvironment](), "")
	return m
}()

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
	return scenarios.Nearest(name, names)
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
