package scenarios

import (
	"fmt"
	"strconv"
	"strings"
)

// Field is one row of the table of fields. The decoder walks a file by this
// table, so whatever is made from it (a schema, a reference page, help) says
// what the decoder does.
type Field struct {
	Key     string
	Value   Value
	Needed  bool
	Doc     string
	Example string
}

// Value says what may stand after a key.
type Value struct {
	Kind    string   // "text", "prose", "expression", "message", "truth", "count", "measure", "choice", "date", "group", "list", "names", "steps", ...
	Says    string   // in words, for messages: "a time such as 90 min"
	Choices []string // of a choice
	Pattern string   // of text that has a form, as a regular expression without flags
	Least   float64  // of a count or points
	Most    float64  // no bound when it is not above Least
	Each    *Value   // of a list, and of the entries of names
	Fields  []Field  // of a group
}

// form reads one kind of value into a V. It reports false, having
// complained, when the value cannot be used.
type form[V any] struct {
	value Value
	read  func(r *reader, at string, n *node, into *V) bool
}

// row is a field of a T and how it is read.
type row[T any] struct {
	Field
	read func(r *reader, at string, n *node, into *T) bool
}

// shape is a group of fields that make a T.
type shape[T any] struct {
	name string // "vein", for messages
	rows []row[T]
}

// need is a field that must be there.
func need[T, V any](key string, f form[V], to func(*T) *V, doc, example string) row[T] {
	w := may(key, f, to, doc, example)
	w.Needed = true
	return w
}

// may is a field that may be left out.
func may[T, V any](key string, f form[V], to func(*T) *V, doc, example string) row[T] {
	return row[T]{
		Field: Field{Key: key, Value: f.value, Doc: doc, Example: example},
		read:  func(r *reader, at string, n *node, into *T) bool { return f.read(r, at, n, to(into)) },
	}
}

// within reads the same value into a part of something larger.
func within[T, V any](f form[V], part func(*T) *V) form[T] {
	return form[T]{value: f.value, read: func(r *reader, at string, n *node, into *T) bool { return f.read(r, at, n, part(into)) }}
}

func (s shape[T]) fields() []Field {
	out := make([]Field, len(s.rows))
	for i, w := range s.rows {
		out[i] = w.Field
	}
	return out
}

// group is a value made of named fields.
func group[T any](s shape[T]) form[T] {
	return form[T]{
		value: Value{Kind: "group", Says: "a group of fields: " + keysOf(s.fields()), Fields: s.fields()},
		read:  s.read,
	}
}

func (s shape[T]) read(r *reader, at string, n *node, into *T) bool {
	if n.kind != mapping {
		return r.unfit(at, n, "not-a-group", "fields under it: "+keysOf(s.fields()))
	}
	fields, whole, given := s.fields(), true, map[string]bool{}
	for i, key := range n.keys {
		w := s.row(key.text)
		if w == nil {
			if meant := r.unknown(at, s.name, key, n.values[i], fields); meant != "" {
				given[meant] = true // misspelt is not missing
				r.broken[join(at, meant)] = true
			}
			whole = false
			continue
		}
		given[key.text] = true
		inner := join(at, key.text)
		r.where[inner] = r.src.pos(key.line, key.column)
		if v := n.values[i]; v.kind == scalar && !v.null() {
			r.where[inner] = r.src.pos(v.line, v.column)
		}
		if !w.read(r, inner, n.values[i], into) {
			r.broken[inner] = true
			whole = false
		}
	}
	for _, w := range s.rows {
		if w.Needed && !given[w.Key] {
			r.broken[join(at, w.Key)] = true
			r.complain(Complaint{
				Code: "missing-field", Pos: r.place(at, n),
				Said:    fmt.Sprintf("%s has no %s", r.subject(at, s.name), quoted(w.Key)),
				Allowed: fmt.Sprintf("%s: %s", w.Key, w.Example),
			})
			whole = false
		}
	}
	return whole
}

func (s shape[T]) row(key string) *row[T] {
	for i := range s.rows {
		if s.rows[i].Key == key {
			return &s.rows[i]
		}
	}
	return nil
}

// named is a value whose keys the author chooses, each with a group of
// fields under it. It keeps the order of the file.
func named[T any](s shape[T], name func(t *T, id string, at Pos)) form[[]T] {
	inner := group(s)
	return entries(inner, s.name, name)
}

// entries is a value whose keys the author chooses, each with a value.
func entries[T any](inner form[T], what string, name func(t *T, id string, at Pos)) form[[]T] {
	return form[[]T]{
		value: Value{Kind: "names", Says: fmt.Sprintf("a name for each %s, and under it what belongs to it", what), Each: &inner.value},
		read: func(r *reader, at string, n *node, into *[]T) bool {
			if n.kind != mapping {
				return r.unfit(at, n, "not-a-group", fmt.Sprintf("a name for each %s, a colon, and what belongs to it", what))
			}
			whole := true
			for i, key := range n.keys {
				place := r.src.pos(key.line, key.column)
				if !isName(key.text) {
					r.complain(Complaint{
						Code: "bad-name", Pos: place,
						Said:    fmt.Sprintf("%s cannot name a %s", quoted(key.text), what),
						Allowed: "small letters, digits and hyphens, beginning with a letter",
					})
					whole = false
				}
				id := join(at, key.text)
				r.where[id] = place
				var t T
				if !inner.read(r, id, n.values[i], &t) {
					r.broken[id] = true
					whole = false
				}
				name(&t, key.text, place)
				*into = append(*into, t)
			}
			return whole
		},
	}
}

// listOf is a list of values of one form.
func listOf[T any](inner form[T]) form[[]T] {
	return form[[]T]{
		value: Value{Kind: "list", Says: "a list, each of it " + inner.value.Says, Each: &inner.value},
		read: func(r *reader, at string, n *node, into *[]T) bool {
			if n.kind != list {
				return r.unfit(at, n, "not-a-list", "a list, each of it "+inner.value.Says)
			}
			whole := true
			for i, item := range n.items {
				id := join(at, strconv.Itoa(i+1))
				r.where[id] = r.src.pos(item.line, item.column)
				var t T
				if !inner.read(r, id, item, &t) {
					r.broken[id] = true
					whole = false
				}
				*into = append(*into, t)
			}
			if len(n.items) == 0 && whole {
				return r.unfit(at, n, "empty-list", "at least one, each of it "+inner.value.Says)
			}
			return whole
		},
	}
}

func keysOf(fields []Field) string {
	keys := make([]string, len(fields))
	for i, f := range fields {
		keys[i] = f.Key
	}
	return strings.Join(keys, ", ")
}

func join(at, key string) string {
	if at == "" {
		return key
	}
	return at + "/" + key
}

func isName(s string) bool {
	for i, r := range s {
		letter := r >= 'a' && r <= 'z'
		if !letter && (i == 0 || r != '-' && (r < '0' || r > '9')) {
			return false
		}
	}
	return s != "" && len(s) <= 64
}

// IsName says whether a file, rule, vein or person can have this name.
func IsName(s string) bool { return isName(s) }
