package main

import (
	"fmt"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// moduleRoot is the top of the module, seen from this package's directory.
const moduleRoot = "../.."

// TestImports holds the import graph of the module to testdata/imports.txt and
// to the list of packages in DEVELOPERS.md.
func TestImports(t *testing.T) {
	src, err := os.ReadFile("testdata/imports.txt")
	if err != nil {
		t.Fatal(err)
	}
	table, err := parseImportTable(string(src))
	if err != nil {
		t.Fatal(err)
	}
	graph, err := readImports(os.DirFS(moduleRoot))
	if err != nil {
		t.Fatal(err)
	}
	for _, fault := range table.faults(graph) {
		t.Error(fault)
	}
	page, err := os.ReadFile(filepath.Join(moduleRoot, "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	list, err := parsePackageList(string(page))
	if err != nil {
		t.Fatal(err)
	}
	for _, fault := range list.faults(graph) {
		t.Error("DEVELOPERS.md: " + fault)
	}
}

// TestPackageList shows that the list refuses an arrow that goes up, and what
// it leaves out, has twice or makes up.
func TestPackageList(t *testing.T) {
	list, err := parsePackageList("# A page\n\n```\ntop          main\n  part/a     a part\n  part/b     another\nlow          the bottom\n```\n\n```\nnot this\n```\n")
	if err != nil {
		t.Fatal(err)
	}
	sound := func() importGraph {
		return importGraph{"top": {"blanch/top/part/b", "blanch/low"}, "top/part/a": {"blanch/top/part/b", "time"}, "top/part/b": {"blanch/low"}, "low": {"math"}}
	}
	if got := list.faults(sound()); len(got) != 0 {
		t.Fatalf("a sound graph has faults: %q", got)
	}
	up, more, less := sound(), sound(), sound()
	up["low"] = append(up["low"], "blanch/top/part/a")
	more["new"] = nil
	delete(less, "top/part/a")
	for want, g := range map[string]importGraph{
		"low imports top/part/a, which stands above it": up,
		"new: a package that is not in the list":        more,
		"top/part/a: in the list, and no package":       less,
	} {
		if got := list.faults(g); !slices.Equal(got, []string{want}) {
			t.Errorf("got %q, want only %q", got, want)
		}
	}
	for _, page := range []string{"# No list\n", "```\nlow  a\nlow  b\n```\n", "```\n  low  under nothing\n```\n"} {
		if _, err := parsePackageList(page); err == nil {
			t.Errorf("%q is taken for a list", page)
		}
	}
}

// TestImportTable shows that the table refuses what it ought to refuse.
func TestImportTable(t *testing.T) {
	table, err := parseImportTable(`
		# a module in small
		low:
		high:     low
		top/main: top/part/*
		top/part/a: high
		module example.org/mod: high
		deny low: time math/rand
		deny .: C`)
	if err != nil {
		t.Fatal(err)
	}
	sound := func() importGraph {
		return importGraph{
			"low":        {"math"},
			"high":       {"blanch/low", "time", "example.org/mod/sub"},
			"top/main":   {"blanch/top/part/a"},
			"top/part/a": {"blanch/high"},
		}
	}
	if got := table.faults(sound()); len(got) != 0 {
		t.Fatalf("a sound graph has faults: %q", got)
	}
	for _, test := range []struct{ pkg, add, want string }{
		{"low", "blanch/high", "low imports high: no arrow in the table"},
		{"top/main", "blanch/high", "top/main imports high: no arrow in the table"},
		{"top/main", "blanch/top/partition", "top/main imports top/partition: no arrow in the table"},
		{"low", "time", "low imports time: denied to low"},
		{"low", "math/rand/v2", "low imports math/rand/v2: denied to low"},
		{"high", "C", "high imports C: denied to all"},
		{"low", "example.org/mod", "low imports example.org/mod: that module is only for high"},
		{"high", "example.org/model", "high imports example.org/model: its module has no row"},
		{"other", "fmt", "other: a package without a row"},
	} {
		g := sound()
		g[test.pkg] = append(g[test.pkg], test.add)
		if got := table.faults(g); !slices.Equal(got, []string{test.want}) {
			t.Errorf("%s importing %s: got %q, want only %q", test.pkg, test.add, got, test.want)
		}
	}
	g := sound()
	delete(g, "top/main")
	g["high"] = []string{"blanch/low"}
	want := []string{"top/main: a row without a package", "module example.org/mod: a row for a module nobody imports"}
	if got := table.faults(g); !slices.Equal(got, want) {
		t.Errorf("rows without use: got %q, want %q", got, want)
	}
}

// TestTopLevel fixes what lies at the top of the module. Names that start with
// a dot are free, and so is what .gitignore keeps out of the repository.
func TestTopLevel(t *testing.T) {
	want := []string{
		"cmd", "sim", "scenarios", "scoring", "content",
		"README.md", "DEVELOPERS.md", "go.mod", "go.sum", "LICENSE",
	}
	ignored, err := os.ReadFile(filepath.Join(moduleRoot, ".gitignore"))
	if err != nil {
		t.Fatal(err)
	}
	kept := func(name string) bool {
		for pattern := range strings.FieldsSeq(string(ignored)) {
			if ok, _ := path.Match(strings.Trim(pattern, "/"), name); ok {
				return false
			}
		}
		return !strings.HasPrefix(name, ".")
	}
	entries, err := os.ReadDir(moduleRoot)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, e := range entries {
		if kept(e.Name()) {
			got = append(got, e.Name())
		}
	}
	for _, name := range got {
		if !slices.Contains(want, name) {
			t.Errorf("%s: has no place at the top level", name)
		}
	}
	for _, name := range want {
		if !slices.Contains(got, name) {
			t.Errorf("%s: missing from the top level", name)
		}
	}
}

// importGraph lists the import paths of each package, packages being named by
// their directory below the module's root.
type importGraph map[string][]string

// importTable is the parsed table of permitted imports.
type importTable struct {
	rows    map[string][]string // package: packages of this module
	modules map[string][]string // module: packages that may import it
	denied  map[string][]string // directory, "." for all: closed import paths
}

// packageList names packages in an order in which each imports only what comes
// after it.
type packageList []string

// parsePackageList reads the first block of a page between lines of backticks:
// a package a line, named by its directory, below that of the line without an
// indent above it where it has one.
func parsePackageList(page string) (packageList, error) {
	_, rest, found := strings.Cut(page, "```\n")
	block, _, ended := strings.Cut(rest, "```")
	if !found || !ended {
		return nil, fmt.Errorf("there is no list of packages between lines of backticks")
	}
	var list packageList
	above := ""
	for line := range strings.Lines(block) {
		name, _, _ := strings.Cut(strings.TrimSpace(line), " ")
		if strings.HasPrefix(line, " ") {
			if above == "" {
				return nil, fmt.Errorf("%s stands under no package", name)
			}
			name = path.Join(above, name)
		} else {
			above = name
		}
		if slices.Contains(list, name) {
			return nil, fmt.Errorf("%s stands twice in the list of packages", name)
		}
		list = append(list, name)
	}
	return list, nil
}

// faults lists what in the graph goes up the list, or is in one of them alone.
func (list packageList) faults(g importGraph) []string {
	var out []string
	for _, pkg := range slices.Sorted(maps.Keys(g)) {
		at := slices.Index(list, pkg)
		if at < 0 {
			out = append(out, pkg+": a package that is not in the list")
			continue
		}
		for _, target := range g[pkg] {
			if own, ok := strings.CutPrefix(target, "blanch/"); ok && slices.Contains(list[:at], own) {
				out = append(out, fmt.Sprintf("%s imports %s, which stands above it", pkg, own))
			}
		}
	}
	for _, pkg := range list {
		if _, ok := g[pkg]; !ok {
			out = append(out, pkg+": in the list, and no package")
		}
	}
	return out
}

func parseImportTable(src string) (importTable, error) {
	t := importTable{map[string][]string{}, map[string][]string{}, map[string][]string{}}
	n := 0
	for line := range strings.Lines(src) {
		n++
		line = strings.TrimSpace(line)
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		key, list, ok := strings.Cut(line, ":")
		if !ok {
			return t, fmt.Errorf("line %d: no colon in %q, want \"package: imports\"", n, line)
		}
		section := t.rows
		if name, ok := strings.CutPrefix(key, "module "); ok {
			section, key = t.modules, name
		} else if name, ok := strings.CutPrefix(key, "deny "); ok {
			section, key = t.denied, name
		}
		_, again := section[key]
		if again && !strings.HasPrefix(line, "deny ") {
			return t, fmt.Errorf("line %d: a second row for %s, want one", n, key)
		}
		section[key] = append(section[key], strings.Fields(list)...)
	}
	return t, nil
}

// readImports reads the imports of every Go file that is not a test, under any
// build constraint.
func readImports(module fs.FS) (importGraph, error) {
	g := importGraph{}
	fset := token.NewFileSet()
	err := fs.WalkDir(module, ".", func(file string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		name := d.Name()
		hidden := strings.HasPrefix(name, ".") || strings.HasPrefix(name, "_")
		if d.IsDir() {
			if file != "." && (hidden || name == "testdata") {
				return fs.SkipDir
			}
			return nil
		}
		if hidden || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			return nil
		}
		src, err := fs.ReadFile(module, file)
		if err != nil {
			return err
		}
		parsed, err := parser.ParseFile(fset, file, src, parser.ImportsOnly)
		if err != nil {
			return err
		}
		pkg := path.Dir(file)
		if _, ok := g[pkg]; !ok {
			g[pkg] = []string{} // a package that imports nothing needs a row too
		}
		for _, spec := range parsed.Imports {
			target, err := strconv.Unquote(spec.Path.Value)
			if err != nil {
				return err
			}
			if !slices.Contains(g[pkg], target) {
				g[pkg] = append(g[pkg], target)
			}
		}
		return nil
	})
	return g, err
}

// faults lists what in the graph the table does not permit, and the rows of
// the table that stand for nothing.
func (t importTable) faults(g importGraph) []string {
	var out []string
	used := map[string]bool{}
	for _, pkg := range slices.Sorted(maps.Keys(g)) {
		if _, ok := t.rows[pkg]; !ok {
			out = append(out, pkg+": a package without a row")
			continue
		}
		for _, target := range g[pkg] {
			if why := t.refuses(pkg, target, used); why != "" {
				out = append(out, fmt.Sprintf("%s imports %s: %s", pkg, strings.TrimPrefix(target, "blanch/"), why))
			}
		}
	}
	for _, pkg := range slices.Sorted(maps.Keys(t.rows)) {
		if _, ok := g[pkg]; !ok {
			out = append(out, pkg+": a row without a package")
		}
	}
	for _, mod := range slices.Sorted(maps.Keys(t.modules)) {
		if !used[mod] {
			out = append(out, "module "+mod+": a row for a module nobody imports")
		}
	}
	return out
}

// refuses says why pkg may not import target, "" when it may, and notes the
// external module that the import uses.
func (t importTable) refuses(pkg, target string, used map[string]bool) string {
	for dir, closed := range t.denied {
		if !within(pkg, dir) {
			continue
		}
		for _, c := range closed {
			if !within(target, c) {
				continue
			}
			if dir == "." {
				return "denied to all"
			}
			return "denied to " + dir
		}
	}
	if own, ok := strings.CutPrefix(target, "blanch/"); ok {
		if !covers(t.rows[pkg], own) {
			return "no arrow in the table"
		}
		return ""
	}
	if first, _, _ := strings.Cut(target, "/"); !strings.Contains(first, ".") {
		return "" // only the standard library has no dot in its first element
	}
	for mod, pkgs := range t.modules {
		if !within(target, mod) {
			continue
		}
		used[mod] = true
		if !covers(pkgs, pkg) {
			return "that module is only for " + strings.Join(pkgs, ", ")
		}
		return ""
	}
	return "its module has no row"
}

// covers reports whether a list of names and "dir/*" patterns takes in pkg.
func covers(list []string, pkg string) bool {
	return slices.ContainsFunc(list, func(entry string) bool {
		if dir, ok := strings.CutSuffix(entry, "/*"); ok {
			return pkg != dir && within(pkg, dir)
		}
		return pkg == entry
	})
}

// within reports whether a slash-separated name is dir or lies below it.
func within(name, dir string) bool {
	return dir == "." || name == dir || strings.HasPrefix(name, dir+"/")
}
