package scoring

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"blanch/content"
	"blanch/scenarios"
	"blanch/sim"

	"github.com/expr-lang/expr"
)

// byLibrary is the value of an expression by the expression library's own
// machine, and what all of it may rest on.
func byLibrary(t *testing.T, x *expression, r *record) (any, []int) {
	t.Helper()
	how := options()
	if x.kind == boolKind {
		how = conditionOptions()
	}
	program, err := expr.Compile(x.source, append(how, expr.Optimize(false))...)
	if err != nil {
		t.Fatalf("%s: %v", x.source, err)
	}
	r.fill(x.uses)
	for _, f := range x.uses {
		if !f.asked {
			r.cite(f.number)
		}
	}
	value, err := expr.Run(program, &r.env)
	if err != nil {
		t.Fatalf("%s: %v", x.source, err)
	}
	return value, r.take()
}

// bothAgree holds what marks a run to the library: the same value, resting on
// entries of its facts.
func bothAgree(t *testing.T, x *expression, run *sim.Result, p *scenarios.Policy) {
	t.Helper()
	want, evidence := byLibrary(t, x, &record{Result: run, policy: p})
	r := &record{policy: p}
	q := x.of(r)
	for range 2 { // turned to a run again it reads anew
		r.turn(run)
		got, rests := q.answer(), r.take()
		strange := slices.ContainsFunc(rests, func(entry int) bool { return !slices.Contains(evidence, entry) })
		if !same(got, want) || strange {
			t.Errorf("%s: %v on %v, by the library %v on %v", x.source, got, rests, want, evidence)
		}
	}
}

// same takes what is not known for equal to itself.
func same(a, b any) bool {
	if x, ok := a.(amount); ok && reflect.TypeOf(a) == reflect.TypeOf(b) {
		return math.Float64bits(x.value()) == math.Float64bits(b.(amount).value())
	}
	return a == b
}

// Every rule and every hole of what ships, on runs where much and where
// nothing was done.
func TestShippedRulesAsTheLibraryReadsThem(t *testing.T) {
	read := 0
	for _, id := range content.Cases() {
		c, _, err := content.LoadCase(id)
		if err != nil || c == nil {
			t.Fatal(id, err)
		}
		p, _, err := content.LoadPolicy(c.Policy)
		if err != nil {
			t.Fatal(err)
		}
		place, _, err := content.LoadPlace(c.Place)
		if err != nil {
			t.Fatal(err)
		}
		m, faults := Compile(c, p)
		if m == nil {
			t.Fatal(faults)
		}
		var runs []*sim.Result
		for _, walk := range c.Walks {
			run, _, err := Play(c, place, walk.Seed, walk.Steps)
			if err != nil {
				t.Fatal(err)
			}
			runs = append(runs, run)
		}
		for _, rule := range m.rules {
			all := []*expression{rule.when}
			if rule.applies != nil {
				all = append(all, rule.applies)
			}
			for _, x := range slices.Concat(all, rule.met.holes, rule.notMet.holes) {
				for _, run := range runs {
					bothAgree(t, x, run, p)
					read++
				}
			}
		}
	}
	if read < 100 {
		t.Errorf("only %d readings were compared", read)
	}
}

// Every fact of the table has a reader.
func TestEveryFactIsRead(t *testing.T) {
	p := testPolicy()
	for _, f := range Facts() {
		source := strings.Trim(f.Example, "{}")
		if before, _, extra := strings.Cut(source, "}"); extra {
			source = before
		}
		text := exactText(source)
		x, faults := compile(fitting(f), p, text, true, text.At)
		if x == nil {
			t.Fatalf("%s: %v", source, faults)
		}
		bothAgree(t, x, testRun(), p)
	}
}

// Random expressions that the vetter lets pass.
func TestRandomRulesAsTheLibraryReadsThem(t *testing.T) {
	c, p := referenceCase(), testPolicy()
	g := &author{Rand: rand.New(rand.NewPCG(3, 3)), c: c}
	passed := 0
	for range 4000 {
		kind := boolKind
		if g.IntN(4) == 0 {
			kind = g.anyKind()
		}
		text := exactText(g.write(kind, 3))
		x, _ := compile(c, p, text, true, text.At)
		if x == nil {
			continue // too long, or what the library cannot do
		}
		passed++
		bothAgree(t, x, testRun(), p)
		bothAgree(t, x, emptyRun(), p)
	}
	if passed < 2000 {
		t.Errorf("only %d of the expressions passed", passed)
	}
}

// author writes random expressions.
type author struct {
	*rand.Rand
	c *scenarios.Case
}

func (g *author) anyKind() reflect.Type {
	f := facts[g.IntN(len(facts))]
	if kind := leafKinds[f.Name]; kind.Kind() != reflect.Func {
		return kind
	}
	return leafKinds[f.Name].Out(0)
}

// write is an expression of a kind, so many levels deep at most.
func (g *author) write(kind reflect.Type, depth int) string {
	if depth > 0 && g.IntN(3) > 0 {
		switch kind {
		case boolKind:
			return g.condition(depth - 1)
		case intKind, numberKind:
			switch g.IntN(3) {
			case 0:
				return fmt.Sprintf("-(%s)", g.write(kind, depth-1))
			case 1:
				return fmt.Sprintf("(%s %s %s)", g.write(kind, depth-1), g.pick("+", "-"), g.write(intKind, depth-1))
			}
		}
		var fit []operation
		for _, o := range operations {
			if reflect.TypeOf(o.shape).Elem().Out(0) == kind {
				fit = append(fit, o)
			}
		}
		if len(fit) > 0 {
			o := fit[g.IntN(len(fit))]
			shape := reflect.TypeOf(o.shape).Elem()
			return fmt.Sprintf("(%s %s %s)", g.write(shape.In(0), depth-1), o.symbol, g.write(shape.In(1), depth-1))
		}
	}
	return g.leaf(kind, depth)
}

func (g *author) condition(depth int) string {
	switch g.IntN(6) {
	case 0:
		return fmt.Sprintf("not (%s)", g.write(boolKind, depth))
	case 1, 2:
		return fmt.Sprintf("(%s %s %s)", g.write(boolKind, depth), g.pick("and", "or", "&&", "||", "==", "!="), g.write(boolKind, depth))
	case 3:
		return fmt.Sprintf("(%s %s %s)", g.write(intKind, depth), g.pick("<", "<=", ">", ">=", "==", "!="), g.write(intKind, depth))
	case 4:
		return fmt.Sprintf("(%s %s %s)", g.write(numberKind, depth), g.pick("<", "<=", ">", ">="), g.write(intKind, depth))
	}
	kind := []reflect.Type{momentKind, spanKind, g.anyKind()}[g.IntN(3)]
	switch {
	case kind != momentKind && kind != spanKind || g.IntN(2) == 0:
		if operationFor("<", kind, kind) == nil {
			return g.leaf(boolKind, depth)
		}
		return fmt.Sprintf("(%s %s %s)", g.write(kind, depth), g.pick("<", "<=", ">", ">="), g.write(kind, depth))
	}
	return g.leaf(kind, depth) + ".known"
}

// leaf is a fact of the kind, or a number.
func (g *author) leaf(kind reflect.Type, depth int) string {
	if kind == numberKind || kind == intKind && g.IntN(2) == 0 {
		return g.pick("0", "1", "2", "15", "30") + map[bool]string{true: ".5"}[kind == numberKind]
	}
	var fit []Fact
	for _, f := range facts {
		of := leafKinds[f.Name]
		if of == kind || of.Kind() == reflect.Func && of.Out(0) == kind {
			fit = append(fit, f)
		}
	}
	f := fit[g.IntN(len(fit))]
	of := leafKinds[f.Name]
	if of == kind {
		return f.Name
	}
	var args []string
	sets := f.args
	for i := range of.NumIn() {
		if of.In(i) == stringKind {
			args = append(args, fmt.Sprintf("%q", g.pick(sets[0].names(g.c)...)))
			sets = sets[1:]
			continue
		}
		args = append(args, g.write(of.In(i), depth-1))
	}
	return f.Name + "(" + strings.Join(args, ", ") + ")"
}

func (g *author) pick(from ...string) string { return from[g.IntN(len(from))] }

// A mark rests on what decided it: not on a way that was not taken, nor on what
// was never looked at.
func TestEvidenceIsWhatDecided(t *testing.T) {
	for _, tc := range []struct {
		source string
		holds  bool
		rests  []int
	}{
		{`first("insert") <= start or central_line <= start`, true, []int{0, 4}},
		{`central_line <= start or first("insert") <= start`, true, []int{0, 4}}, // the order does not matter
		{`central_line <= start or antidote_given <= start`, false, []int{4, 18, 20}},
		{`first("insert") <= start and central_line > start`, true, []int{0, 4, 20}},
		{`central_line <= start and antidote_given <= start`, false, []int{4, 20}},
		{`first_line.pressor_from.known`, true, []int{4}}, // the start of the drug, not the cannula
		{`first_line.placed.known`, true, []int{1}},
	} {
		text := exactText(tc.source)
		x, faults := compile(referenceCase(), testPolicy(), text, false, text.At)
		if len(faults) > 0 {
			t.Fatalf("%s: %s", tc.source, faults[0].Said)
		}
		r := &record{Result: testRun(), policy: testPolicy()}
		if got, rests := x.of(r).holds(), r.take(); got != tc.holds || !slices.Equal(rests, tc.rests) {
			t.Errorf("%s: %v on %v, want %v on %v", tc.source, got, rests, tc.holds, tc.rests)
		}
	}
}
