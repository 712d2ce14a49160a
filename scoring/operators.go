package scoring

import (
	"fmt"
	"reflect"
	"slices"

	"github.com/expr-lang/expr"
)

// operation is what one operator does with two kinds of value. The table of
// operations is the whole algebra of rules: what is not in it is refused,
// with plain numbers and booleans left to the expression library.
type operation struct {
	symbol string
	shape  any // new(func(left, right) result)
	do     func(left, right any) any
	join   func(left, right reader) reader
}

func operationOf[L, R, T any](symbol string, do func(L, R) T) operation {
	return operation{
		symbol: symbol,
		shape:  new(func(L, R) T),
		do:     func(left, right any) any { return do(left.(L), right.(R)) },
		join: func(left, right reader) reader {
			l, r := as[L](left), as[R](right)
			return readerOf(func() T { return do(l(), r()) })
		},
	}
}

var operations = slices.Concat(
	[]operation{
		operationOf("-", Moment.since),
		operationOf("+", Moment.plus),
		operationOf("-", Moment.minus),
		operationOf("+", Span.plus),
		operationOf("-", Span.minus),
		operationOf("*", Span.times),
		operationOf("*", func(s Span, n int) Span { return s.times(float64(n)) }),
	},
	comparisonsOf(Moment.before, true), comparisonsOf(Span.shorter, true),
	comparisonsOf(smaller[Share], false), comparisonsOf(smaller[Dose], false),
	comparisonsOf(smaller[Concentration], false), comparisonsOf(smaller[Pressure], false),
	comparisonsOf(smaller[Mass], false), comparisonsOf(smaller[Volume], false),
	comparisonsOf(smaller[Length], false),
)

// comparisonsOf are the four comparisons of a kind from less, which says left <
// right, or left <= right. Of times one of two opposites always holds; amounts
// that are not known fail both.
func comparisonsOf[T any](less func(left, right T, orEqual bool) bool, opposites bool) []operation {
	more := func(left, right T, orEqual bool) bool {
		if opposites {
			return !less(left, right, !orEqual)
		}
		return less(right, left, orEqual)
	}
	return []operation{
		operationOf("<", func(l, r T) bool { return less(l, r, false) }),
		operationOf("<=", func(l, r T) bool { return less(l, r, true) }),
		operationOf(">", func(l, r T) bool { return more(l, r, false) }),
		operationOf(">=", func(l, r T) bool { return more(l, r, true) }),
	}
}

// operationFor is the operation of an operator between two kinds.
func operationFor(symbol string, left, right reflect.Type) *operation {
	for i := range operations {
		o := &operations[i]
		shape := reflect.TypeOf(o.shape).Elem()
		if o.symbol == symbol && shape.In(0) == left && shape.In(1) == right {
			return o
		}
	}
	return nil
}

// operatorResult is the kind that an operator gives for two kinds, nil when
// it is not for them.
func operatorResult(symbol string, left, right reflect.Type) reflect.Type {
	if o := operationFor(symbol, left, right); o != nil {
		return reflect.TypeOf(o.shape).Elem().Out(0)
	}
	return nil
}

// operatorOptions teaches the expression library the table. The names of
// the functions hold a space, so that no rule can call them.
func operatorOptions() []expr.Option {
	var options []expr.Option
	for _, symbol := range []string{"+", "-", "*", "<", "<=", ">", ">="} {
		name := "operator " + symbol
		type sides struct{ left, right reflect.Type }
		var joined []sides
		var how []func(left, right any) any
		var shapes []any
		for _, o := range operations {
			if o.symbol == symbol {
				shape := reflect.TypeOf(o.shape).Elem()
				joined = append(joined, sides{shape.In(0), shape.In(1)})
				how = append(how, o.do)
				shapes = append(shapes, o.shape)
			}
		}
		do := func(params ...any) (any, error) {
			if i := slices.Index(joined, sides{reflect.TypeOf(params[0]), reflect.TypeOf(params[1])}); i >= 0 {
				return how[i](params[0], params[1]), nil
			}
			return nil, fmt.Errorf("%s does not join %T and %T", symbol, params[0], params[1])
		}
		options = append(options, expr.Function(name, do, shapes...), expr.Operator(symbol, name))
	}
	return options
}
