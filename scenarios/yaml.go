package scenarios

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"regexp"
	"sort"
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
	return c.convert(doc.Content[0], 1)
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

// converter turns the library's tree into ours, refusing what we do not take.
type converter struct {
	src   *source
	say   func(Complaint)
	nodes int
	full  bool
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

var lineNumber = regexp.MustCompile(`^yaml: (line \d+: )?`)

// syntaxMessage is the library's message without its line, which is that of
// the group around the fault as often as that of the fault.
func syntaxMessage(err error) string { return lineNumber.ReplaceAllString(err.Error(), "") }

// firstFailing is the first line with which the file up to there fails in
// the same way: there the fault is.
func firstFailing(src *source, message string) int {
	text := 0
	ends := make([]int, len(src.lines))
	for i, l := range src.lines {
		text += len(l) + 1
		ends[i] = min(text, len(src.text))
	}
	return 1 + sort.Search(len(ends)-1, func(i int) bool {
		var doc yaml.Node
		dec := yaml.NewDecoder(bytes.NewReader(src.text[:ends[i]]))
		err := decode(dec, &doc)
		if err == nil {
			err = decode(dec, &doc)
		}
		return err != nil && syntaxMessage(err) == message
	})
}

// syntaxComplaint words the library's message: it carries a line at best.
func syntaxComplaint(src *source, err error) Complaint {
	c := Complaint{Level: Error, Code: "syntax", Said: "the file is not readable YAML", Allowed: "keys, a colon, a value; nested fields indented with spaces"}
	message := syntaxMessage(err)
	for l, text := range src.lines {
		indent := text[:len(text)-len(strings.TrimLeft(text, " \t"))]
		if i := strings.IndexByte(indent, '\t'); i >= 0 {
			c.Code, c.Pos = "tab-indent", src.pos(l+1, i+1)
			c.Said, c.Allowed = "a tab stands in the indentation", "spaces"
			return c
		}
	}
	line := firstFailing(src, message)
	for _, known := range syntaxWords {
		if strings.Contains(message, known.has) {
			c.Said, c.Allowed = known.said, known.allowed
			if known.code != "" {
				c.Code = known.code
			}
			line, column := known.place(src, line)
			c.Pos = src.pos(line, column)
			return c
		}
	}
	c.Pos = src.pos(line, firstColumn(src.line(line)))
	return c
}

// syntaxWords says the library's messages in an author's words.
var syntaxWords = []struct {
	has, code, said, allowed string
	place                    func(*source, int) (int, int)
}{
	{
		"mapping values are not allowed", "second-colon", `a second ": " on this line makes it unreadable`,
		`text that holds ": " between quotes, or after "|" on lines of its own`, atSecondColon,
	},
	{
		"cannot start any token", "bad-start", "a value cannot begin with this character unless it is quoted",
		"the text between quotes", atValue,
	},
	{"unknown anchor", "alias", "an alias stands in the file", "values written out where they are needed", atAlias},
	{"exceeded max depth", "too-deep", fmt.Sprintf("values are nested more than %d deep", maxDepth), "the fields of the reference, none of which is that deep", atStart},
	{"did not find expected ',' or", "", "a bracket is not closed, or a comma is missing", "[a, b] or {a: 1, b: 2}; text that holds a comma or a question mark between quotes", atStart},
	{"did not find expected key", "", "this line is not indented like those around it, or a bracket or quotation mark before it is not closed", "fields of one group under each other", atStart},
	{"did not find expected '-'", "", "this line is not indented like the list it stands in", "items of one list under each other", atStart},
	{"could not find expected ':'", "", "a key without a colon", "a word, a colon, a space, a value", atStart},
	{"unexpected end of stream", "", "a quotation mark is not closed", "a quotation mark at both ends", atStart},
	{"unknown escape character", "", "an unknown escape after a backslash", "text between single quotes, where a backslash is only itself", atStart},
	{"unexpected document indicator", "", "a line of dashes stands inside a text", "one document in a file", atStart},
}

func atStart(src *source, line int) (int, int) {
	for line > 1 && strings.TrimSpace(src.line(line)) == "" {
		line--
	}
	return line, firstColumn(src.line(line))
}

func atSecondColon(src *source, line int) (int, int) {
	text := src.line(line)
	if i := strings.Index(text, ": "); i >= 0 {
		for j := i + 2; j < len(text); j++ {
			if text[j] == ':' && (j+1 == len(text) || text[j+1] == ' ') {
				return line, len([]rune(text[:j])) + 1
			}
		}
	}
	return atStart(src, line)
}

func atValue(src *source, line int) (int, int) {
	text := src.line(line)
	if i := strings.Index(text, ": "); i >= 0 {
		if rest := strings.TrimLeft(text[i+1:], " "); rest != "" {
			return line, len([]rune(text[:len(text)-len(rest)])) + 1
		}
	}
	return atStart(src, line)
}

var aliasWord = regexp.MustCompile(`(?:^|[\s\[{,:-])\*[^\s,\]}]`)

func atAlias(src *source, line int) (int, int) {
	for l, text := range src.lines {
		if at := aliasWord.FindStringIndex(text); at != nil {
			return l + 1, len([]rune(text[:at[1]-2])) + 1
		}
	}
	return line, 1
}

func firstColumn(text string) int {
	return len([]rune(text)) - len([]rune(strings.TrimLeft(text, " "))) + 1
}
