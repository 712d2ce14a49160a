package scenarios

import (
	"fmt"
	"sort"
	"strings"
)

// reader is one reading of one file: the complaints so far, and where each
// field stands, so that checks across fields can point at them. Fields are
// named by their path, "veins/left-cephalic-forearm/depth"; list items count
// from 1.
type reader struct {
	src        *source
	table      []Field // the whole table of this kind of file
	owned      []Field // limits that this kind of file may not set
	complaints []Complaint
	dropped    int
	partial    bool            // a fragment is missing, so names that it may bring are let pass
	where      map[string]Pos  // of a field's value when it is a scalar, else of its key
	broken     map[string]bool // fields that are missing or were refused
}

func newReader(table []Field) *reader {
	return &reader{table: table, where: map[string]Pos{}, broken: map[string]bool{}}
}

// complain records a complaint; a level of zero means Error.
func (r *reader) complain(c Complaint) {
	if c.Level == 0 {
		c.Level = Error
	}
	if len(r.complaints) >= maxComplaints {
		r.dropped++
		return
	}
	r.complaints = append(r.complaints, c)
}

// at complains about a field named by its path.
func (r *reader) at(path string, level Level, code, said, allowed string) {
	r.complain(Complaint{Level: level, Code: code, Pos: r.pos(path), Said: said, Allowed: allowed})
}

// pos is where a field stands, or the nearest group around it that is there.
func (r *reader) pos(path string) Pos {
	for {
		if p, ok := r.where[path]; ok {
			return p
		}
		i := strings.LastIndexByte(path, '/')
		if i < 0 {
			return r.src.pos(1, 1)
		}
		path = path[:i]
	}
}

// sound says that all of these fields are there and readable.
func (r *reader) sound(paths ...string) bool {
	for _, p := range paths {
		if _, ok := r.where[p]; !ok || r.broken[p] {
			return false
		}
	}
	return true
}

// place is where to point for a value: an empty value has no place of its
// own, so its key stands in; so does the key of a group.
func (r *reader) place(at string, n *node) Pos {
	if n.kind == mapping || n.null() {
		return r.pos(at)
	}
	return r.src.pos(n.line, n.column)
}

// unfit complains that a value is not of the wanted shape, and returns false.
// Values that were refused before are passed over.
func (r *reader) unfit(at string, n *node, code, allowed string) bool {
	switch {
	case n.kind == 0:
	case n.null():
		said := r.subject(at, "file") + " has nothing after it"
		if n.text != "" {
			said = fmt.Sprintf("%s is %s, which YAML reads as nothing", r.subject(at, "file"), quoted(n.text))
		}
		r.complain(Complaint{Code: "empty-field", Pos: r.place(at, n), Said: said, Allowed: allowed})
	default:
		r.complain(Complaint{Code: code, Pos: r.place(at, n), Said: fmt.Sprintf("%s is %s", r.subject(at, "file"), n.describe()), Allowed: allowed})
	}
	return false
}

// subject names what a path stands for in a message.
func (r *reader) subject(at, fallback string) string {
	if at == "" {
		return "the " + fallback
	}
	parts := strings.Split(at, "/")
	last := parts[len(parts)-1]
	switch {
	case len(parts) == 1:
	case last == "":
		return "what stands under an empty name in " + quoted(parts[len(parts)-2])
	case last[0] >= '1' && last[0] <= '9':
		return fmt.Sprintf("item %s of %s", last, quoted(parts[len(parts)-2]))
	}
	return quoted(last)
}

// unknown complains about a key that the table does not have, and returns
// the key that was likely meant.
func (r *reader) unknown(at, name string, key, value *node, fields []Field) string {
	c := Complaint{Code: "unknown-field", Pos: r.src.pos(key.line, key.column)}
	c.Said = fmt.Sprintf("%s has no field %s", r.subject(at, name), quoted(key.text))
	c.Allowed = keysOf(fields)
	keys := make([]string, len(fields))
	for i, f := range fields {
		keys[i] = f.Key
	}
	c.Meant = Nearest(key.text, keys)
	switch {
	case has(r.owned, key.text):
		c.Code, c.Meant = "policy-owns", ""
		c.Said = fmt.Sprintf("a %s may not set %s: the policy owns it", name, quoted(key.text))
		c.Allowed = "the limit in a policy file; an order that breaks it may stand in a case"
	case value.null() && strings.Contains(key.text, " "):
		c.Allowed = "text that holds a comma between quotes; or one of: " + c.Allowed
	case c.Meant == "":
		if home := homeOf(key.text, r.table, ""); home != "" && home != at {
			c.Allowed = fmt.Sprintf("%s under %s", quoted(key.text), quoted(home))
		}
	}
	r.complain(c)
	return c.Meant
}

func has(fields []Field, key string) bool {
	for _, f := range fields {
		if f.Key == key {
			return true
		}
	}
	return false
}

// homeOf finds the group that has a field of that key.
func homeOf(key string, fields []Field, home string) string {
	for _, f := range fields {
		inner := f.Value.Fields
		if f.Value.Each != nil {
			inner = f.Value.Each.Fields
		}
		for _, g := range inner {
			if g.Key == key {
				return f.Key
			}
		}
		if found := homeOf(key, inner, f.Key); found != "" {
			return found
		}
	}
	return ""
}

// done returns the complaints in the order of the file, none twice, and
// whether any of them is an error.
func (r *reader) done() ([]Complaint, bool) {
	sort.SliceStable(r.complaints, func(i, j int) bool {
		a, b := r.complaints[i].Pos, r.complaints[j].Pos
		if a.Line != b.Line {
			return a.Line < b.Line
		}
		return a.Column < b.Column
	})
	var out []Complaint
	failed := false
	for i, c := range r.complaints {
		if i > 0 && c.Pos == r.complaints[i-1].Pos && c.Code == r.complaints[i-1].Code && c.Said == r.complaints[i-1].Said {
			continue
		}
		failed = failed || c.Level == Error
		out = append(out, c)
	}
	if r.dropped > 0 {
		out = append(out, Complaint{
			Level: Error, Code: "too-many", Pos: r.src.pos(1, 1),
			Said: fmt.Sprintf("%d more complaints are left out", r.dropped), Allowed: "the first ones put right, then another try",
		})
		failed = true
	}
	return out, failed
}
