package scenarios

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
)

// Dialect is the version of JSON Schema that [Schema] is written in.
const Dialect = "https://json-schema.org/draft/2020-12/schema"

// Schema is the JSON Schema of a kind of file, made from the table of fields
// that the loader walks. It lets pass every file that loads; it cannot see
// what takes more than one field, a unit's spelling or an expression.
func Schema(kind string) ([]byte, error) {
	fields := Fields(kind)
	if fields == nil {
		return nil, fmt.Errorf("there is no schema of a %s: there are %s", kind, strings.Join(Kinds(), ", "))
	}
	root := object{
		{"$schema", Dialect},
		{"$comment", "made by: blanch schema " + kind},
		{"title", "A " + Called(kind) + " for blanch"},
	}
	root = append(root, groupSchema(fields)...)
	text, err := json.Marshal(root)
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	if err := json.Indent(&out, text, "", "  "); err != nil {
		return nil, err
	}
	out.WriteByte('\n')
	return out.Bytes(), nil
}

// object is a JSON object that keeps its order, so that a schema lists the
// fields as the reference does.
type object []member

type member struct {
	key   string
	value any
}

// MarshalJSON writes the members in order.
func (o object) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, m := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		for j, part := range []any{m.key, m.value} {
			if j > 0 {
				b.WriteByte(':')
			}
			enc := json.NewEncoder(&b)
			enc.SetEscapeHTML(false)
			if err := enc.Encode(part); err != nil {
				return nil, err
			}
		}
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

func groupSchema(fields []Field) object {
	properties, required := object{}, []string{}
	for _, f := range fields {
		properties = append(properties, member{f.Key, fieldSchema(f)})
		if f.Needed {
			required = append(required, f.Key)
		}
	}
	return object{{"type", "object"}, {"properties", properties}, {"required", required}, {"additionalProperties", false}}
}

func fieldSchema(f Field) object {
	doc := f.Doc
	if f.Value.Kind != "group" && f.Value.Kind != "names" {
		doc += " Wanted: " + f.Value.Says + "."
	}
	s := append(object{{"description", doc}}, f.Value.schema()...)
	if example, ok := plainExample(f.Example); ok {
		s = append(s, member{"examples", []any{example}})
	}
	return s
}

// schema says what may stand for a value. Numbers, true and false may stand
// between quotes too, as the loader takes them.
func (v Value) schema() object {
	text := func(pattern string) object { return object{{"type", "string"}, {"pattern", pattern}} }
	quotedToo := func(plain object, pattern string) object {
		return object{{"anyOf", []object{plain, text(pattern)}}}
	}
	switch v.Kind {
	case "group":
		return groupSchema(v.Fields)
	case "names":
		return object{
			{"type", "object"},
			{"patternProperties", object{{namePattern, v.Each.schema()}}},
			{"additionalProperties", false},
		}
	case "list":
		return object{{"type", "array"}, {"items", v.Each.schema()}, {"minItems", 1}}
	case "choice":
		return object{{"enum", v.Choices}}
	case "truth":
		return object{{"enum", []any{true, false, "true", "false"}}}
	case "count":
		plain := object{{"type", "integer"}, {"minimum", v.Least}}
		if len(v.Choices) > 0 {
			plain = object{{"const", 1}}
		} else if v.Most > v.Least {
			plain = append(plain, member{"maximum", v.Most})
		}
		return quotedToo(plain, `^[-+]?[0-9]+$`)
	case "points":
		return quotedToo(object{{"type", "number"}, {"minimum", v.Least}, {"maximum", v.Most}}, `^[-+]?[0-9.]+$`)
	case "point":
		return object{
			{"type", "object"}, {"minProperties", 1}, {"maxProperties", 1},
			{"patternProperties", object{{quantityPattern, text(quantityPattern)}}},
			{"additionalProperties", false},
		}
	case "steps":
		const when = `^\s*(at .+|then|after .+)$`
		timed := object{
			{"type", "object"}, {"minProperties", 1}, {"maxProperties", 1},
			{"patternProperties", object{{when, object{{"type", []string{"string", "null"}}}}}},
			{"additionalProperties", false},
		}
		return object{{"type", "array"}, {"minItems", 1}, {"items", object{{"anyOf", []object{timed, text(`^\s*(at|then|after)\b`)}}}}}
	case "expression":
		return object{{"type", []string{"string", "boolean", "number"}}}
	}
	if v.Pattern != "" {
		return text(v.Pattern)
	}
	return object{{"type", []string{"string", "integer"}}, {"pattern", `\S`}}
}

// plainExample reads an example of the table as the value that it stands for.
func plainExample(example string) (any, bool) {
	if strings.Contains(example, "...") {
		return nil, false
	}
	faulty := false
	say := func(Complaint) { faulty = true }
	src, ok := newSource("", []byte("example: "+example+"\n"), say)
	if !ok {
		return nil, false
	}
	root := parse(src, say)
	if root == nil || faulty {
		return nil, false
	}
	return root.values[0].plain(), true
}

// plain is a node as JSON has it.
func (n *node) plain() any {
	switch n.kind {
	case list:
		items := []any{}
		for _, item := range n.items {
			items = append(items, item.plain())
		}
		return items
	case mapping:
		o := object{}
		for i, k := range n.keys {
			o = append(o, member{k.text, n.values[i].plain()})
		}
		return o
	}
	if n.style == plain {
		switch n.is {
		case "null":
			return nil
		case "bool":
			return n.text == "true"
		case "int", "float":
			if x, err := strconv.ParseFloat(n.text, 64); err == nil {
				return x
			}
		}
	}
	return n.text
}
