package portable_test

import (
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"sort"
	"strconv"
)

// exactMath is every function of package math that IEEE 754 or its own
// definition fixes to the bit. All others are refused.
var exactMath = map[string]bool{
	"Abs": true, "Ceil": true, "Copysign": true, "Floor": true, "Float64bits": true,
	"Float64frombits": true, "Frexp": true, "Inf": true, "IsInf": true, "IsNaN": true,
	"Ldexp": true, "Max": true, "Min": true, "Mod": true, "Modf": true, "NaN": true,
	"Nextafter": true, "Round": true, "RoundToEven": true, "Signbit": true, "Sqrt": true,
	"Trunc": true,
}

// outside is what a function of its inputs alone has no use for.
var outside = map[string]string{
	"C":            "code that is not Go",
	"context":      "the caller pushes time",
	"crypto/rand":  "luck is keyed: use sim/luck",
	"log":          "the journal is the only record",
	"math/cmplx":   "its bits differ between CPUs",
	"math/rand":    "luck is keyed: use sim/luck",
	"math/rand/v2": "luck is keyed: use sim/luck",
	"os":           "the engine has no files",
	"runtime":      "the engine does not know its machine",
	"sync":         "the engine has no goroutines",
	"sync/atomic":  "the engine has no goroutines",
	"time":         "the engine has no clock",
	"unsafe":       "its bits differ between CPUs",
}

// lint lists, as file:line: what is wrong, everything in the checked files
// that could make the same inputs give other bits.
func lint(fset *token.FileSet, files []*ast.File, info *types.Info) []string {
	l := linter{fset: fset, info: info}
	for _, f := range files {
		l.file(f)
	}
	sort.SliceStable(l.found, func(i, j int) bool { return l.found[i].pos < l.found[j].pos })
	var said []string
	for _, f := range l.found {
		at := fset.Position(f.pos)
		said = append(said, fmt.Sprintf("%s:%d: %s", at.Filename, at.Line, f.says))
	}
	return said
}

type finding struct {
	pos  token.Pos
	says string
}

type linter struct {
	fset  *token.FileSet
	info  *types.Info
	found []finding
}

func (l *linter) say(pos token.Pos, format string, args ...any) {
	l.found = append(l.found, finding{pos, fmt.Sprintf(format, args...)})
}

func (l *linter) file(f *ast.File) {
	for _, imp := range f.Imports {
		path, _ := strconv.Unquote(imp.Path.Value)
		if why, bad := outside[path]; bad {
			l.say(imp.Pos(), "import of %s: %s", path, why)
		}
	}
	var above []ast.Node // from the file down to the parent of the node
	ast.Inspect(f, func(n ast.Node) bool {
		if n == nil {
			above = above[:len(above)-1]
			return true
		}
		l.node(n, above)
		above = append(above, n)
		return true
	})
}

func (l *linter) node(n ast.Node, above []ast.Node) {
	switch n := n.(type) {
	case *ast.GoStmt:
		l.say(n.Pos(), "go statement: the engine has no goroutines")
	case *ast.SelectStmt:
		l.say(n.Pos(), "select statement: its choice is not a function of the inputs")
	case *ast.Ident:
		fn, ok := l.info.Uses[n].(*types.Func)
		if ok && fn.Pkg() != nil && fn.Pkg().Path() == "math" && !exactMath[fn.Name()] {
			l.say(n.Pos(), "math.%s: its bits differ between CPUs, use sim/portable", fn.Name())
		}
	case *ast.AssignStmt:
		if n.Tok == token.MUL_ASSIGN && l.inexact(n.Lhs[0]) {
			l.say(n.TokPos, "*= on a float: write x = float64(x * y)")
		}
	case *ast.BinaryExpr:
		if n.Op == token.MUL && l.inexact(n) && !l.rounded(n, above) {
			l.say(n.OpPos, "product of floats is not rounded: write float64(x * y)")
		}
	}
}

// inexact reports whether an expression is computed in floating point when
// the program runs.
func (l *linter) inexact(e ast.Expr) bool {
	tv, ok := l.info.Types[e]
	if !ok || tv.Value != nil || tv.Type == nil {
		return false
	}
	b, ok := tv.Type.Underlying().(*types.Basic)
	return ok && b.Info()&(types.IsFloat|types.IsComplex) != 0
}

// rounded reports whether a product can meet no sum before it is rounded: it
// is converted to a float type outright, or is part of a larger product or
// of a quotient, which are looked at themselves.
func (l *linter) rounded(n ast.Node, above []ast.Node) bool {
	for i := len(above) - 1; i >= 0; i-- {
		switch up := above[i].(type) {
		case *ast.ParenExpr:
			continue
		case *ast.BinaryExpr:
			return up.Op == token.MUL || up.Op == token.QUO
		case *ast.CallExpr:
			to, ok := l.info.Types[up.Fun]
			if !ok || !to.IsType() {
				return false
			}
			b, ok := to.Type.Underlying().(*types.Basic)
			return ok && b.Info()&types.IsFloat != 0
		default:
			return false
		}
	}
	return false
}
