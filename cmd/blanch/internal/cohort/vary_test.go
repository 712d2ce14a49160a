package cohort

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"

	"blanch/content"
)

var update = flag.Bool("update", false, "compute the tables of this package anew; the one of assumptions takes a quarter of an hour")

const (
	root       = "../../../.."
	assumedCSV = root + "/content/calibration/assumptions.csv"
	askedFor   = "BLANCH_OUTCOMES_OF"
)

// TestPrintOutcomes prints the headline outcomes of one drug for a build of
// this package with a constant changed.
func TestPrintOutcomes(t *testing.T) {
	drug := os.Getenv(askedFor)
	if drug == "" {
		drug = "norepinephrine"
	}
	out, err := Outcomes(drug)
	if err != nil {
		t.Fatal(err)
	}
	var values []float64
	for _, o := range out {
		if math.IsNaN(o.Value) || o.Value < -1 {
			t.Errorf("%s is %v", o.Name, o.Value)
		}
		values = append(values, o.Value)
	}
	if os.Getenv(askedFor) != "" {
		line, _ := json.Marshal(values)
		fmt.Printf("outcomes %s\n", line)
	}
}

// TestAssumptions holds the table of what assumptions move to the engine: its
// rows are those of the tables of symbols, and the outcomes with nothing
// changed are those of now.
func TestAssumptions(t *testing.T) {
	if *update {
		writeAssumptions(t)
		return
	}
	rows, err := Assumptions()
	if err != nil {
		t.Fatal(err)
	}
	for drug := range infusions {
		now, err := Outcomes(drug)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range rows {
			if r.Drug != drug {
				continue
			}
			for i, o := range now {
				if math.Abs(o.Value-r.Base[i]) > 1e-3*max(1, math.Abs(o.Value)) {
					t.Errorf("%s with %s is %v, the table has %v: compute it anew with -run TestAssumptions -update", o.Name, drug, o.Value, r.Base[i])
				}
			}
			break
		}
	}
	moving := 0
	for _, r := range rows {
		if r.Low > r.Value || r.Value > r.High || r.Unit == "" || r.Why == "" {
			t.Errorf("%s %s is not whole: %+v", r.Part, r.Name, r.Symbol)
		}
		for i := range r.Base {
			if r.AtLow[i] != r.Base[i] || r.AtHigh[i] != r.Base[i] {
				moving++
				break
			}
		}
	}
	if moving < len(rows)/4 {
		t.Errorf("only %d of %d assumptions move anything", moving, len(rows))
	}
}

// One assumption is computed anew each time, so that the way in which the
// table was made keeps working.
func TestOneAssumptionAnew(t *testing.T) {
	if testing.Short() {
		t.Skip("builds the package")
	}
	rows, err := Assumptions()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rows {
		if r.Name != "kLocal" && !strings.HasSuffix(r.Name, "norepinephrine kLocal") && r.Name != "Emax" {
			continue
		}
		got, err := outcomesWith(t.TempDir(), r, r.High)
		if err != nil {
			t.Fatal(err)
		}
		for i := range got {
			if math.Abs(got[i]-r.AtHigh[i]) > 1e-3*max(1, math.Abs(got[i])) {
				t.Errorf("%s at %v: outcome %d is %v, the table has %v", r.Name, r.High, i, got[i], r.AtHigh[i])
			}
		}
	}
}

func writeAssumptions(t *testing.T) {
	rows := assumed()
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	text := func(v float64) string { return strconv.FormatFloat(v, 'g', 6, 64) }
	record := func(part, name, end string, at float64, values []float64) {
		cells := []string{part, name, end, strconv.FormatFloat(at, 'g', -1, 64)}
		for _, v := range values {
			cells = append(cells, text(v))
		}
		w.Write(cells)
	}
	header := []string{"part", "name", "end", "at"}
	for drug := range infusions {
		base, err := Outcomes(drug)
		if err != nil {
			t.Fatal(err)
		}
		if len(header) == 4 {
			for _, o := range base {
				header = append(header, o.Name+", "+o.Unit)
			}
			w.Write(header)
		}
	}
	for _, drug := range []string{"norepinephrine", "epinephrine", "phenylephrine", "dopamine", "vasopressin"} {
		base, _ := Outcomes(drug)
		var v []float64
		for _, o := range base {
			v = append(v, o.Value)
		}
		record("", drug, "base", 0, v)
	}
	type job struct {
		row  int
		at   float64
		into *[]float64
	}
	jobs := make(chan job)
	var wg sync.WaitGroup
	var mu sync.Mutex
	for range 2 {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for j := range jobs {
				dir, _ := os.MkdirTemp("", "vary")
				v, err := outcomesWith(dir, rows[j.row], j.at)
				os.RemoveAll(dir)
				mu.Lock()
				if err != nil {
					t.Errorf("%s %s at %v: %v", rows[j.row].Part, rows[j.row].Name, j.at, err)
				}
				*j.into = v
				mu.Unlock()
			}
		}()
	}
	for i := range rows {
		jobs <- job{i, rows[i].Low, &rows[i].AtLow}
		jobs <- job{i, rows[i].High, &rows[i].AtHigh}
	}
	close(jobs)
	wg.Wait()
	for _, r := range rows {
		record(r.Part, r.Name, "low", r.Low, r.AtLow)
		record(r.Part, r.Name, "high", r.High, r.AtHigh)
	}
	w.Flush()
	if t.Failed() {
		t.Fatal("nothing was written")
	}
	if err := os.WriteFile(assumedCSV, out.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
}

// outcomesWith are the headline outcomes of an engine that is built with one
// parameter at another value.
func outcomesWith(dir string, a Assumption, at float64) ([]float64, error) {
	file, src, err := changed(a, at)
	if err != nil {
		return nil, err
	}
	abs, err := filepath.Abs(file)
	if err != nil {
		return nil, err
	}
	instead := filepath.Join(dir, "changed.go")
	overlay, _ := json.Marshal(map[string]map[string]string{"Replace": {abs: instead}})
	plan := filepath.Join(dir, "overlay.json")
	if err := os.WriteFile(instead, src, 0o644); err != nil {
		return nil, err
	}
	if err := os.WriteFile(plan, overlay, 0o644); err != nil {
		return nil, err
	}
	cmd := exec.Command("go", "test", "-count=1", "-vet=off", "-ldflags=-s -w", "-overlay", plan, "-run", "^TestPrintOutcomes$", "-v", ".")
	cmd.Env = append(os.Environ(), askedFor+"="+a.Drug)
	said, err := cmd.CombinedOutput()
	if err != nil {
		return nil, fmt.Errorf("%w\n%s", err, said)
	}
	for line := range strings.Lines(string(said)) {
		if text, ok := strings.CutPrefix(line, "outcomes "); ok {
			var v []float64
			return v, json.Unmarshal([]byte(text), &v)
		}
	}
	return nil, fmt.Errorf("it printed no outcomes:\n%s", said)
}

// changed is the source file that defines a parameter, with the parameter at
// another value. A parameter whose row in its table is made from a constant
// is changed where the constant is defined; one that is a literal of a table
// is changed there.
func changed(a Assumption, at float64) (string, []byte, error) {
	set := token.NewFileSet()
	names, err := filepath.Glob(filepath.Join(root, a.Part, "*.go"))
	if err != nil {
		return "", nil, err
	}
	var files []*ast.File
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(set, name, nil, 0)
		if err != nil {
			return "", nil, err
		}
		files = append(files, f)
	}
	where := literalOf(files, a)
	if where == nil {
		where = constantOf(files, a.Name)
	}
	if where == nil {
		return "", nil, fmt.Errorf("its definition was not found")
	}
	from, to := set.Position(where.Pos()), set.Position(where.End())
	src, err := os.ReadFile(from.Filename)
	if err != nil {
		return "", nil, err
	}
	number := func(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
	instead := fmt.Sprintf("((%s) * %s / %s)", src[from.Offset:to.Offset], number(at), number(a.Value))
	return from.Filename, append(append(append([]byte(nil), src[:from.Offset]...), instead...), src[to.Offset:]...), nil
}

// constantOf is the expression of the constant that the row of that name in a
// table of symbols takes its value from.
func constantOf(files []*ast.File, name string) ast.Expr {
	constants := map[string]ast.Expr{}
	for _, f := range files {
		for _, d := range f.Decls {
			if g, ok := d.(*ast.GenDecl); ok && g.Tok == token.CONST {
				for _, s := range g.Specs {
					v := s.(*ast.ValueSpec)
					for i, id := range v.Names {
						if i < len(v.Values) {
							constants[id.Name] = v.Values[i]
						}
					}
				}
			}
		}
	}
	var found ast.Expr
	look := func(value ast.Expr) {
		ast.Inspect(value, func(n ast.Node) bool {
			if id, ok := n.(*ast.Ident); ok && found == nil && constants[id.Name] != nil {
				found = constants[id.Name]
			}
			return true
		})
	}
	for _, f := range files {
		ast.Inspect(f, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.CompositeLit: // {Name: "kOut", Value: kOut * 60}
				fields := fieldsOf(n)
				if said(fields["Name"]) == name && fields["Value"] != nil {
					look(fields["Value"])
				}
			case *ast.CallExpr: // assumed("SAPS II lowest", "1", lowestSAPS2, ...)
				if len(n.Args) > 2 && said(n.Args[0]) == name {
					look(n.Args[2])
				}
			}
			return true
		})
	}
	return found
}

// fieldOf is the field of a drug's row that a name of its symbols stands for.
var fieldOf = map[string]string{
	"E50": "E50", "tissue E50": "TissueE50", "beta E50": "BetaE50", "kLocal": "KLocal", "V": "VolumeL", "blocks": "Blocks", "CL": "lMin",
}

// placeOf is where in a row of kinds of vein, or of a site's factors, a number
// stands.
var placeOf = map[string]int{
	"diameter": 2, "diameter SD": 3, "least": 4, "most": 5, "depth": 6, "depth SD": 7, "straight": 8,
	"leak at": 0, "occlusion at": 1, "phlebitis at": 2, "dislodging at": 3,
}

// literalOfVein is the literal of a kind of vein ("dorsal-hand depth"), a site
// ("leak at hand") or a setting ("routine Occlusion").
func literalOfVein(files []*ast.File, name string) ast.Expr {
	row, what, _ := strings.Cut(name, " ")
	site := ""
	if i := strings.LastIndex(name, " at "); i > 0 {
		what, site = name[:i+3], name[i+4:]
	}
	sites := map[string]string{} // "Hand": "hand"
	var found ast.Expr
	for pass := range 2 {
		for _, f := range files {
			ast.Inspect(f, func(n ast.Node) bool {
				switch n := n.(type) {
				case *ast.ValueSpec:
					if len(n.Values) == 1 && pass == 0 {
						sites[n.Names[0].Name] = said(n.Values[0])
					}
				case *ast.KeyValueExpr:
					id, ok := n.Key.(*ast.Ident)
					lit, factors := n.Value.(*ast.CompositeLit)
					if ok && factors && site != "" && sites[id.Name] == site && len(lit.Elts) == 4 {
						found = lit.Elts[placeOf[what]]
					}
				case *ast.CompositeLit:
					if site != "" || len(n.Elts) < 3 || said(n.Elts[0]) != row {
						break
					}
					if at, ok := placeOf[what]; ok && len(n.Elts) > 8 {
						found = n.Elts[at]
					} else if base, ok := n.Elts[1].(*ast.CompositeLit); ok && fieldsOf(base)[what] != nil {
						found = fieldsOf(base)[what]
					}
				}
				return true
			})
		}
	}
	return found
}

// literalOf is the literal of a drug's row, or of one about veins.
func literalOf(files []*ast.File, a Assumption) ast.Expr {
	if a.Part == "sim/vein" {
		return literalOfVein(files, a.Name)
	}
	drug, what, _ := strings.Cut(a.Name, " ")
	if fieldOf[what] == "" || a.Part != "sim/drug" {
		return nil
	}
	var found ast.Expr
	for _, f := range files {
		ast.Inspect(f, func(n ast.Node) bool {
			if lit, ok := n.(*ast.CompositeLit); ok && said(fieldsOf(lit)["Name"]) == drug {
				ast.Inspect(lit, func(n ast.Node) bool {
					if kv, ok := n.(*ast.KeyValueExpr); ok && found == nil {
						if id, ok := kv.Key.(*ast.Ident); ok && id.Name == fieldOf[what] {
							found = kv.Value
						}
					}
					return true
				})
				return false
			}
			return true
		})
	}
	return found
}

func fieldsOf(lit *ast.CompositeLit) map[string]ast.Expr {
	out := map[string]ast.Expr{}
	for _, e := range lit.Elts {
		if kv, ok := e.(*ast.KeyValueExpr); ok {
			if id, ok := kv.Key.(*ast.Ident); ok {
				out[id.Name] = kv.Value
			}
		}
	}
	return out
}

// said is the text of a string literal.
func said(e ast.Expr) string {
	if lit, ok := e.(*ast.BasicLit); ok && lit.Kind == token.STRING {
		s, _ := strconv.Unquote(lit.Value)
		return s
	}
	return ""
}

// The table that ships is the one beside the others.
func TestAssumptionsShip(t *testing.T) {
	if src, err := content.Calibration("assumptions.csv"); err != nil || len(src) == 0 {
		t.Error("there is no table of assumptions", err)
	}
}
