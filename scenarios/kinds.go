package scenarios

import (
	"regexp"
	"slices"
	"strings"
)

// kindsOfFile are the kinds of file that are read, those that educators write
// before the one that is for the model's own targets.
var kindsOfFile = []struct {
	name   string
	called string // in a sentence
	fields func() []Field
}{
	{"case", "case", func() []Field { return caseShape.fields() }},
	{"place", "place", func() []Field { return placeShape.fields() }},
	{"policy", "policy", func() []Field { return policyShape.fields() }},
	{"fragment", "fragment", func() []Field { return fragmentShape.fields() }},
	{"items", "file of items", func() []Field { return itemsShape.fields() }},
	{"cohorts", "table of cohorts", func() []Field { return cohortsShape.fields() }},
}

// Kinds lists the kinds of file: the key that each has after format.
func Kinds() []string {
	out := make([]string, len(kindsOfFile))
	for i, k := range kindsOfFile {
		out[i] = k.name
	}
	return out
}

// Called is what to call a file of a kind in a sentence.
func Called(kind string) string {
	for _, k := range kindsOfFile {
		if k.name == kind {
			return k.called
		}
	}
	return kind
}

// Fields is the table for one of [Kinds].
func Fields(kind string) []Field {
	for _, k := range kindsOfFile {
		if k.name == kind {
			return k.fields()
		}
	}
	return nil
}

// schemaLine is how an editor is told in the first line which schema to hold
// a file to.
var schemaLine = regexp.MustCompile(`^#.*\$schema=(?:\S*/)?([a-z]+)\.schema\.json\s*$`)

// Kind says what a file is, one of [Kinds], by its first key after format. Where
// that key is none of them, the schema that the first line names decides; ""
// when nothing says that the file is one of ours.
func Kind(src []byte) string {
	first, _, _ := strings.Cut(strings.TrimPrefix(string(src), "\ufeff"), "\n")
	for rest := string(src); rest != ""; {
		var text string
		text, rest, _ = strings.Cut(rest, "\n")
		text = strings.TrimRight(strings.TrimPrefix(text, "\ufeff"), " \r")
		key, _, found := strings.Cut(text, ":")
		switch {
		case text == "" || text[0] == '#' || text == "---" || key == "format" && found:
			continue
		case found && slices.Contains(Kinds(), key):
			return key
		}
		break
	}
	if m := schemaLine.FindStringSubmatch(first); m != nil && slices.Contains(Kinds(), m[1]) {
		return m[1]
	}
	return ""
}
