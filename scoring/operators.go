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
}

var operations = func() []operation {
	all := []operation{
		{"-", new(func(Moment, Moment) Span), func(l, r any) any { return l.(Moment).since(r.(Moment)) }},
		{"+", new(func(Moment, Span) Moment), func(l, r any) any { return l.(Moment).plus(r.(Span)) }},
		{"-", new(func(Moment, Span) Moment), func(l, r any) any { return l.(Moment).minus(r.(Span)) }},
		{"+", new(func(Span, Span) Span), func(l, r any) any { return l.(Span).plus(r.(Span)) }},
		{"-", new(func(Span, Span) Span), func(l, r any) any { return l.(Span).minus(r.(Span)) }},
		{"*", new(func(Span, float64) Span), func(l, r any) any { return l.(Span).times(r.(float64)) }},
		{"*", new(func(Span, int) Span), func(l, r any) any { return l.(Span).times(float64(r.(int))) }},
	}
	for _, shape := range []any{
		new(func(Moment, Moment) bool), new(func(Span, Span) bool), new(func(Share, Share) bool),
		new(func(Dose, Dose) bool), new(func(Concentration, Concentration) bool),
		new(func(Pressure, Pressure) bool), new(func(Mass, Mass) bool),
		new(func(Volume, Volume) bool), new(func(Length, Length) bool),
	} {
		all = append(all,
			operation{"<", shape, func(l, r any) any { return less(l, r, false) }},
			operation{"<=", shape, func(l, r any) any { return less(l, r, true) }},
			operation{">", shape, func(l, r any) any { return more(l, r, false) }},
			operation{">=", shape, func(l, r any) any { return more(l, r, true) }},
		)
	}
	return all
}()

// less says left < right, or left <= right.
func less(left, right any, orEqual bool) bool {
	switch l := left.(type) {
	case Moment:
		r := right.(Moment)
		return sooner(l.Known, l.at, r.Known, r.at, orEqual)
	case Span:
		r := right.(Span)
		return sooner(l.Known, l.long, r.Known, r.long, orEqual)
	case amount:
		a, b := l.value(), right.(amount).value()
		return a < b || orEqual && a == b
	}
	return false
}

// more says left > right, or left >= right. For times it is the opposite of
// less; amounts that are not known fail both.
func more(left, right any, orEqual bool) bool {
	if l, ok := left.(amount); ok {
		a, b := l.value(), right.(amount).value()
		return a > b || orEqual && a == b
	}
	return !less(left, right, !orEqual)
}

// operatorResult is the kind that an operator gives for two kinds, nil when
// it is not for them.
func operatorResult(symbol string, left, right reflect.Type) reflect.Type {
	for _, o := range operations {
		shape := reflect.TypeOf(o.shape).Elem()
		if o.symbol == symbol && shape.In(0) == left && shape.In(1) == right {
			return shape.Out(0)
		}
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
