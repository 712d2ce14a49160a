package scenarios

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"gopkg.in/yaml.v3"
)

// compiled is the schema of a kind of file, read by an implementation of JSON
// Schema that is not ours.
func compiled(t testing.TB, kind string) *jsonschema.Schema {
	t.Helper()
	text, err := Schema(kind)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	c.DefaultDraft(jsonschema.Draft2020)
	c.AssertFormat()
	if err := c.AddResource("schema.json", doc); err != nil {
		t.Fatal(err)
	}
	schema, err := c.Compile("schema.json")
	if err != nil {
		t.Fatal(err)
	}
	return schema
}

// asJSON reads YAML as an editor does that hands it to a schema.
func asJSON(src []byte) (any, error) {
	var doc yaml.Node
	if err := yaml.Unmarshal(src, &doc); err != nil {
		return nil, err
	}
	return jsonOf(&doc)
}

func jsonOf(n *yaml.Node) (any, error) {
	switch n.Kind {
	case yaml.DocumentNode:
		return jsonOf(n.Content[0])
	case yaml.MappingNode:
		m := map[string]any{}
		for i := 0; i+1 < len(n.Content); i += 2 {
			v, err := jsonOf(n.Content[i+1])
			if err != nil {
				return nil, err
			}
			m[n.Content[i].Value] = v
		}
		return m, nil
	case yaml.SequenceNode:
		items := []any{}
		for _, c := range n.Content {
			v, err := jsonOf(c)
			if err != nil {
				return nil, err
			}
			items = append(items, v)
		}
		return items, nil
	}
	if n.Tag == "!!timestamp" {
		return n.Value, nil
	}
	var v any
	err := n.Decode(&v)
	return v, err
}

// Every file that we ship or load in tests fits its schema.
func TestSoundFilesFitTheSchema(t *testing.T) {
	schemas := map[string]*jsonschema.Schema{}
	for _, kind := range []string{"case", "place", "policy", "fragment", "cohorts", "items"} {
		schemas[kind] = compiled(t, kind)
	}
	files := 0
	for _, pattern := range []string{"../content/*/*.yaml", "testdata/*.yaml"} {
		found, err := filepath.Glob(pattern)
		if err != nil || len(found) == 0 {
			t.Fatal(pattern, err)
		}
		for _, file := range found {
			src, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			doc, err := asJSON(src)
			if err != nil {
				t.Fatal(file, err)
			}
			if err := schemas[Kind(src)].Validate(doc); err != nil {
				t.Errorf("%s: %v", file, err)
			}
			files++
		}
	}
	if files < 8 {
		t.Errorf("only %d files", files)
	}
}

// structural are the codes that a schema sees too, wherever they come.
var structural = map[string]bool{
	"unknown-field": true, "missing-field": true, "not-a-choice": true, "no-unit": true, "policy-owns": true,
	"not-a-group": true, "not-a-list": true, "not-text": true, "not-true-or-false": true, "empty-list": true,
	"empty-field": true, "not-a-date": true, "not-a-point": true, "not-a-count": true, "unknown-format": true, "bad-name": true,
}

// A faulty file of one of those kinds does not fit; a file that loads does.
func TestFaultyFilesAndTheSchema(t *testing.T) {
	files, err := filepath.Glob("testdata/faults/*.yaml")
	if err != nil {
		t.Fatal(err)
	}
	schemas := map[string]*jsonschema.Schema{}
	refused := map[string]int{}
	code := regexp.MustCompile(`\[([a-z0-9-]+)\]\n`)
	for _, file := range files {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		want, err := os.ReadFile(strings.TrimSuffix(file, ".yaml") + ".want")
		if err != nil {
			t.Fatal(err)
		}
		kind, _, _ := strings.Cut(filepath.Base(file), "-")
		if schemas[kind] == nil {
			schemas[kind] = compiled(t, kind)
		}
		doc, err := asJSON(src)
		if err != nil {
			continue // no editor gets as far as the schema
		}
		verdict := schemas[kind].Validate(doc)
		_, loaded := complaintsAbout(t, file, src)
		seen := false
		for _, m := range code.FindAllStringSubmatch(string(want), -1) {
			seen = seen || structural[m[1]]
			if structural[m[1]] && verdict != nil {
				refused[m[1]]++
			}
		}
		if loaded && verdict != nil {
			t.Errorf("%s loads, and the schema refuses it: %v", file, verdict)
		}
		if seen && verdict == nil && !crossField[filepath.Base(file)] {
			t.Errorf("%s: the schema lets it pass:\n%s", file, want)
		}
	}
	for c := range structural {
		if refused[c] == 0 {
			t.Errorf("no faulty file shows that the schema sees %s", c)
		}
	}
}

// crossField are files whose fault takes a look at a second field.
var crossField = map[string]bool{
	"case-leak-without-time.yaml":         true,
	"place-library-empty.yaml":            true,
	"place-no-pharmacist.yaml":            true,
	"case-neither-like-nor-steps.yaml":    true,
	"case-changes-of-nothing.yaml":        true,
	"case-vein-without-a-measure.yaml":    true,
	"case-escaped-control-character.yaml": true,
}

// The examples of the table fit the fields that they are examples of.
func TestSchemaExamples(t *testing.T) {
	for _, kind := range []string{"case", "place", "policy", "items"} {
		examples := 0
		for _, e := range Entries(kind) {
			value, ok := plainExample(e.Example)
			if !ok {
				continue
			}
			text, err := object{{"$schema", Dialect}, {"properties", object{{"x", e.Value.schema()}}}}.MarshalJSON()
			if err != nil {
				t.Fatal(err)
			}
			doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
			if err != nil {
				t.Fatal(err)
			}
			c := jsonschema.NewCompiler()
			if err := c.AddResource("x.json", doc); err != nil {
				t.Fatal(err)
			}
			schema, err := c.Compile("x.json")
			if err != nil {
				t.Fatal(e.Path, err)
			}
			one, err := object{{"x", value}}.MarshalJSON()
			if err != nil {
				t.Fatal(err)
			}
			instance, err := jsonschema.UnmarshalJSON(bytes.NewReader(one))
			if err != nil {
				t.Fatal(err)
			}
			if err := schema.Validate(instance); err != nil {
				t.Errorf("%s.%s: %v", kind, e.Path, err)
			}
			examples++
		}
		if examples < 20 {
			t.Errorf("%s: only %d examples", kind, examples)
		}
	}
}

// The page and the schema name every field, with its needed or not.
func TestPageNamesEveryField(t *testing.T) {
	for _, kind := range []string{"case", "place", "policy", "items"} {
		text := Page(kind)
		for _, e := range Entries(kind) {
			needed := ""
			if e.Needed {
				needed = "yes"
			}
			if !strings.Contains(text, "| "+e.Key+" | "+needed+" | "+cell(e.Doc)+" |") {
				t.Errorf("the page of a %s leaves out %s", kind, e.Path)
			}
			if strings.Contains(e.Path, ".") {
				continue
			}
			if _, ok := FieldAt(kind, e.Path); !ok {
				t.Errorf("%s cannot be looked up", e.Path)
			}
		}
		for _, line := range strings.Split(text, "\n") {
			if bars := strings.Count(line, "|") - strings.Count(line, `\|`); strings.HasPrefix(line, "|") && bars != 6 {
				t.Errorf("a row of %d bars: %s", bars, line)
			}
		}
	}
	if _, err := Schema("sonnet"); err == nil {
		t.Error("there is a schema of a kind of file that there is not")
	}
}
