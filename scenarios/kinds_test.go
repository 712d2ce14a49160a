package scenarios

import (
	"slices"
	"testing"
)

// Each kind of file has fields, of which the second names it, a schema and a
// page; and a file that begins so is of that kind.
func TestKinds(t *testing.T) {
	if want := []string{"case", "place", "policy", "fragment", "items", "cohorts"}; !slices.Equal(Kinds(), want) {
		t.Errorf("got %q, want %q", Kinds(), want)
	}
	for _, kind := range Kinds() {
		fields := Fields(kind)
		if len(fields) < 3 || fields[0].Key != "format" || fields[1].Key != kind {
			t.Errorf("%s: its fields begin with %v", kind, fields[:min(2, len(fields))])
		}
		if _, err := Schema(kind); err != nil {
			t.Error(err)
		}
		if got := Kind([]byte("format: 1\n" + kind + ": x\n")); got != kind {
			t.Errorf("%s is taken for %q", kind, got)
		}
	}
	if _, err := Schema("sonnet"); err == nil || Fields("sonnet") != nil {
		t.Error("there is a sonnet")
	}
}

// What a broken beginning does not say, the schema that the first line names does.
func TestKindByItsSchema(t *testing.T) {
	const line = "# yaml-language-server: $schema="
	for text, want := range map[string]string{
		line + "case.schema.json\ntilte: x\nformat: 1\ncase: y\n": "case",
		line + "../schemas/place.schema.json\r\npalce: x\r\n":     "place",
		"\ufeff" + line + "policy.schema.json\nx\n":               "policy",
		line + "case.schema.json\nformat: 1\npolicy: y\n":         "policy", // what the file says itself
		line + "https://example.org/ci.schema.json\non: push\n":   "",
		"on: push\n" + line + "case.schema.json\n":                "",
		"# a case.schema.json is mentioned\non: push\n":           "",
		line + "case.schema.json and more words\non: push\n":      "",
		"tilte: x\nformat: 1\ncase: y\n":                          "",
	} {
		if got := Kind([]byte(text)); got != want {
			t.Errorf("%q: got %q, want %q", text, got, want)
		}
	}
}
