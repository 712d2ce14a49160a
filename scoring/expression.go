package scoring

import (
	"fmt"
	"reflect"

	"blanch/scenarios"

	"github.com/expr-lang/expr"
	"github.com/expr-lang/expr/ast"
	"github.com/expr-lang/expr/conf"
)

// expression is one checked expression.
type expression struct {
	source string
	kind   reflect.Type
	uses   []Fact
	tree   ast.Node
}

// options are how every expression is compiled. What the vetter lets pass is
// narrower still; here the library is told the same as far as it can be.
func options() []expr.Option {
	return append([]expr.Option{
		expr.Env(textEnvironment{}),
		expr.DisableAllBuiltins(),
		expr.DisableIfOperator(),
		expr.MaxNodes(mostNodes),
	}, operatorOptions()...)
}

// conditionOptions are how a condition is compiled.
func conditionOptions() []expr.Option {
	return append(options(), expr.AsBool(), expr.WarnOnAny())
}

// limits is the same for reading alone.
func limits() *conf.Config {
	config := conf.New(textEnvironment{})
	for _, option := range []expr.Option{expr.DisableAllBuiltins(), expr.DisableIfOperator(), expr.MaxNodes(mostNodes)} {
		option(config)
	}
	for name := range config.Disabled {
		delete(config.Builtins, name)
	}
	return config
}

// compile checks an expression of a case. Shift gives the place
// in the file of a character of the expression, by line from 1 and column
// from 0.
func compile(c *scenarios.Case, p *scenarios.Policy, text scenarios.Text, inText bool, shift func(line, column int) scenarios.Pos) (*expression, []scenarios.Complaint) {
	v := &vetter{c: c, policy: p, text: text, shift: shift, inText: inText}
	tree, kind := v.parse()
	if len(v.faults) > 0 {
		return nil, v.faults
	}
	if !inText && kind != boolKind {
		v.refuseNode(leftmost(tree), "not-a-condition", fmt.Sprintf("a rule asks for a condition, and this is %s", a(kind)), asCondition(kind))
		return nil, v.faults
	}
	how := options()
	if kind == boolKind {
		how = conditionOptions()
	}
	if _, err := expr.Compile(text.Source, how...); err != nil {
		v.syntax(err)
		return nil, v.faults
	}
	return &expression{source: text.Source, kind: kind, uses: v.uses, tree: tree}, nil
}

func asCondition(kind reflect.Type) string {
	switch kind {
	case momentKind, spanKind:
		return "a comparison, or .known after it to ask whether it ever came"
	}
	return "a comparison, such as <= with a limit"
}

// question is an expression put to one record.
type question struct {
	record *record
	uses   []Fact
	reader
}

// of puts the expression to a record, again and again as its run changes.
func (x *expression) of(r *record) *question {
	return &question{r, x.uses, newBinder(r).visit(x.tree)}
}

// answer is the value of the expression for the record's run. What it rests on
// is left in the record.
func (q *question) answer() any {
	q.record.fill(q.uses)
	return q.value()
}

// holds is the truth of a condition.
func (q *question) holds() bool {
	q.record.fill(q.uses)
	return q.read.(func() bool)()
}
