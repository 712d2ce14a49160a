package scenarios

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// scalars lists every value and key of a file that is written on one line.
func scalars(n *yaml.Node) []*yaml.Node {
	var out []*yaml.Node
	if n.Kind == yaml.ScalarNode && n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) == 0 {
		out = append(out, n)
	}
	for _, c := range n.Content {
		out = append(out, scalars(c)...)
	}
	return out
}

// In every value and key of every kind of file, what could drive a terminal
// or turn the reading direction is refused, written as it is or as an escape.
func TestHostileCharactersInEveryText(t *testing.T) {
	written := []struct{ raw, escaped, code string }{
		{"\x1b[2J", `\e[2J`, "control-character"},
		{"\x00", `\0`, "control-character"},
		{"\x07", `\a`, "control-character"},
		{"\u009b", `\u009b`, "control-character"},
		{"\u2028", `\L`, "control-character"},
		{"\u202e", `\u202e`, "direction-character"},
		{"\u2066", `\u2066`, "direction-character"},
		{"\u200f", `\u200f`, "direction-character"},
	}
	tried := 0
	for _, file := range []string{"testdata/good-case.yaml", "../content/places/tern-ward.yaml", "../content/policies/alder-court.yaml"} {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		var doc yaml.Node
		if err := yaml.Unmarshal(src, &doc); err != nil {
			t.Fatal(err)
		}
		kind := Kind(src)
		lines := strings.Split(string(src), "\n")
		for i, n := range scalars(&doc) {
			line := []rune(lines[n.Line-1])
			length := utf8.RuneCountInString(n.Value)
			at := n.Column - 1
			if length == 0 || at+length > len(line) || string(line[at:at+length]) != n.Value {
				continue // empty, quoted, or on several lines
			}
			w := written[i%len(written)]
			for _, hostile := range []string{n.Value + w.raw, `"` + strings.ReplaceAll(n.Value, `"`, `\"`) + w.escaped + `"`} {
				changed := append([]string(nil), lines...)
				changed[n.Line-1] = string(line[:at]) + hostile + string(line[at+length:])
				text := []byte(strings.Join(changed, "\n"))
				loaded, out := loadAny(kind, text)
				found := false
				for _, c := range out {
					found = found || c.Code == w.code && c.Pos.Line == n.Line
				}
				if loaded || !found {
					t.Errorf("%s:%d: %q: loaded %v, %v", file, n.Line, hostile, loaded, out)
				}
				sensible(t, text, loaded, out)
				tried++
			}
		}
	}
	if tried < 1000 {
		t.Errorf("only %d places were tried", tried)
	}
}

// hollow are ways to write a value with an empty key in it, at every depth.
func hollow(v Value) []string {
	out := []string{`5`, `[1]`, `{"": 5}`, `{"": [1]}`, `{"": {"": 1}}`}
	switch v.Kind {
	case "names":
		for _, inner := range hollow(*v.Each) {
			out = append(out, `{"": `+inner+`}`)
		}
	case "list":
		for _, inner := range hollow(*v.Each) {
			out = append(out, `[`+inner+`]`)
		}
	case "group":
		for _, f := range v.Fields {
			for _, inner := range hollow(f.Value) {
				out = append(out, `{"`+f.Key+`": `+inner+`}`)
			}
		}
	}
	return out
}

// Nothing breaks on an empty key, wherever it stands.
func TestEmptyKeys(t *testing.T) {
	tried := 0
	for _, kind := range Kinds() {
		for _, f := range Fields(kind)[2:] {
			for _, value := range hollow(f.Value) {
				text := []byte("format: 1\n" + kind + ": x\n\"" + f.Key + "\": " + value + "\n")
				loaded, out := loadAny(kind, text)
				if loaded {
					t.Errorf("%s loads", text)
				}
				sensible(t, text, loaded, out)
				tried++
			}
		}
	}
	if tried < 1000 {
		t.Errorf("only %d values were tried", tried)
	}
}

// loadAny loads a file by its kind.
func loadAny(kind string, src []byte) (loaded bool, out []Complaint) {
	switch kind {
	case "place":
		p, out := LoadPlace("f.yaml", src)
		return p != nil, out
	case "policy":
		p, out := LoadPolicy("f.yaml", src)
		return p != nil, out
	case "fragment":
		f, out := LoadFragment("f.yaml", src)
		return f != nil, out
	case "items":
		f, out := LoadItems("f.yaml", src)
		return f != nil, out
	case "cohorts":
		rows, out := LoadCohorts("f.yaml", src)
		return rows != nil, out
	}
	c, out := LoadCase("f.yaml", src, Fragments{})
	return c != nil, out
}

// A few lines that stand for a thousand million values are refused for what
// they are; nothing is written out.
func TestBomb(t *testing.T) {
	var b strings.Builder
	b.WriteString("format: 1\ncase: x\na0: &a0 [x, x, x, x, x, x, x, x, x]\n")
	for i := 1; i < 10; i++ {
		fmt.Fprintf(&b, "a%d: &a%d [%s]\n", i, i, strings.Repeat(fmt.Sprintf("*a%d, ", i-1), 8)+fmt.Sprintf("*a%d", i-1))
	}
	c, out := LoadCase("f.yaml", []byte(b.String()), Fragments{})
	anchors, aliases := 0, 0
	for _, complaint := range out {
		switch complaint.Code {
		case "anchor":
			anchors++
		case "alias":
			aliases++
		}
	}
	if c != nil || anchors != 10 || aliases != 9*9 {
		t.Errorf("loaded %v, %d anchors, %d aliases", c != nil, anchors, aliases)
	}
}

// The limits are met exactly: what is at the limit is read, and one more is not.
func TestLimitsExactly(t *testing.T) {
	head := "format: 1\ncase: x\n"
	has := func(src, code string) bool {
		_, out := LoadCase("f.yaml", []byte(src), Fragments{})
		for _, c := range out {
			if c.Code == code {
				return true
			}
		}
		return false
	}
	comment := func(n int) string { return head + strings.Repeat("#", n-len(head)) }
	deep := func(n int) string { return head + "sources: " + strings.Repeat("[", n) + strings.Repeat("]", n) + "\n" }
	wide := func(n int) string { return head + "sources: [" + strings.Repeat("a, ", n-1) + "a]\n" }
	const others = 1 + 2*2 + 2 // the file, format and case with their values, sources and its list
	for _, f := range []struct {
		name, code string
		within     string
		beyond     string
	}{
		{"bytes", "too-large", comment(MaxBytes), comment(MaxBytes + 1)},
		{"depth", "too-deep", deep(maxDepth - 1), deep(maxDepth)},
		{"values", "too-many-values", wide(maxNodes - others), wide(maxNodes - others + 1)},
	} {
		if has(f.within, f.code) {
			t.Errorf("%s: %s within the limit", f.name, f.code)
		}
		if !has(f.beyond, f.code) {
			t.Errorf("%s: no %s beyond the limit", f.name, f.code)
		}
	}
	_, out := LoadCase("f.yaml", []byte(head+strings.Repeat("\x07", 5*maxComplaints)), Fragments{})
	if len(out) != maxComplaints+1 || out[maxComplaints].Code != "too-many" {
		t.Errorf("%d complaints", len(out))
	}
}

// What a file is called cannot disturb a terminal either.
func TestHostileFileName(t *testing.T) {
	_, out := LoadCase("a\x1b[2J\u202eb.yaml", nil, Fragments{})
	if text := Render(out[0], nil); !strings.HasPrefix(text, "a?[2J?b.yaml:1:1: ") {
		t.Errorf("got %q", text)
	}
}

// A case cannot name a file outside: names of places and policies are names.
func TestPathsAreNoNames(t *testing.T) {
	src, err := os.ReadFile("testdata/short-case.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{"../x", "/etc/passwd", "a/b", `a\b`, "..", ".", "x.yaml", "~", "C:x", "//host/x", "a%2fb", "%00"} {
		written := `"` + strings.ReplaceAll(path, `\`, `\\`) + `"`
		for _, f := range []struct{ old, new string }{
			{"place: tern-ward", "place: " + written},
			{"policy: alder-court", "policy: " + written},
			{"    shows: One way.", "    shows: One way.\n    policy: " + written},
		} {
			text := strings.Replace(string(src), f.old, f.new, 1)
			c, out := LoadCase("f.yaml", []byte(text), Fragments{})
			if c != nil || len(out) == 0 || out[0].Code != "bad-name" {
				t.Errorf("%s: loaded %v, %v", f.new, c != nil, out)
			}
		}
	}
}
