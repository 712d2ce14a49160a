package scenarios

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"

	"gopkg.in/yaml.v3"
)

// Limits on the shape of a file.
const (
	maxDepth = 32
	maxNodes = 20_000
)

// parse reads one strict YAML document. It returns nil when nothing can be
// read; structural faults that leave the rest readable are only reported.
func parse(src *source, say func(Complaint)) *node {
	dec := yaml.NewDecoder(bytes.NewReader(src.text))
	var doc yaml.Node
	switch err := decode(dec, &doc); {
	case errors.Is(err, io.EOF) || err == nil && len(doc.Content) == 0:
		say(Complaint{Level: Error, Code: "empty-file", Pos: src.pos(1, 1), Said: "the file is empty", Allowed: "format: 1 on the first line"})
		return nil
	case err != nil:
		say(syntaxComplaint(src, err))
		return nil
	}
	var second yaml.Node
	switch err := decode(dec, &second); {
	case err == nil:
		line := max(second.Line, 1)
		for l := line; l > 1; l-- {
			if strings.HasPrefix(src.line(l), "---") {
				line = l
				break
			}
		}
		say(Complaint{Level: Error, Code: "second-document", Pos: src.pos(line, 1), Said: "a second document begins here", Allowed: "one document in a file"})
	case !errors.Is(err, io.EOF):
		say(syntaxComplaint(src, err))
	}
	c := converter{src: src, say: say}
	root := c.convert(doc.Content[0], 1)
	if c.full {
		return nil
	}
	return root
}

// decode guards against faults of the library itself, which is no longer
// maintained: whatever happens in it, the file is what gets refused.
func decode(dec *yaml.Decoder, into *yaml.Node) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("yaml: %v", r)
		}
	}()
	return dec.Decode(into)
}

// readable is what the library finds wrong with a text, if anything.
func readable(text []byte) error {
	dec := yaml.NewDecoder(bytes.NewReader(text))
	for {
		var doc yaml.Node
		switch err := decode(dec, &doc); {
		case errors.Is(err, io.EOF):
			return nil
		case err != nil:
			return err
		}
	}
}

// converter turns the library's tree into ours, refusing what we do not take.
type converter struct {
	src   *source
	say   func(Complaint)
	nodes int
	full  bool // a limit was passed; nothing more is read
}

func (c *converter) fault(n *yaml.Node, code, said, allowed string) {
	c.say(Complaint{Level: Error, Code: code, Pos: c.src.pos(max(n.Line, 1), max(n.Column, 1)), Said: said, Allowed: allowed})
}

// convert returns nil for what was refused and reported.
func (c *converter) convert(n *yaml.Node, depth int) *node {
	if c.full {
		return nil
	}
	if c.nodes++; c.nodes > maxNodes {
		c.full = true
		c.fault(n, "too-many-values", fmt.Sprintf("the file holds more than %d values", maxNodes), "a smaller file")
		return nil
	}
	if depth > maxDepth {
		c.full = true
		c.fault(n, "too-deep", fmt.Sprintf("values are nested more than %d deep", maxDepth), "the fields of the reference, none of which is that deep")
		return nil
	}
	if n.Anchor != "" {
		c.fault(n, "anchor", fmt.Sprintf("an anchor %q stands here", "&"+n.Anchor), "values written out where they are needed")
	}
	out := &node{line: max(n.Line, 1), column: max(n.Column, 1), is: strings.TrimPrefix(n.ShortTag(), "!!")}
	switch n.Kind {
	case yaml.AliasNode:
		c.fault(n, "alias", fmt.Sprintf("an alias %q stands here", "*"+n.Value), "values written out where they are needed")
		return nil
	case yaml.ScalarNode:
		out.kind, out.text, out.style = scalar, n.Value, styleOf(n)
		if n.Style&yaml.TaggedStyle != 0 || strings.HasPrefix(c.src.from(out.line, out.column), "!") {
			c.fault(n, "tag", fmt.Sprintf("%q is read as a tag, not as text", tagWord(c.src, out)), `text that begins with "!" between quotes`)
			return nil
		}
		if out.style == double && !c.clean(n) {
			return nil
		}
	case yaml.SequenceNode:
		out.kind = list
		if !c.untagged(n) {
			return nil
		}
		for _, item := range n.Content {
			if child := c.convert(item, depth+1); child != nil {
				out.items = append(out.items, child)
			}
		}
	case yaml.MappingNode:
		out.kind = mapping
		if !c.untagged(n) {
			return nil
		}
		c.pairs(n, out, depth)
	default:
		c.fault(n, "syntax", "this cannot be read", "a value")
		return nil
	}
	return out
}

func (c *converter) untagged(n *yaml.Node) bool {
	if n.Style&yaml.TaggedStyle == 0 {
		return true
	}
	c.fault(n, "tag", fmt.Sprintf("%q is a tag", n.Tag), "a value without a tag")
	return false
}

// clean looks for characters that only an escape can bring in.
func (c *converter) clean(n *yaml.Node) bool {
	for _, r := range n.Value {
		if said, code := badRune([]byte(string(r)), r, len(string(r))); code != "" {
			c.fault(n, code, "an escape in this text stands for a character that is refused: "+said, "text without control characters")
			return false
		}
	}
	return true
}

// pairs converts a mapping and refuses keys that are merged, doubled, or not
// plain words. The value of a refused key is still looked at.
func (c *converter) pairs(n *yaml.Node, out *node, depth int) {
	first := map[string]*yaml.Node{}
	for i := 0; i+1 < len(n.Content) && !c.full; i += 2 {
		key, value := n.Content[i], n.Content[i+1]
		if key.Kind == yaml.ScalarNode && key.Tag == "!!merge" {
			c.fault(key, "merge-key", `a merge key "<<" stands here`, "fields written out where they are needed")
			continue
		}
		if key.Kind == yaml.SequenceNode || key.Kind == yaml.MappingNode {
			c.fault(key, "key-not-text", "this key is not a word", "a word, then a colon")
			continue
		}
		k, v := c.convert(key, depth+1), c.convert(value, depth+1)
		if k == nil {
			continue
		}
		if k.null() && k.text == "" {
			c.fault(key, "key-not-text", "a colon without a key", "a word, then a colon")
			continue
		}
		if before := first[k.text]; before != nil {
			also := c.src.pos(before.Line, before.Column)
			c.say(Complaint{
				Level: Error, Code: "duplicate-key", Pos: c.src.pos(k.line, k.column),
				Said: fmt.Sprintf("%s is given twice", quoted(k.text)), Allowed: "each once", Also: &also,
			})
			continue
		}
		first[k.text] = key
		if v == nil {
			v = &node{line: k.line, column: k.column} // refused already; keeps the key from looking absent
		}
		out.keys, out.values = append(out.keys, k), append(out.values, v)
	}
}

func styleOf(n *yaml.Node) style {
	switch {
	case n.Style&yaml.SingleQuotedStyle != 0:
		return single
	case n.Style&yaml.DoubleQuotedStyle != 0:
		return double
	case n.Style&yaml.LiteralStyle != 0:
		return literal
	case n.Style&yaml.FoldedStyle != 0:
		return folded
	}
	return plain
}

func tagWord(src *source, n *node) string {
	word, _, _ := strings.Cut(src.from(n.line, n.column), " ")
	return word
}
