package drill

import (
	"fmt"
	"maps"
	"math"
	"os"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"blanch/sim/drug"
	"blanch/sim/quantity"
	"blanch/sim/sum"
)

// rounds is how many seeds a property is tried on; the long suite raises it.
func rounds(short, long int) int {
	if os.Getenv("BLANCH_LONG") != "" {
		return long
	}
	return short
}

// Every question that is drawn keeps every rule, and many successive seeds have
// different numbers, so that a quiz does not repeat itself.
func TestEveryQuestionKeepsTheRules(t *testing.T) {
	rules := []func(*testing.T, Question){keyCanBeSet, slipsAreToldAlone, stemCanBeRead, answerIsNotGivenAway, suppliesAreThoseOfTheTable, sameSeedIsSameQuestion}
	for _, d := range Drills() {
		t.Run(d.Name, func(t *testing.T) {
			t.Parallel()
			if d.Apart() < 2 {
				t.Error("two successive seeds may have the same numbers")
			}
			last := map[string]int{}
			for seed := range rounds(200, 10_000) {
				q := d.Draw(uint64(seed))
				for _, rule := range rules {
					rule(t, q)
				}
				key := numbers(q)
				if before, ok := last[key]; ok && seed-before < d.Apart() {
					t.Fatalf("seeds %d and %d have the same numbers, %s, within %d", before, seed, key, d.Apart())
				}
				last[key] = seed
			}
		})
	}
}

// numbers writes what a sum was given, in the order of its inputs.
func numbers(q Question) string {
	var out []string
	given := q.Sum.Given()
	for _, in := range q.Sum.Kind.Inputs {
		if g, ok := given[in.Name]; ok {
			out = append(out, in.Name+"="+g.String())
		}
	}
	return strings.Join(out, ";") + " in " + q.Sum.Unit.String()
}

func TestEveryUnitOfStudyHasDrills(t *testing.T) {
	name := regexp.MustCompile(`^[a-z]+(-[a-z]+)+$`)
	order := []string{"line", "mix", "sums", "watch", "respond", "bridge"}
	seen, count, last := map[string]bool{}, map[string]int{}, 0
	for _, d := range Drills() {
		at := slices.Index(order, d.Unit)
		if at < last {
			t.Errorf("%s: unit %q stands out of the order of the job", d.Name, d.Unit)
		}
		last = max(last, at)
		if seen[d.Name] || !name.MatchString(d.Name) {
			t.Errorf("name %q is there twice, or is no name", d.Name)
		}
		seen[d.Name] = true
		count[d.Unit]++
		if !slices.Contains([]string{First, Middle, Advanced}, d.Level) || d.Objective == "" || len(d.Sources) == 0 || d.Kind() == nil {
			t.Errorf("%s lacks a level, an objective, a source or a kind of sum", d.Name)
		}
		if _, ok := Named(d.Name); !ok {
			t.Errorf("%s is not found by its name", d.Name)
		}
	}
	if len(seen) < 30 || len(count) != len(order) {
		t.Errorf("%d drills in %d units, want at least 30 in %d", len(seen), len(count), len(order))
	}
	if _, ok := Named("no-such-drill"); ok {
		t.Error("a drill is found that there is not")
	}
}

// A key is a number that the device takes and can show, never on a half.
func keyCanBeSet(t *testing.T, q Question) {
	key, answer, step := q.Sum.Key().Value, q.Sum.Answer().Value, q.Sum.Step
	least, most := q.Drill.least, q.Drill.most
	if !(key >= least && key <= most) || !(answer > 0) || math.IsInf(key, 0) {
		t.Fatalf("seed %d: the key %v lies outside %v to %v, or cannot be set", q.Seed, key, least, most)
	}
	if part := key/step - math.Floor(key/step); math.Abs(part-0.5) < 1e-6 {
		t.Fatalf("seed %d: %s: the key %v lies on a half of %v", q.Seed, numbers(q), key, step)
	}
	// Pumps take tenths up to 999 mL/h (common practice).
	if q.Device == "pump" && (q.Sum.Unit.String() != "mL/h" || step != 0.1 || answer < 0.1 || answer > 999) {
		t.Fatalf("seed %d: no pump takes %s by steps of %v", q.Seed, q.Sum.Answer(), step)
	}
	if m := q.Sum.Mark(q.Sum.Answer().String()); m.Verdict != sum.Right {
		t.Fatalf("seed %d: the answer %s is %s: %s", q.Seed, q.Sum.Answer(), m.Verdict, m.Reason)
	}
}

// The answer of each slip is diagnosed as that slip and no other, unless the
// question says so; and nothing but harmless rounding passes for the key.
func slipsAreToldAlone(t *testing.T, q Question) {
	clauses := func(slips []sum.Slip) []string {
		var out []string
		for _, s := range slips {
			if !slices.Contains(out, s.Clause()) {
				out = append(out, s.Clause())
			}
		}
		slices.Sort(out)
		return out
	}
	var blind []string
	var told [][]string
	for _, o := range q.Either {
		all := !slices.ContainsFunc(o.Slips, func(s sum.Slip) bool { return s.Family != sum.Rounding })
		switch {
		case o.Key && !all:
			t.Fatalf("seed %d: %s: %q passes for the key", q.Seed, numbers(q), clauses(o.Slips))
		case o.Key:
			blind = clauses(o.Slips)
		case !all && !q.Drill.swaps:
			t.Fatalf("seed %d: %s: %q meet", q.Seed, numbers(q), clauses(o.Slips))
		default:
			told = append(told, clauses(o.Slips))
		}
	}
	for _, o := range q.Sum.Overlaps() {
		if got := clauses(o.Slips); !o.Key && !slices.ContainsFunc(told, func(c []string) bool { return slices.Equal(c, got) }) {
			t.Fatalf("seed %d: %s: %q overlap, undeclared", q.Seed, numbers(q), got)
		}
	}
	for _, s := range q.Sum.Slips() {
		m := q.Sum.Mark(q.Sum.Shown(s).String())
		if m.Verdict == sum.Right {
			if !slices.Contains(blind, s.Clause()) {
				t.Fatalf("seed %d: %s: %q leads to the key, %s, undeclared", q.Seed, numbers(q), s.Name, q.Sum.Answer())
			}
			continue
		}
		got := clauses(m.Diagnosis.Slips)
		alone := slices.Equal(got, []string{s.Clause()})
		if !alone && !(slices.Contains(got, s.Clause()) && slices.ContainsFunc(told, func(c []string) bool { return slices.Equal(c, got) })) {
			t.Fatalf("seed %d: %s: %q leads to %s, told as %q", q.Seed, numbers(q), s.Name, q.Sum.Shown(s), got)
		}
	}
}

// unsafeIn is the unsafe notation in a text: each number with the word behind
// it is held to the rules (Institute for Safe Medication Practices, list of
// error-prone abbreviations, symbols and dose designations).
func unsafeIn(text string) []string {
	found := map[string]bool{}
	bare := func(w string) string { return strings.TrimLeft(strings.TrimRight(w, "(),.:;?"), "(") }
	words := strings.Fields(text)
	for i, w := range words {
		w = bare(w)
		if i+1 < len(words) && strings.ContainsAny(w, "0123456789") {
			w += " " + bare(words[i+1])
		}
		for _, says := range quantity.Unsafe(w) {
			found[says] = true
		}
	}
	if regexp.MustCompile(`[0-9],[0-9]|[0-9][eE][+-]?[0-9]`).MatchString(text) {
		found["a comma inside a number, or an exponent"] = true
	}
	return slices.Collect(maps.Keys(found))
}

func TestUnsafeIsSeen(t *testing.T) {
	for _, bad := range []string{"give 5.0 mg now", "give .5 mg", "16 \u00b5g/mL hangs", "1,000 mL", "10 U/h", "5mg"} {
		if unsafeIn(bad) == nil {
			t.Errorf("%q passes", bad)
		}
	}
	if found := unsafeIn("The bag holds 4 mg in 250 mL, at 0.5 mL/h."); found != nil {
		t.Errorf("what is safe is refused: %q", found)
	}
}

// A stem is safe to read, asks one thing at its end, names the unit and how to
// round, and has every number that is needed.
func stemCanBeRead(t *testing.T, q Question) {
	text := strings.Join(q.Stem, "\n")
	last := q.Stem[len(q.Stem)-1]
	if found := unsafeIn(text); found != nil {
		t.Fatalf("seed %d: %q: %q", q.Seed, text, found)
	}
	if strings.ContainsAny(text, "{}%!") && strings.ContainsAny(strings.ReplaceAll(text, " %", ""), "{}%!") || strings.Contains(text, "  ") || strings.Contains(text, "..") {
		t.Fatalf("seed %d: something is left over in %q", q.Seed, text)
	}
	if strings.Count(text, "?") != 1 || !strings.Contains(last, "?") {
		t.Fatalf("seed %d: not one question at the end of %q", q.Seed, text)
	}
	unit, wants := q.Sum.Unit, ""
	switch {
	case q.Sum.Kind.Name == "vials":
		wants = "a whole number"
	case unit.IsZero():
		wants = "to the nearest " + quantity.Number(q.Sum.Step)
	default:
		wants = fmt.Sprintf("in %s, to the nearest %s", unit, quantity.Quantity{Value: q.Sum.Step, Unit: unit})
		if parsed, err := quantity.ParseUnit(unit.String()); err != nil || parsed != unit {
			t.Fatalf("seed %d: unit %s does not parse: %v", q.Seed, unit, err)
		}
	}
	if !strings.Contains(last, wants) {
		t.Fatalf("seed %d: %q does not ask for %q", q.Seed, last, wants)
	}
	for name, g := range q.Sum.Given() {
		written := g.String()
		if !regexp.MustCompile(`(^|[^0-9.])` + regexp.QuoteMeta(written) + `([^0-9A-Za-z/]|$)`).MatchString(text) {
			t.Fatalf("seed %d: %s, %s, is not in %q", q.Seed, name, written, text)
		}
	}
}

// The answer is not in the stem, unless an amount that was given happens to be
// the same, or a dose is at the edge of the order that it is held against; nor
// does a bag show it.
func answerIsNotGivenAway(t *testing.T, q Question) {
	if q.Sum.Unit.IsZero() {
		return
	}
	answer := q.Sum.Answer().String()
	text := strings.Join(q.Stem, "\n")
	shown := regexp.MustCompile(`(^|[^0-9.])` + regexp.QuoteMeta(answer) + `([^0-9A-Za-z/]|$)`)
	given := slices.ContainsFunc(slices.Collect(maps.Values(q.Sum.Given())), func(g quantity.Quantity) bool { return g.String() == answer })
	asked := quantity.Quantity{Value: q.Sum.Step, Unit: q.Sum.Unit}.String() == answer
	if given || asked {
		return
	}
	if shown.MatchString(text) && q.Drill.Name != "second-check-dose" {
		t.Fatalf("seed %d: %s stands in %q", q.Seed, answer, text)
	}
	for _, b := range q.Shown.Bags {
		if slices.Contains(b.Label(), answer) {
			t.Fatalf("seed %d: %s stands on the bag", q.Seed, answer)
		}
	}
}

func sameSeedIsSameQuestion(t *testing.T, q Question) {
	again, _ := Named(q.Drill.Name)
	r := again.Draw(q.Seed)
	if !slices.Equal(q.Stem, r.Stem) || numbers(q) != numbers(r) || !reflect.DeepEqual(q.Shown, r.Shown) || !slices.Equal(q.Sum.Working(), r.Sum.Working()) {
		t.Fatalf("seed %d: two questions: %q and %q", q.Seed, q.Stem, r.Stem)
	}
}

// The last seed there is draws as well.
func TestAnySeedDraws(t *testing.T) {
	for _, d := range Drills() {
		for _, seed := range []uint64{math.MaxUint64, 1 << 63, 0x9e3779b97f4a7c15} {
			if q := d.Draw(seed); q.Sum == nil {
				t.Errorf("%s has no question for seed %d", d.Name, seed)
			}
		}
	}
}

// What a drill picks from does not depend on what it picked before.
func TestEveryIndexIsWithinTheSize(t *testing.T) {
	for _, d := range Drills() {
		n := d.size()
		for i := uint64(0); i < n; i += max(1, n/200) {
			h := &hand{name: d.Name, seed: i, index: i, size: 1}
			if d.make(h); h.size != n || h.index != 0 {
				t.Errorf("%s: index %d has a size of %d, and the first one %d", d.Name, i, h.size, n)
				break
			}
		}
	}
}

// What the stem gives of the sine leads to the path that the worked steps show,
// to every digit of it.
func TestTheSineOfTheStemLeadsToTheSteps(t *testing.T) {
	d, _ := Named("cannula-share")
	sine := regexp.MustCompile(`The sine of [0-9]+ degrees is ([0-9.]+)`)
	for seed := range uint64(rounds(300, 3000)) {
		q := d.Draw(seed)
		given, err := strconv.ParseFloat(strings.Trim(sine.FindStringSubmatch(strings.Join(q.Stem, " "))[1], "."), 64)
		if err != nil {
			t.Fatal(err)
		}
		path := fmt.Sprintf("%.4g mm", q.Sum.Given()["depth"].Value/given)
		if first := q.Sum.Working()[0]; !strings.HasSuffix(first, path) {
			t.Fatalf("seed %d: by the stem the path is %s, and the step says %q", seed, path, first)
		}
	}
}

// Nothing is asked as if it were done: no double dose for long, no leap of a
// dose, no rate that fits nobody, no bag that nobody stocks, and no more mL at a
// leak than the label allows.
func TestNumbersAreTrueToTheBedside(t *testing.T) {
	bags := []float64{50, 100, 250, 500, 1000}
	for seed := range uint64(rounds(300, 3000)) {
		draw := func(name string) given {
			d, _ := Named(name)
			return d.Draw(seed).Sum.Given()
		}
		if g := draw("overlap-volume"); g["time"].Float("min") > 6 {
			t.Fatalf("seed %d: two pumps run together for %s", seed, g["time"])
		}
		g := draw("step-up-rate")
		old, now := g["dose"].Value, g["new_dose"].Value
		if now/old > 1.5 || now/old < 0.5 || math.Abs(now-old) > 0.051 {
			t.Fatalf("seed %d: from %v to %v in one step", seed, old, now)
		}
		fits := false
		for _, strength := range []float64{16, 32, 64} {
			kg := g["rate"].Value * strength / 60 / old
			fits = fits || kg >= 45 && kg <= 120
		}
		if !fits {
			t.Fatalf("seed %d: %s at %v mcg/kg/min fits nobody", seed, g["rate"], old)
		}
		for _, name := range []string{"label-strength", "label-units", "label-grams", "true-strength"} {
			if v := draw(name)["volume"].Value; !slices.Contains(bags, v) {
				t.Fatalf("seed %d: %s has a bag of %v mL", seed, name, v)
			}
		}
		if v := draw("phentolamine-points")["whole"].Value; v < 10 || v > 15 || v != math.Trunc(v) {
			t.Fatalf("seed %d: %v mL of antidote", seed, v)
		}
	}
}

// Whoever meets a drill for the first time gets the hand of turn 0: it must
// offer nearly what all turns offer, and hold no input to one value.
func TestTheFirstTimeVaries(t *testing.T) {
	for _, d := range Drills() {
		draws := func(seed func(i uint64) uint64) (sets map[string]bool, values map[string]map[string]bool) {
			sets, values = map[string]bool{}, map[string]map[string]bool{}
			for i := range uint64(60) {
				q := d.Draw(seed(i))
				sets[numbers(q)] = true
				for name, g := range q.Sum.Given() {
					if values[name] == nil {
						values[name] = map[string]bool{}
					}
					values[name][g.String()] = true
				}
			}
			return sets, values
		}
		any, anyValues := draws(func(i uint64) uint64 { return i })
		first, firstValues := draws(func(i uint64) uint64 { return 7919 * i * d.apart })
		if len(first)*5 < len(any)*2 {
			t.Errorf("%s: %d sets of numbers in 60 first times, and %d in any 60", d.Name, len(first), len(any))
		}
		for name, v := range anyValues {
			if len(v) > 1 && len(firstValues[name]) < 2 {
				t.Errorf("%s: %s is the same in every first time", d.Name, name)
			}
		}
	}
}

func TestScatterIsAPermutation(t *testing.T) {
	for _, n := range []uint64{1, 2, 3, 4, 10, 97, 360, 1000} {
		seen := map[uint64]bool{}
		for i := range n {
			seen[scatter(i, n)] = true
		}
		if uint64(len(seen)) != n {
			t.Errorf("%d of %d come out", len(seen), n)
		}
	}
}

// Vials that are shown are those of the table of drugs, and every bag's drug
// is in it.
func suppliesAreThoseOfTheTable(t *testing.T, q Question) {
	for _, v := range q.Shown.Vials {
		d, ok := drug.Named(v.Drug)
		if !ok || d.Supplied.Amount != v.Amount || d.Supplied.Volume != v.Volume {
			t.Fatalf("seed %d: no vial of %v", q.Seed, v)
		}
	}
	for _, b := range q.Shown.Bags {
		if _, ok := drug.Named(b.Drug); !ok && b.Drug != "diluent" && b.Drug != "plain fluid" {
			t.Fatalf("seed %d: no drug %q", q.Seed, b.Drug)
		}
	}
	kg := q.Sum.Given()["weight"]
	if kg.Unit == quantity.MustUnit("lb") {
		kg = of(kg.Value/2.2, "kg")
	}
	if kg.Value != 0 && (kg.Value < 40 || kg.Value > 141) {
		t.Fatalf("seed %d: a weight of %s", q.Seed, kg)
	}
}

func BenchmarkDraw(b *testing.B) {
	for _, name := range []string{"bag-end", "rate-by-weight", "rate-from-pounds"} {
		d, _ := Named(name)
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				d.Draw(uint64(i))
			}
		})
	}
}
