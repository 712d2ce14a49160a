package portable_test

import (
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"
)

// newInfo asks the type checker for what lint needs.
func newInfo() *types.Info {
	return &types.Info{Types: map[ast.Expr]types.TypeAndValue{}, Uses: map[*ast.Ident]types.Object{}}
}

// Everything under sim must compute the same bits on every CPU.
func TestTheWholeEngineIsExact(t *testing.T) {
	root, err := filepath.Abs("..")
	if err != nil {
		t.Fatal(err)
	}
	fset := token.NewFileSet()
	packages := map[string][]*ast.File{} // by folder
	err = filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		f, err := parser.ParseFile(fset, path, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		packages[filepath.Dir(path)] = append(packages[filepath.Dir(path)], f)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(packages) < 5 {
		t.Fatalf("only %d packages were found under %s", len(packages), root)
	}
	from := importer.ForCompiler(fset, "source", nil)
	for folder, files := range packages {
		info := newInfo()
		config := types.Config{Importer: from, Error: func(err error) { t.Errorf("cannot be checked: %v", err) }}
		config.Check(folder, fset, files, info) // errors went to Error
		for _, s := range lint(fset, files, info) {
			t.Error(strings.TrimPrefix(s, root+string(filepath.Separator)))
		}
	}
}

// The lint itself must find what it is for, where it is, and nothing else.
func TestLintFindsWhatItIsFor(t *testing.T) {
	for name, c := range map[string]struct {
		src  string // body of a file after its package clause, from line 2
		want []string
	}{
		"bare product":             {"func f(a, b float64) float64 { return a * b }", []string{"x.go:2: product"}},
		"product in a sum":         {"func f(a, b, c float64) float64 { return a*b + c }", []string{"x.go:2: product"}},
		"sum wrapped, not product": {"func f(a, b, c float64) float64 { return float64(a*b + c) }", []string{"x.go:2: product"}},
		"both products of a sum":   {"func f(a, b, c float64) float64 {\n\treturn float64(a*b) +\n\t\tb*c + a*c\n}", []string{"x.go:4: product", "x.go:4: product"}},
		"negated product":          {"func f(a, b float64) float64 { return float64(-(a * b)) }", []string{"x.go:2: product"}},
		"argument":                 {"func f(a, b float64) float64 { return f(a*b, a) }", []string{"x.go:2: product"}},
		"comparison":               {"func f(a, b float64) bool { return a*b > 1 }", []string{"x.go:2: product"}},
		"assigned":                 {"func f(a, b float64) { c := a * b; _ = c }", []string{"x.go:2: product"}},
		"named float":              {"type mm float64\nfunc f(a mm) mm { return a * a }", []string{"x.go:3: product"}},
		"single precision":         {"func f(a float32) float32 { return a * a }", []string{"x.go:2: product"}},
		"complex":                  {"func f(a complex128) complex128 { return a * a }", []string{"x.go:2: product"}},
		"by a constant":            {"func f(a float64) float64 { return 2 * a }", []string{"x.go:2: product"}},
		"times and becomes":        {"func f(a, b float64) float64 { a *= b; return a }", []string{"x.go:2: *= on a float"}},
		"inside a closure":         {"var f = func(a float64) float64 { return 1 + a*a }", []string{"x.go:2: product"}},
		"converted to int":         {"func f(a float64) int { return int(a * a) }", []string{"x.go:2: product"}},
		"a function named so":      {"func float(a float64) float64 { return a }\nfunc f(a float64) float64 { return float(a * a) }", []string{"x.go:3: product"}},
		"exp":                      {"import \"math\"\nvar x = math.Exp(1)", []string{"x.go:3: math.Exp"}},
		"renamed":                  {"import m \"math\"\nvar x = m.Log2(1)", []string{"x.go:3: math.Log2"}},
		"dot import":               {"import . \"math\"\nvar x = Tanh(1)", []string{"x.go:3: math.Tanh"}},
		"as a value":               {"import \"math\"\nvar f = math.Pow", []string{"x.go:3: math.Pow"}},
		"fused by hand":            {"import \"math\"\nvar x = math.FMA(1, 2, 3)", []string{"x.go:3: math.FMA"}},
		"random":                   {"import \"math/rand/v2\"\nvar x = rand.Int()", []string{"x.go:2: import of math/rand/v2"}},
		"clock":                    {"import \"time\"\nvar x = time.Now()", []string{"x.go:2: import of time"}},
		"blank import":             {"import (\n\t_ \"os\"\n\t_ \"log\"\n\t_ \"sync\"\n)", []string{"x.go:3: import of os", "x.go:4: import of log", "x.go:5: import of sync"}},
		"goroutine":                {"func f() {\n\tgo f()\n}", []string{"x.go:3: go statement"}},
		"select":                   {"func f() { select {} }", []string{"x.go:2: select statement"}},

		"rounded":              {"func f(a, b, c float64) float64 { return float64(a*b) + c }", nil},
		"rounded in brackets":  {"func f(a, b float64) float64 { return float64((a * b)) }", nil},
		"long product":         {"func f(a, b, c float64) float64 { return float64(a * (b * c) * 2) }", nil},
		"quotient":             {"func f(a, b, c float64) float64 { return a*b/c + c/(a*b) }", nil},
		"named float, rounded": {"type mm float64\nfunc f(a mm) mm { return mm(a * a) }", nil},
		"constants":            {"const half = 0.5\nfunc f(a float64) float64 { return a + half*3 }", nil},
		"whole numbers":        {"func f(a, b int) int { a *= b; return a*b + 1 }", nil},
		"pointers":             {"func f(a *float64) float64 { return *a + 1 }", nil},
		"exact functions":      {"import \"math\"\nvar x = math.Sqrt(2) + math.Floor(1.5) + math.Pi + math.Inf(1)", nil},
		"own function":         {"func Exp(x float64) float64 { return x }\nvar y = Exp(1)", nil},
	} {
		t.Run(name, func(t *testing.T) {
			fset := token.NewFileSet()
			f, err := parser.ParseFile(fset, "x.go", "package x\n"+c.src, parser.SkipObjectResolution)
			if err != nil {
				t.Fatal(err)
			}
			info := newInfo()
			config := types.Config{Importer: standard}
			if _, err := config.Check("x", fset, []*ast.File{f}, info); err != nil && !strings.Contains(err.Error(), "imported and not used") {
				t.Fatal(err)
			}
			got := lint(fset, []*ast.File{f}, info)
			if len(got) != len(c.want) {
				t.Fatalf("found %q, want %q", got, c.want)
			}
			for i := range got {
				if !strings.HasPrefix(got[i], c.want[i]) {
					t.Errorf("found %q, want %q", got[i], c.want[i])
				}
			}
		})
	}
}

// standard imports the standard library once for all small sources.
var standard = importer.ForCompiler(token.NewFileSet(), "source", nil)
