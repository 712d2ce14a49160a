package trial

import (
	"go/ast"
	"go/parser"
	"go/token"
	"regexp"
	"strconv"
	"testing"
)

// Every code that the verdict can give has a row that explains it, at the
// level it comes at, and every row can be given.
func TestCodesOfTheVerdict(t *testing.T) {
	tree, err := parser.ParseFile(token.NewFileSet(), "verdict.go", nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	shape := regexp.MustCompile(`^[a-z]+(-[a-z]+)+$`)
	given := map[string]string{}
	find := func(level string, among []ast.Expr) {
		for _, e := range among {
			if lit, ok := e.(*ast.BasicLit); ok && lit.Kind == token.STRING {
				if text, _ := strconv.Unquote(lit.Value); shape.MatchString(text) {
					given[text] = level
					return
				}
			}
		}
	}
	ast.Inspect(tree, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CallExpr:
			id, ok := n.Fun.(*ast.Ident)
			switch {
			case ok && id.Name == "add":
				find(n.Args[0].(*ast.Ident).Name, n.Args[1:2])
			case ok && id.Name == "note":
				find("Note", n.Args[:1])
			}
		case *ast.CompositeLit:
			if id, ok := n.Type.(*ast.Ident); ok && id.Name == "Finding" && len(n.Elts) == 4 {
				find("Fault", n.Elts[1:2])
			}
		}
		return true
	})
	if len(given) < 15 {
		t.Errorf("only %d codes were found in the verdict", len(given))
	}
	levels := map[string]Level{"Fault": Fault, "Caution": Caution, "Note": Note}
	for code, level := range given {
		row, ok := CodeNamed(code)
		if !ok {
			t.Errorf("%s is not explained", code)
		} else if row.Level != levels[level] {
			t.Errorf("%s comes as %s and is explained as %s", code, level, row.Level)
		}
	}
	seen := map[string]bool{}
	for _, c := range Codes() {
		if given[c.Name] == "" {
			t.Errorf("%s is explained, and nothing gives it", c.Name)
		}
		if seen[c.Name] || c.Means == "" || c.Why == "" || c.Do == "" {
			t.Errorf("%s stands twice or is not described", c.Name)
		}
		seen[c.Name] = true
	}
}
