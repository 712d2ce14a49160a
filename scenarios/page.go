package scenarios

import (
	"fmt"
	"strings"
)

// Page is the reference of a kind of file in Markdown, made from the table
// of fields that the loader walks.
func Page(kind string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "# The fields of a %s\n\nA %s is one YAML file. It begins with `format: 1` and then `%s:` and its name.\n", Called(kind), Called(kind), kind)
	page(&b, kind, "", Fields(kind))
	return b.String()
}

// page writes a table of the fields of a group, and below it those of the
// groups in it.
func page(b *strings.Builder, kind, at string, fields []Field) {
	title := kind
	if at != "" {
		title += "." + at
	}
	fmt.Fprintf(b, "\n## %s\n\n| field | needed | what it is | wanted | example |\n| --- | --- | --- | --- | --- |\n", title)
	for _, f := range fields {
		needed := ""
		if f.Needed {
			needed = "yes"
		}
		says := f.Value.Says
		if f.Value.Kind == "group" {
			says = "fields, see below"
		}
		if len(f.Value.Choices) > 0 && f.Value.Kind == "choice" {
			says += ": " + strings.Join(f.Value.Choices, ", ")
		}
		if each := f.Value.Each; f.Value.Kind == "list" && each.Kind == "choice" {
			says += ": " + strings.Join(each.Choices, ", ")
		}
		fmt.Fprintf(b, "| %s | %s | %s | %s | `%s` |\n", cell(f.Key), needed, cell(f.Doc), cell(says), cell(f.Example))
	}
	for _, f := range fields {
		path := f.Key
		if at != "" {
			path = at + "." + f.Key
		}
		v := f.Value
		for v.Each != nil {
			if v.Kind == "names" {
				path += ".NAME"
			}
			v = *v.Each
		}
		if len(v.Fields) > 0 {
			page(b, kind, path, v.Fields)
		}
	}
}

// cell keeps a bar in a cell from ending it.
func cell(s string) string { return strings.ReplaceAll(s, "|", `\|`) }
