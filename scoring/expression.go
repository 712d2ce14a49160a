package scoring

import (
	"fmt"
	"reflect"

	"blanch/scenarios"

	"github.com/expr-lang/expr"
	"github.com/expr-lang/expr/ast"
	"github.com/expr-lang/expr/conf"
	"github.com/expr-lang/expr/vm"
)

// expression is one checked and compiled expression.
type expression struct {
	source  string
	program *vm.Program
	kind    reflect.Type
	uses    []Fact
	tree    ast.Node
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

// compile checks and compiles an expression of a case. Shift gives the place
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
	program, err := expr.Compile(text.Source, how...)
	if err != nil {
		v.syntax(err)
		return nil, v.faults
	}
	return &expression{source: text.Source, program: program, kind: kind, uses: v.uses, tree: tree}, nil
}

func asCondition(kind reflect.Type) string {
	switch kind {
	case momentKind, spanKind:
		return "a comparison, or .known after it to ask whether it ever came"
	}
	return "a comparison, such as <= with a limit"
}

// eval gives the value of the expression for a run. The run's evidence is
// left in r.
func (x *expression) eval(r *record) (any, error) {
	r.fill(x.uses)
	return r.vm.Run(x.program, &r.env)
}

// holds gives the truth of a condition. Evaluation cannot fail for what has
// been checked; should it fail all the same, the condition does not hold.
func (x *expression) holds(r *record) bool {
	value, err := x.eval(r)
	truth, ok := value.(bool)
	return err == nil && ok && truth
}
