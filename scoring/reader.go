package scoring

import (
	"reflect"
	"slices"

	"github.com/expr-lang/expr/ast"
)

// reader is a part of an expression as a function of one record: its value
// whenever that is asked for. The expression library reads and checks rules;
// this evaluates them, so that marking needs no reflection.
type reader struct {
	kind  reflect.Type
	read  any // a func() of that kind
	value func() any
}

func readerOf[T any](read func() T) reader {
	return reader{reflect.TypeFor[T](), read, func() any { return read() }}
}

// as is the reader's function, which must be of that kind.
func as[T any](x reader) func() T { return x.read.(func() T) }

// number reads a count or a number.
func number(x reader) func() float64 {
	if x.kind == intKind {
		count := as[int](x)
		return func() float64 { return float64(count()) }
	}
	return as[float64](x)
}

// binder turns vetted trees into readers of one record.
type binder struct {
	record *record
	env    reflect.Value // of the record
	seen   map[ast.Node]reader
}

func newBinder(r *record) *binder {
	return &binder{record: r, env: reflect.ValueOf(&r.env).Elem(), seen: map[ast.Node]reader{}}
}

// visit is the reader of a node. It panics at what the vetter does not let
// pass. A node that the library uses twice is visited once.
func (b *binder) visit(n ast.Node) reader {
	x, seen := b.seen[n]
	if !seen {
		x = b.bind(n)
		b.seen[n] = x
	}
	return x
}

func (b *binder) bind(n ast.Node) reader {
	switch n := n.(type) {
	case *ast.IntegerNode:
		return readerOf(func() int { return n.Value })
	case *ast.FloatNode:
		return readerOf(func() float64 { return n.Value })
	case *ast.BoolNode:
		return readerOf(func() bool { return n.Value })
	case *ast.StringNode:
		return readerOf(func() string { return n.Value })
	case *ast.CallNode:
		return b.call(n)
	case *ast.UnaryNode:
		return b.unary(n)
	case *ast.BinaryNode:
		return b.binary(n)
	}
	if full, ok := path(n); ok && leafKinds[full] != nil {
		number := factByName[full].number
		return leafReader(b.leaf(full), func() { b.record.cite(number) })
	}
	switch of := b.visit(n.(*ast.MemberNode).Node); of.kind { // known of it
	case momentKind:
		moment := as[Moment](of)
		return readerOf(func() bool { return moment().Known })
	default:
		span := as[Span](of)
		return readerOf(func() bool { return span().Known })
	}
}

// leaf is a pointer to the leaf of that name in the record's environment.
func (b *binder) leaf(full string) any {
	return b.env.FieldByIndex(leafPlaces[full]).Addr().Interface()
}

func (b *binder) unary(n *ast.UnaryNode) reader {
	switch x := b.visit(n.Node); x.kind {
	case boolKind:
		truth := as[bool](x)
		return readerOf(func() bool { return !truth() })
	case intKind:
		count := as[int](x)
		return readerOf(func() int { return -count() })
	default:
		number := as[float64](x)
		return readerOf(func() float64 { return -number() })
	}
}

func (b *binder) binary(n *ast.BinaryNode) reader {
	left, right := b.visit(n.Left), b.visit(n.Right)
	switch {
	case left.kind == boolKind:
		return b.logic(n.Operator, as[bool](left), as[bool](right))
	case left.kind == intKind && right.kind == intKind:
		return arithmetic(n.Operator, as[int](left), as[int](right))
	case left.kind == intKind || left.kind == numberKind:
		return arithmetic(n.Operator, number(left), number(right))
	}
	return operationFor(n.Operator, left.kind, right.kind).join(left, right)
}

// logic joins two conditions. Of two ways in which a condition can hold, only
// the one that does is evidence.
func (b *binder) logic(operator string, left, right func() bool) reader {
	switch operator {
	case "and", "&&":
		return readerOf(func() bool { return left() && right() })
	case "or", "||":
		return readerOf(func() bool {
			from := len(b.record.evidence)
			if left() {
				return true
			}
			failed := len(b.record.evidence)
			if right() {
				b.record.evidence = slices.Delete(b.record.evidence, from, failed)
				return true
			}
			return false
		})
	case "==":
		return readerOf(func() bool { return left() == right() })
	}
	return readerOf(func() bool { return left() != right() })
}

func arithmetic[N int | float64](operator string, left, right func() N) reader {
	switch operator {
	case "+":
		return readerOf(func() N { return left() + right() })
	case "-":
		return readerOf(func() N { return left() - right() })
	case "<":
		return readerOf(func() bool { return left() < right() })
	case "<=":
		return readerOf(func() bool { return left() <= right() })
	case ">":
		return readerOf(func() bool { return left() > right() })
	case ">=":
		return readerOf(func() bool { return left() >= right() })
	case "==":
		return readerOf(func() bool { return left() == right() })
	}
	return readerOf(func() bool { return left() != right() })
}
