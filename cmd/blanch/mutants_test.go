package main

import (
	"bytes"
	"math/rand/v2"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"gopkg.in/yaml.v3"

	"blanch/content"
	"blanch/scenarios"
)

// place of a key of the table of fields in a file.
type keyAt struct {
	line, column int // from 1
	key          string
	siblings     []string
}

// keysIn finds the keys of a file that are fields of the table, not names
// that the author chose.
func keysIn(n *yaml.Node, fields []scenarios.Field) []keyAt {
	var out []keyAt
	if n.Kind == yaml.DocumentNode {
		return keysIn(n.Content[0], fields)
	}
	var siblings []string
	for _, f := range fields {
		siblings = append(siblings, f.Key)
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		for _, f := range fields {
			if f.Key == n.Content[i].Value {
				out = append(out, keyAt{n.Content[i].Line, n.Content[i].Column, f.Key, siblings})
				out = append(out, keysUnder(n.Content[i+1], f.Value)...)
			}
		}
	}
	return out
}

func keysUnder(n *yaml.Node, v scenarios.Value) []keyAt {
	var out []keyAt
	switch v.Kind {
	case "group":
		out = keysIn(n, v.Fields)
	case "list":
		for _, item := range n.Content {
			out = append(out, keysUnder(item, *v.Each)...)
		}
	case "names":
		for i := 1; i < len(n.Content); i += 2 {
			out = append(out, keysUnder(n.Content[i], *v.Each)...)
		}
	}
	return out
}

// mutator makes mutants of one file.
type mutator struct {
	*rand.Rand
	lines []string
	keys  []keyAt
}

func pick[T any](m *mutator, from ...T) T { return from[m.IntN(len(from))] }

// slip changes a word in one of the ways that fingers do.
func (m *mutator) slip(word string) string {
	i := m.IntN(len(word))
	switch m.IntN(6) {
	case 0:
		return word[:i] + word[i+1:]
	case 1:
		return word[:i] + word[i:i+1] + word[i:]
	case 2:
		j := min(i+1, len(word)-1)
		return word[:i] + word[j:j+1] + word[i:i+1] + word[min(j+1, len(word)):]
	case 3:
		return word[:i] + string(rune('a'+m.IntN(26))) + word[i+1:]
	case 4:
		return strings.ToUpper(word[:1]) + word[1:]
	}
	return strings.ReplaceAll(word, " ", pick(m, "_", "-", ""))
}

// misspelt changes a key. It reports false when what came out is a key.
func (m *mutator) misspelt() (text string, at keyAt, ok bool) {
	at = m.keys[m.IntN(len(m.keys))]
	wrong := m.slip(at.key)
	for _, s := range at.siblings {
		ok = ok || s == wrong
	}
	if ok || strings.TrimSpace(wrong) == at.key {
		return "", at, false
	}
	line := m.lines[at.line-1]
	return m.with(at.line-1, line[:at.column-1]+wrong+line[at.column-1+len(at.key):]), at, true
}

func (m *mutator) with(i int, line string) string {
	return strings.Join(append(append(append([]string(nil), m.lines[:i]...), line), m.lines[i+1:]...), "\n")
}

var digits = regexp.MustCompile(`[0-9][0-9.]*`)

// mutant changes something else: a type, a number, a unit, an expression, the
// indentation, the order of the lines.
func (m *mutator) mutant() string {
	for {
		i := m.IntN(len(m.lines))
		line := m.lines[i]
		key, value, hasValue := strings.Cut(line, ": ")
		switch m.IntN(9) {
		case 0: // type
			if hasValue {
				return m.with(i, key+": "+pick(m, "", "null", "~", "7", "-1", "1e9", ".nan", "true", "no", "[x]", "[]", "{}", "{a: b}", `{"": 5}`, `{"": [1]}`, "2026-03-01", "0x10", "010", "1_0", "'", `"`, "|", ">", "&a b", "*a", "!t x", "? x", "- x", "@x", "%x", "`x`", "# x"))
			}
		case 1: // unit
			for _, unit := range m.Perm(9) {
				word := []string{" min", " mmHg", " mcg/kg/min", " mm", " kg", " h", " mL", " %", " y"}[unit]
				if strings.Contains(value, word) {
					return m.with(i, key+": "+strings.Replace(value, word, pick(m, "", " mni", " mcg", " bananas", "  ", " "+word+"/"+strings.TrimSpace(word), "\u00b5g", " m\u0131n", " mL x mL", "%%"), 1))
				}
			}
		case 2, 3: // expression
			if strings.HasSuffix(key, "when") || strings.Contains(value, "{") {
				j := m.IntN(len(value) + 1)
				return m.with(i, key+": "+value[:j]+pick(m, "(", ")", "((((((((", " and ", " or not ", " <= ", "..", "**", "1..1000000000", `"`, "'", "{", "}", "[", "?", ":", "#", "$env", "nil", "!", ".known", "\\", "0/0", "9999999999999999999", "all(1..9, {true})", "repeat(", "let x = 1; ", "\u202e", "\x1b")+value[min(len(value), j+m.IntN(3)):])
			}
		case 4: // indentation, or a key that is empty
			if indent := line[:len(line)-len(strings.TrimLeft(line, " "))]; strings.HasSuffix(line, ":") && m.IntN(2) == 0 {
				return m.with(i, pick(m, indent+`"":`, line+"\n"+indent+`  "": `+pick(m, "5", "[1]", "{}")))
			}
			if strings.TrimSpace(line) != "" {
				body := strings.TrimLeft(line, " ")
				return m.with(i, strings.Repeat(" ", m.IntN(12))+pick(m, "", "", "", "\t", "- ")+body)
			}
		case 5: // a line twice, gone, or elsewhere
			j := m.IntN(len(m.lines))
			return m.with(i, pick(m, "", line+"\n"+line, m.lines[j], line+"\n"+m.lines[j]))
		case 6: // a character
			runes := []rune(line)
			j := m.IntN(len(runes) + 1)
			return m.with(i, string(runes[:j])+pick(m, ":", ": ", "#", " #", "'", `"`, "{", "}", "[", "]", ",", "&", "*", "!", "|", "\x00", "\x7f", "\u2066", "\u00a0", "\ufeff", "\xff", "\r", "\u2028", "\U0001f600", "---\n")+string(runes[j:]))
		case 7: // a number
			if at := digits.FindAllStringIndex(value, -1); at != nil {
				n := at[m.IntN(len(at))]
				return m.with(i, key+": "+value[:n[0]]+pick(m, "0", "0.001", "0.000000000001", "1000000", "1"+strings.Repeat("0", 30))+value[n[1]:])
			}
		case 8: // cut off
			text := strings.Join(m.lines, "\n")
			return text[:m.IntN(len(text))]
		}
	}
}

// judge checks a mutant, holds the complaints to what is true of any, and
// counts the faults of the file; what its walk-throughs earn is not one.
func judge(t *testing.T, text string) (faults int) {
	c := newChecker()
	c.add("mutant.yaml", []byte(text))
	ended := make(chan any, 1)
	go func() {
		defer func() { ended <- recover() }()
		c.check()
	}()
	select {
	case broken := <-ended:
		if broken != nil {
			t.Fatalf("panic: %v\n%s", broken, text)
		}
	case <-time.After(time.Minute):
		t.Fatalf("hangs:\n%s", text)
	}
	lines := strings.Count(text, "\n") + 1
	for _, f := range c.complaints {
		if f.Level == scenarios.Error && f.Code != "walk-through-differs" {
			faults++
		}
		if _, known := scenarios.CodeNamed(f.Code); !known || f.Said == "" || f.Level == 0 {
			t.Errorf("incomplete: %+v", f)
		}
		if f.Pos.File == "mutant.yaml" && (f.Pos.Line < 1 || f.Pos.Line > lines || f.Pos.Column < 1) {
			t.Errorf("%s is outside the file", f.Pos)
		}
		for _, r := range scenarios.Render(f, []byte(text)) {
			if r < ' ' && r != '\n' || r >= 0x7f && r < 0xa0 || r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069 {
				t.Errorf("a message holds %U: %+v", r, f)
			}
		}
		if end := scenarios.Extent(f, []byte(text)); end <= f.Pos.Column {
			t.Errorf("%s ends at column %d", f.Pos, end)
		}
	}
	return faults
}

// difference is the first line of a mutant that is not that of the sound file.
func difference(sound, mutant string) string {
	before, after := strings.Split(sound, "\n"), strings.Split(mutant, "\n")
	for i := range after {
		if i >= len(before) || before[i] != after[i] {
			return after[i]
		}
	}
	return "(cut off)"
}

// schemaOf compiles our schema by an implementation that is not ours.
func schemaOf(t *testing.T, kind string) *jsonschema.Schema {
	t.Helper()
	text, err := scenarios.Schema(kind)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("schema.json", doc); err != nil {
		t.Fatal(err)
	}
	return c.MustCompile("schema.json")
}

// fitsSchema reads a file as an editor does and holds it to the schema.
func fitsSchema(schema *jsonschema.Schema, text string) error {
	var doc any
	if err := yaml.Unmarshal([]byte(text), &doc); err != nil {
		return err
	}
	return schema.Validate(withoutDays(doc))
}

// withoutDays makes days the text that JSON has for them.
func withoutDays(v any) any {
	switch v := v.(type) {
	case map[string]any:
		for key, inner := range v {
			v[key] = withoutDays(inner)
		}
	case []any:
		for i, inner := range v {
			v[i] = withoutDays(inner)
		}
	case time.Time:
		return v.Format(time.DateOnly)
	}
	return v
}

// Mutants of sound files never break or hang the checks, whose walk-throughs
// are played too, and a misspelt key is never passed over.
func TestMutants(t *testing.T) {
	count := 300
	if os.Getenv("BLANCH_LONG") != "" {
		count = 20_000
	}
	short, err := os.ReadFile("testdata/files/small.yaml")
	if err != nil {
		t.Fatal(err)
	}
	shipped, _, err := content.Case("night-bridge")
	if err != nil {
		t.Fatal(err)
	}
	small := strings.Replace(string(short), "place: small-ward", "place: tern-ward", 1)
	place, _, err := content.Place("gannet-emergency")
	if err != nil {
		t.Fatal(err)
	}
	policy, _, err := content.Policy("quarry-lane")
	if err != nil {
		t.Fatal(err)
	}
	items, _, err := content.ItemFile("rates-and-doses")
	if err != nil {
		t.Fatal(err)
	}
	keys, others, refused := 0, 0, 0
	for i, sound := range []string{
		scaffolded(t, "case", "night"), small, string(shipped),
		scaffolded(t, "place", "tern-ward"), scaffolded(t, "policy", "alder-court"),
		string(place), string(policy), // which say all that these leave out
		scaffolded(t, "items", "choosing"), string(items),
	} {
		kind := scenarios.Kind([]byte(sound))
		schema := schemaOf(t, kind)
		var doc yaml.Node
		if err := yaml.Unmarshal([]byte(sound), &doc); err != nil {
			t.Fatal(err)
		}
		if faults := judge(t, sound); faults != 0 {
			t.Fatalf("case %d is not sound to begin with", i)
		}
		share := count * []int{6, 5, 2, 2, 2, 2, 2, 3, 2}[i] / 20 // the shipped case takes longest
		m := &mutator{rand.New(rand.NewPCG(uint64(i), 5)), strings.Split(sound, "\n"), keysIn(&doc, scenarios.Fields(kind))}
		for made := 0; made < share; made++ {
			if made%2 == 0 {
				others++
				text := m.mutant()
				if judge(t, text) > 0 {
					refused++
				} else if err := fitsSchema(schema, text); err != nil {
					t.Errorf("it loads, and the schema refuses it: %v\n%s", err, difference(sound, text))
				}
				continue
			}
			text, at, ok := m.misspelt()
			for !ok {
				text, at, ok = m.misspelt()
			}
			keys++
			if judge(t, text) == 0 {
				t.Errorf("line %d: a misspelt %q is accepted:\n%s", at.line, at.key, strings.Split(text, "\n")[at.line-1])
			}
			if fitsSchema(schema, text) == nil {
				t.Errorf("line %d: the schema lets a misspelt %q pass:\n%s", at.line, at.key, strings.Split(text, "\n")[at.line-1])
			}
		}
	}
	t.Logf("%d misspelt keys, all refused; %d other mutants, %d refused", keys, others, refused)
	if keys+others < count*9/10 || refused < others/3 {
		t.Errorf("%d keys and %d others, of which %d were refused, prove little", keys, others, refused)
	}
}

// Expressions that would explode are refused, in a rule and in a hole,
// through the whole of the checks.
func TestExplosiveExpressions(t *testing.T) {
	sound := scaffolded(t, "case", "night")
	const when = `before(first("read-order"), start)`
	for _, bomb := range []string{
		`all(1..1000000, all(1..1000000, true))`,
		`1..1000000000 == 1`,
		`repeat("x", 1000000000) == "x"`,
		`let a = "xxxxxxxx"; let b = a + a + a + a; b + b == a`,
		`2 ** 2 ** 2 ** 100 > 1`,
		`"` + strings.Repeat("(a+)+", 200) + `" matches "aaaa"`,
		strings.Repeat("1<(", 60) + "1<1" + strings.Repeat(")<1", 60),
		strings.Repeat("not ", 400) + "start.known",
		strings.Repeat("(", 1000) + "start.known" + strings.Repeat(")", 1000) + " and 1..9",
		`start.known` + strings.Repeat(" or start.known", 150),
		`did("read-order")` + strings.Repeat(` or did("feel")`, 5000),
		`fromJSON("[1,2,3]")[0] == 1`,
		`$env["start"] == nil`,
		`now() > now()`,
		strings.Repeat(`first_since("feel", `, 200) + "start" + strings.Repeat(")", 200) + ".known",
	} {
		for _, text := range []string{
			strings.Replace(sound, "    when: "+when, "    when: |\n      "+bomb, 1),
			strings.Replace(sound, "    met: You read the order before anything ran.", "    met: |\n      {"+bomb+"}", 1),
		} {
			if text == sound {
				t.Fatal("the scaffold has changed")
			}
			c := newChecker()
			c.add("mutant.yaml", []byte(text))
			c.check()
			if c.tally().Faults == 0 {
				t.Errorf("%.60s passes", bomb)
			}
		}
	}
}
