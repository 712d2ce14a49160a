package scenarios

// kind is the shape of a node. The zero value is invalid.
type kind uint8

const (
	scalar kind = iota + 1
	list
	mapping
)

// style is how a scalar is written.
type style uint8

const (
	plain style = iota
	single
	double
	literal // |
	folded  // >
)

// node is one value of a file with its place.
type node struct {
	kind   kind
	style  style
	text   string // of a scalar
	is     string // what YAML takes a plain scalar for: "str", "int", "float", "bool", "null", "timestamp"
	line   int
	column int
	items  []*node // of a list
	keys   []*node // of a mapping, beside values
	values []*node
}

func (n *node) null() bool { return n.kind == scalar && n.is == "null" }

// describe says what a node is, for messages.
func (n *node) describe() string {
	switch {
	case n.null():
		return "nothing"
	case n.kind == list && len(n.items) == 0:
		return "an empty list"
	case n.kind == list:
		return "a list"
	case n.kind == mapping:
		return "a group of fields"
	}
	return quoted(n.text)
}
