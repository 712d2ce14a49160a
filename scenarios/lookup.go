package scenarios

import "strings"

// Entry is a field with the path that leads to it, "veins.NAME.depth": NAME
// stands where the author chooses a name, and a list adds nothing.
type Entry struct {
	Path string
	Field
}

// Entries lists every field of a kind of file with its path, each group
// before the fields in it.
func Entries(kind string) []Entry { return entriesOf("", Fields(kind)) }

func entriesOf(at string, fields []Field) []Entry {
	var out []Entry
	for _, f := range fields {
		path := f.Key
		if at != "" {
			path = at + "." + f.Key
		}
		out = append(out, Entry{path, f})
		v, below := f.Value, path
		for v.Each != nil {
			if v.Kind == "names" {
				below += ".NAME"
			}
			v = *v.Each
		}
		out = append(out, entriesOf(below, v.Fields)...)
	}
	return out
}

// Under lists the fields right below a path of a kind of file, all of the
// file for the empty path.
func Under(kind, path string) []Entry {
	var out []Entry
	for _, e := range Entries(kind) {
		rest, below := strings.CutPrefix(e.Path, path+".")
		if path == "" {
			rest, below = e.Path, true
		}
		for strings.HasPrefix(rest, "NAME.") {
			rest = strings.TrimPrefix(rest, "NAME.")
		}
		if below && !strings.Contains(rest, ".") {
			out = append(out, e)
		}
	}
	return out
}

// FieldAt finds a field by its path. NAME may be any name, or be left out,
// and list items are not counted.
func FieldAt(kind, path string) (Entry, bool) {
	wanted := strings.Split(path, ".")
	for _, e := range Entries(kind) {
		if fits(strings.Split(e.Path, "."), wanted) {
			return e, true
		}
	}
	return Entry{}, false
}

func fits(path, wanted []string) bool {
	switch {
	case len(path) == 0:
		return len(wanted) == 0
	case path[0] == "NAME":
		return fits(path[1:], wanted) || len(wanted) > 0 && fits(path[1:], wanted[1:])
	}
	return len(wanted) > 0 && path[0] == wanted[0] && fits(path[1:], wanted[1:])
}
