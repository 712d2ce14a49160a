package sim

import (
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"blanch/sim/circulation"
	"blanch/sim/drug"
	"blanch/sim/line"
	"blanch/sim/symbol"
	"blanch/sim/tissue"
	"blanch/sim/vein"
)

// arithmetic are numbers that no model chose: counts, halves, parts of a
// Runge-Kutta step or of an integral, hours, minutes, milli and percent.
var arithmetic = []float64{0, 1, 2, 3, 4, 5, 6, 60, 100, 1000, 3600}

// conversions turn the unit of a symbol into the engine's own.
var conversions = []float64{60, 1000}

// plain are numbers that stand in a file without being a parameter of the
// model, and why.
var plain = map[string]map[string]string{
	"vein/geometry.go": {"180": "degrees of half a turn", "0": "no such gauge",
		"14": "gauge", "16": "gauge", "18": "gauge", "20": "gauge", "22": "gauge", "24": "gauge", "26": "gauge"},
	"vein/symbols.go":            {"14": "gauge", "16": "gauge", "18": "gauge", "20": "gauge", "22": "gauge", "24": "gauge", "26": "gauge"},
	"drug/catecholamines.go":     {"70": "kg at which a published law is stated", "80": "mg of a salt on a label", "64.6": "mg of base in it"},
	"drug/norepinephrine.go":     {"20": "score at which a published law is stated", "1.89": "mass of a salt, by its label", "1.994": "mass of a salt, by its formula"},
	"tissue/depot.go":            {"10": "grid", "20": "grid", "1200": "grid"},
	"library.go":                 {"1e-9": "rounding"},
	"tissue/symbols.go":          {"1e-9": "as good as none left", "1e-3": "as good as none left"},
	"circulation/circulation.go": {"1e-3": "shortest stretch with a curve"},
	"time.go":                    {"1": "of Never", "62": "of Never"},
	"state.go":                   {"2": "arms"},
	"ends.go":                    {"1.0": "a third, written as a quotient", "3": "a third, written as a quotient"},
	"engine.go":                  {"120": "room for entries", "10": "room for readings"},
	"monitor.go":                 {"0.5": "rounding to a whole number", "10": "min after which the monitor sounds again, common practice"},
	"events.go":                  {"1e-6": "rounding of the grid"},
	"physics.go":                 {"8": "drugs in play at most", "4": "lengths kept"},
	"injury.go":                  {"30": "halvings of a search", "0.05": "s to which a first sign is located"},
	"pressure.go":                {"40": "halvings of a search"},
	"settling.go":                {"2880": "of Simpson's rule"},
	"acts_line.go":               {"15": "degrees, a usual angle that is only said", "45": "degrees, a usual angle that is only said", "0.1": "rounding of a finding", "0.01": "rounding of a finding"},
	"acts_look.go":               {"10": "mm in a cm", "0.5": "rounding of a finding"},
	"acts_mix.go":                {"20": "mL of the largest syringe", "1e-9": "rounding", "0.01": "rounding of what is said"},
	"acts_prove.go":              {"20": "mL of the largest syringe", "30": "s of checking a kit, an act's span"},
	"acts_pump.go":               {"0.1": "rounding of what is said", "1e-6": "rounding of what is said", "10": "rounding of what is said"},
	"acts_respond.go":            {"0.1": "rounding of what is said", "1e-9": "rounding"},
	"sums.go":                    {"0.001": "rounding of a working", "0.01": "rounding of a working", "0.1": "rounding of a working"},
}

// stated is every symbol there is.
func stated() []symbol.Symbol {
	all := slices.Concat(tissue.Symbols(), circulation.Symbols(), vein.Symbols(), line.Symbols(), Symbols())
	for _, name := range drug.Names() {
		d, _ := drug.Named(name)
		all = append(all, d.Symbols()...)
	}
	return all
}

// Every symbol lies inside its range and says what it is and why; no name
// stands twice.
func TestEverySymbolIsStated(t *testing.T) {
	seen := map[string]bool{}
	for _, s := range stated() {
		if !(s.Low <= s.Value && s.Value <= s.High) || s.Low == s.High || s.Unit == "" || s.Why == "" || seen[s.Name] {
			t.Errorf("symbol %+v stands twice, outside its range, or without unit or reason", s)
		}
		seen[s.Name] = true
	}
}

// Every number of the model stands in a table of symbols: a literal in a
// declaration, or in a function that is a table, is the value of a symbol of
// that package, and one in a formula is arithmetic or a listed exception.
func TestEveryNumberIsASymbol(t *testing.T) {
	drugs := []symbol.Symbol{}
	for _, name := range drug.Names() {
		d, _ := drug.Named(name)
		drugs = append(drugs, d.Symbols()...)
	}
	tables := map[string][]symbol.Symbol{
		".": Symbols(), "tissue": tissue.Symbols(), "circulation": circulation.Symbols(), "vein": vein.Symbols(), "line": line.Symbols(), "drug": drugs,
	}
	used := map[string]map[string]bool{}
	for dir, symbols := range tables {
		entries, err := os.ReadDir(dir)
		if err != nil {
			t.Fatal(err)
		}
		for _, entry := range entries {
			name := entry.Name()
			if !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
				continue
			}
			path := filepath.ToSlash(filepath.Join(dir, name))
			used[path] = map[string]bool{}
			fset := token.NewFileSet()
			file, err := parser.ParseFile(fset, path, nil, 0)
			if err != nil {
				t.Fatal(err)
			}
			for _, decl := range file.Decls {
				table := isTable(decl)
				for _, lit := range numbers(decl) {
					v, err := strconv.ParseFloat(lit.Value, 64)
					if err != nil {
						continue // in hexadecimal
					}
					if table && among(symbols, v) || !table && slices.Contains(arithmetic, v) || table && slices.Contains(conversions, v) {
						continue
					}
					if _, ok := plain[path][lit.Value]; ok {
						used[path][lit.Value] = true
						continue
					}
					t.Errorf("%s: %s stands in no table of symbols and is not listed as no parameter of the model", fset.Position(lit.Pos()), lit.Value)
				}
			}
		}
	}
	for _, path := range slices.Sorted(maps.Keys(plain)) {
		for lit := range plain[path] {
			if !used[path][lit] {
				t.Errorf("%s: %s is listed as an exception and does not stand there", path, lit)
			}
		}
	}
}

// among says that v is the value of a symbol, or that of a rate a minute
// written a second.
func among(symbols []symbol.Symbol, v float64) bool {
	for _, s := range symbols {
		off := func(v float64) bool { return math.Abs(math.Abs(s.Value)-v) > 1e-12*v }
		if !off(v) || s.Unit == "1/min" && !off(v*60) {
			return true
		}
	}
	return false
}

// isTable says that a declaration holds values and no formulas.
func isTable(decl ast.Decl) bool {
	fn, ok := decl.(*ast.FuncDecl)
	return !ok || slices.Contains([]string{"Kinds", "Settings", "OuterMM", "kinks"}, fn.Name.Name)
}

// numbers are the number literals of a declaration, without those that state
// a kind by iota, a symbol or its range, the span of an act (its row is printed by help), or
// how a drug is supplied.
func numbers(decl ast.Decl) []*ast.BasicLit {
	var out []*ast.BasicLit
	ast.Inspect(decl, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.ValueSpec:
			if n.Names[0].Name == "Revision" || slices.ContainsFunc(n.Values, countsUp) {
				return false
			}
		case *ast.KeyValueExpr:
			if key, ok := n.Key.(*ast.Ident); ok && slices.Contains([]string{"Low", "High", "Step", "Takes", "turnAt"}, key.Name) {
				return false
			}
		case *ast.CallExpr:
			name := ""
			switch fn := n.Fun.(type) {
			case *ast.Ident:
				name = fn.Name
			case *ast.SelectorExpr:
				name = fn.Sel.Name
			}
			if slices.Contains([]string{"assumed", "published", "teja", "of", "Of"}, name) {
				return false
			}
		case *ast.BasicLit:
			if n.Kind == token.INT || n.Kind == token.FLOAT {
				out = append(out, n)
			}
		}
		return true
	})
	return out
}

func countsUp(e ast.Expr) bool {
	found := false
	ast.Inspect(e, func(n ast.Node) bool {
		id, ok := n.(*ast.Ident)
		found = found || ok && id.Name == "iota"
		return true
	})
	return found
}
