package scenarios

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

var codeShape = regexp.MustCompile(`^[a-z][a-z0-9]*(-[a-z0-9]+)*$`)

// codesInSource finds every code that the sources of a package can give: in
// "Code:" and "code:" of a literal, in an assignment to Code, in the rows of
// the table of slips, in what functions return under the name code, and in
// what calls hand to a parameter of that name. Codes that are made of
// "unknown-" and a parameter called what are followed to the calls too.
func codesInSource(t *testing.T, dir string) map[string]token.Position {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil || len(files) == 0 {
		t.Fatal(dir, err)
	}
	set := token.NewFileSet()
	var trees []*ast.File
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") || strings.HasPrefix(filepath.Base(file), "codes") {
			continue
		}
		tree, err := parser.ParseFile(set, file, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		trees = append(trees, tree)
	}
	found := map[string]token.Position{}
	add := func(e ast.Expr, prefix string) {
		if lit, ok := e.(*ast.BasicLit); ok && lit.Kind == token.STRING {
			text, _ := strconv.Unquote(lit.Value)
			if text = prefix + text; codeShape.MatchString(text) {
				found[text] = set.Position(lit.Pos())
			}
		}
	}
	// Where a function takes a code, and where one takes the what of
	// "unknown-"+what; what it returns under the name code is taken as well.
	codeAt, whatAt := map[string]int{}, map[string]int{}
	each := func(visit func(ast.Node)) {
		for _, tree := range trees {
			ast.Inspect(tree, func(n ast.Node) bool {
				if n != nil {
					visit(n)
				}
				return true
			})
		}
	}
	signature := func(name string, f *ast.FuncType, body *ast.BlockStmt) {
		i := 0
		for _, p := range f.Params.List {
			for _, id := range p.Names {
				switch id.Name {
				case "code":
					codeAt[name] = i
				case "what":
					if strings.HasPrefix(name, "known") || name == "unknown" && dir != "." {
						whatAt[name] = i
					}
				}
				i++
			}
		}
		if f.Results == nil || body == nil {
			return
		}
		i = 0
		for _, p := range f.Results.List {
			for _, id := range p.Names {
				if id.Name == "code" {
					ast.Inspect(body, func(n ast.Node) bool {
						if r, ok := n.(*ast.ReturnStmt); ok && len(r.Results) > i {
							add(r.Results[i], "")
						}
						return true
					})
				}
				i++
			}
		}
	}
	each(func(n ast.Node) {
		switch n := n.(type) {
		case *ast.FuncDecl:
			signature(n.Name.Name, n.Type, n.Body)
		case *ast.AssignStmt:
			for i, right := range n.Rhs {
				if f, ok := right.(*ast.FuncLit); ok && i < len(n.Lhs) {
					if id, ok := n.Lhs[i].(*ast.Ident); ok {
						signature(id.Name, f.Type, f.Body)
					}
				}
				if i < len(n.Lhs) {
					if s, ok := n.Lhs[i].(*ast.SelectorExpr); ok && s.Sel.Name == "Code" {
						add(right, "")
					}
				}
			}
		}
	})
	each(func(n ast.Node) {
		switch n := n.(type) {
		case *ast.KeyValueExpr:
			if id, ok := n.Key.(*ast.Ident); ok && id.Name == "Code" {
				add(n.Value, "")
			}
		case *ast.CompositeLit:
			if list, ok := n.Type.(*ast.ArrayType); ok {
				if id, ok := list.Elt.(*ast.Ident); ok && id.Name == "slip" {
					for _, row := range n.Elts {
						add(row.(*ast.CompositeLit).Elts[1], "")
					}
				}
			}
		case *ast.CallExpr:
			name := ""
			switch f := n.Fun.(type) {
			case *ast.Ident:
				name = f.Name
			case *ast.SelectorExpr:
				name = f.Sel.Name
			}
			if i, ok := codeAt[name]; ok && i < len(n.Args) {
				add(n.Args[i], "")
			}
			if i, ok := whatAt[name]; ok && i < len(n.Args) {
				add(n.Args[i], "unknown-")
			}
		}
	})
	return found
}

// Every code that can be given is in the table, and every row can be given.
func TestCodesAreTheTable(t *testing.T) {
	used := map[string]bool{}
	for _, dir := range []string{".", "../scoring", "../cmd/blanch"} {
		for code, at := range codesInSource(t, dir) {
			used[code] = true
			if _, ok := CodeNamed(code); !ok {
				t.Errorf("%s: the code %s is not in the table of codes", at, code)
			}
		}
	}
	seen := map[string]bool{}
	for _, c := range Codes() {
		if !used[c.Name] {
			t.Errorf("%s is in the table, and nothing gives it", c.Name)
		}
		if seen[c.Name] {
			t.Errorf("%s stands twice", c.Name)
		}
		seen[c.Name] = true
		if !codeShape.MatchString(c.Name) || c.Level < Error || c.Level > Note || c.Means == "" || Fields(c.In) == nil {
			t.Errorf("%s is not described: %+v", c.Name, c)
		}
		if c.Fails == c.Mended {
			t.Errorf("%s: both examples are the same", c.Name)
		}
	}
	if len(used) < 100 {
		t.Errorf("only %d codes were found in the sources", len(used))
	}
}

// Each code of this package has a faulty file that brings it.
func TestEveryCodeHasAFaultyFile(t *testing.T) {
	files, err := filepath.Glob("testdata/faults/*.want")
	if err != nil {
		t.Fatal(err)
	}
	brought := map[string]bool{}
	inBrackets := regexp.MustCompile(`(?m): (?:error|warning|note): .*\[([a-z0-9-]+)\]$`)
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range inBrackets.FindAllStringSubmatch(string(text), -1) {
			brought[m[1]] = true
		}
	}
	for _, m := range []string{
		"too-large", "too-many", "too-many-values", // made by TestLimits, which is shorter
		"unknown-person", "unknown-pump", "not-in-stock", // of a case in its place: TestCheckPlace
	} {
		brought[m] = true
	}
	for code, at := range codesInSource(t, ".") {
		if !brought[code] {
			t.Errorf("%s: no faulty file brings %s", at, code)
		}
	}
}

func TestUnfold(t *testing.T) {
	for in, want := range map[string]string{
		"a<3 times: xy>b":    "axyxyxyb",
		"<U+202E><byte FF>.": "\u202e\xff.",
		"a < b and c > d":    "a < b and c > d",
	} {
		if got := Unfold(in); got != want {
			t.Errorf("Unfold(%q) is %q, want %q", in, got, want)
		}
	}
}
