package scoring

import (
	"fmt"

	"github.com/expr-lang/expr/ast"
)

func stored[T any](at *T, cite func()) reader {
	return readerOf(func() T { cite(); return *at })
}

// leafReader reads a fact without arguments from where the record keeps it, and
// cites it.
func leafReader(at any, cite func()) reader {
	switch at := at.(type) {
	case *bool:
		return stored(at, cite)
	case *int:
		return stored(at, cite)
	case *float64:
		return stored(at, cite)
	case *Moment:
		return stored(at, cite)
	case *Span:
		return stored(at, cite)
	case *Share:
		return stored(at, cite)
	case *Dose:
		return stored(at, cite)
	case *Concentration:
		return stored(at, cite)
	case *Pressure:
		return stored(at, cite)
	case *Mass:
		return stored(at, cite)
	case *Volume:
		return stored(at, cite)
	case *Length:
		return stored(at, cite)
	case *Words:
		return stored(at, cite)
	}
	panic(fmt.Sprintf("facts of kind %T have no reader", at))
}

// call is the reader of a fact with its arguments.
func (b *binder) call(n *ast.CallNode) reader {
	full, _ := path(n.Callee)
	var args []reader
	for _, argument := range n.Arguments {
		args = append(args, b.visit(argument))
	}
	switch ask := b.leaf(full).(type) {
	case *func(string) bool:
		return ask1(ask, as[string](args[0]))
	case *func(string) int:
		return ask1(ask, as[string](args[0]))
	case *func(string) Moment:
		return ask1(ask, as[string](args[0]))
	case *func(Span) Words:
		return ask1(ask, as[Span](args[0]))
	case *func(string) Share:
		return ask1(ask, as[string](args[0]))
	case *func(string) Words:
		return ask1(ask, as[string](args[0]))
	case *func(Pressure) Span:
		return ask1(ask, as[Pressure](args[0]))
	case *func(string, string) bool:
		return ask2(ask, as[string](args[0]), as[string](args[1]))
	case *func(string, string) int:
		return ask2(ask, as[string](args[0]), as[string](args[1]))
	case *func(string, string) Moment:
		return ask2(ask, as[string](args[0]), as[string](args[1]))
	case *func(string, Moment) Moment:
		return ask2(ask, as[string](args[0]), as[Moment](args[1]))
	case *func(string, Span) int:
		return ask2(ask, as[string](args[0]), as[Span](args[1]))
	case *func(Moment, Moment) bool:
		return ask2(ask, as[Moment](args[0]), as[Moment](args[1]))
	case *func(Moment, Moment) Moment:
		return ask2(ask, as[Moment](args[0]), as[Moment](args[1]))
	case *func(Moment, Moment) Span:
		return ask2(ask, as[Moment](args[0]), as[Moment](args[1]))
	case *func(string, string, Moment) bool:
		role, name, from := as[string](args[0]), as[string](args[1]), as[Moment](args[2])
		return readerOf(func() bool { return (*ask)(role(), name(), from()) })
	case *func(string, string, Moment) Moment:
		act, role, from := as[string](args[0]), as[string](args[1]), as[Moment](args[2])
		return readerOf(func() Moment { return (*ask)(act(), role(), from()) })
	case *func(string, Moment, Moment) Span:
		name, from, to := as[string](args[0]), as[Moment](args[1]), as[Moment](args[2])
		return readerOf(func() Span { return (*ask)(name(), from(), to()) })
	case *func(float64) Span:
		return ask1(ask, number(args[0]))
	case *func(float64) Share:
		return ask1(ask, number(args[0]))
	case *func(float64) Dose:
		return ask1(ask, number(args[0]))
	case *func(float64) Concentration:
		return ask1(ask, number(args[0]))
	case *func(float64) Pressure:
		return ask1(ask, number(args[0]))
	case *func(float64) Mass:
		return ask1(ask, number(args[0]))
	case *func(float64) Volume:
		return ask1(ask, number(args[0]))
	case *func(float64) Length:
		return ask1(ask, number(args[0]))
	}
	panic(fmt.Sprintf("%s has no reader", full))
}

func ask1[A, T any](fact *func(A) T, a func() A) reader {
	return readerOf(func() T { return (*fact)(a()) })
}

func ask2[A, B, T any](fact *func(A, B) T, a func() A, b func() B) reader {
	return readerOf(func() T { return (*fact)(a(), b()) })
}
