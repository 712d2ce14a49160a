package picture

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"github.com/rivo/uniseg"
)

var update = flag.Bool("update", false, "write the pictures in testdata anew")

var pens = map[string]Pen{"ascii": ASCII, "rich": Rich}

// golden holds pictures to a text file of testdata. Spaces at the end of a line
// are not kept there; the size of a picture is held by TestSize.
func golden(t *testing.T, name string, pictures ...[]string) {
	t.Helper()
	var b strings.Builder
	for _, lines := range pictures {
		for _, line := range lines {
			b.WriteString(strings.TrimRight(line, " ") + "\n")
		}
	}
	file := "testdata/" + name + ".txt"
	if *update {
		if err := os.WriteFile(file, []byte(b.String()), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if got := b.String(); got != string(want) {
		t.Errorf("%s differs (go test -update writes it anew); got:\n%s", file, got)
	}
}

// titled puts a heading over a picture in a golden file.
func titled(title string, lines []string) []string {
	return append([]string{"# " + title}, append(lines, "")...)
}

// picker makes the arguments of one picture at random, wild numbers among them.
type picker struct{ *rand.Rand }

func (r picker) number(usual float64) float64 {
	switch r.IntN(12) {
	case 0:
		return []float64{0, -1, math.NaN(), math.Inf(1), math.Inf(-1), 1e300, -1e300, 1e-300, 5e5, -5e5}[r.IntN(10)]
	case 1:
		return (r.Float64() - 0.5) * 100 * usual
	}
	return r.Float64() * usual
}

func (r picker) text() string {
	return []string{"", "12.4", "norepinephrine 4 mg in 250 mL", "mL/h", "Várga", "京都", "a\tb\nc", "\x1b[31m", "é", "\xff", "👩‍⚕️ on", "stopped"}[r.IntN(12)]
}

func (r picker) trend() Trend {
	t := Trend{Low: r.number(90), High: r.number(120), NowMin: r.number(200), FromMin: r.number(100)}
	for range r.IntN(40) {
		t.Readings = append(t.Readings, Reading{r.number(200), r.number(150)})
	}
	return t
}

func (r picker) section() Section {
	return Section{r.number(6), r.number(16), r.number(60), r.number(64), r.number(2), r.number(90), r.number(30), r.number(60)}
}

// each calls f with every picture of random numbers at one random size.
func (r picker) each(p Pen, width, height int, f func(name string, lines []string, height int)) {
	f("trend", p.Trend(r.trend(), width, height), height)
	f("section", p.Section(r.section(), width, height), height)
	f("swelling", p.Swelling(Swelling{r.number(80), r.number(80), r.IntN(4) > 0}, width, height), height)
	f("bag", p.Bag([]string{r.text(), r.text(), r.text()}[:r.IntN(4)], width, height), height)
	f("syringe", p.Syringe(r.number(10), r.number(20), width), SyringeLines)
	f("pump", p.PumpFields(r.text(), r.text(), r.text(), width), PumpLines)
}

// TestSize: whatever the numbers, a picture has the size that was asked for,
// and the ASCII pen writes printable ASCII only.
func TestSize(t *testing.T) {
	r := picker{rand.New(rand.NewPCG(1, 2))}
	for range 4000 {
		width, height := r.IntN(140)-2, r.IntN(40)-2
		if r.IntN(3) == 0 {
			width, height = r.IntN(14)-1, r.IntN(5)-1
		}
		for name, p := range pens {
			r.each(p, width, height, func(picture string, lines []string, height int) {
				if len(lines) != max(0, height) {
					t.Fatalf("%s, %s, %d x %d: %d lines", picture, name, width, height, len(lines))
				}
				for _, line := range lines {
					if got := uniseg.StringWidth(line); got != max(0, width) {
						t.Fatalf("%s, %s, %d x %d: %d columns in %q", picture, name, width, height, got, line)
					}
					for _, c := range line {
						if c < ' ' || c == 0x7f || p == ASCII && c > '~' {
							t.Fatalf("%s, %s: %q in %q", picture, name, c, line)
						}
					}
				}
			})
		}
	}
}

// TestNeutral: the rich pen's own characters are of one column in every locale.
// Unicode's EastAsianWidth.txt has 254C..254F and 23BA..23BD as neutral (N).
func TestNeutral(t *testing.T) {
	neutral := func(r rune) bool {
		return r >= 0x254c && r <= 0x254f || r >= 0x23ba && r <= 0x23bd
	}
	r := picker{rand.New(rand.NewPCG(3, 4))}
	seen := map[rune]bool{}
	for range 500 {
		for _, lines := range [][]string{
			Rich.Trend(r.trend(), 60, 10), Rich.Section(r.section(), 78, 14),
			Rich.Swelling(Swelling{r.number(80), r.number(80), true}, 60, 14),
			Rich.Syringe(r.number(10), 10, 40),
		} {
			for _, c := range strings.Join(lines, "") {
				if c > '~' && !neutral(c) {
					t.Fatalf("%q (%U) may be of two columns", c, c)
				}
				seen[c] = true
			}
		}
	}
	if !seen['╌'] || !seen['⎺'] {
		t.Error("the rich pen draws nothing of its own")
	}
}

func TestNumber(t *testing.T) {
	for _, test := range []struct {
		x        float64
		decimals int
		want     string
	}{
		{12.5, 0, "13"}, {0.5, 1, "0.5"}, {0.15, 1, "0.2"}, {11, 1, "11"}, {36.8, 1, "36.8"},
		{1e21, 1, "1000000000000000000000"}, {-0.01, 1, "0"}, {-2.5, 0, "-3"},
		{math.NaN(), 1, "?"}, {math.Inf(-1), 1, "?"},
	} {
		if got := number(test.x, test.decimals); got != test.want {
			t.Errorf("number(%v, %d) = %q, want %q", test.x, test.decimals, got, test.want)
		}
	}
}

// TestWholeNumbers: a narrower picture never shows the start of a number. The
// figures here share no beginning with each other.
func TestWholeNumbers(t *testing.T) {
	s := lie(2.9, 5.5, 0, 47.8, 30, 1.1)
	allowed := map[string]bool{}
	for _, line := range append(Describe(s), s.facts()[0][0], "1 cm") {
		for word := range strings.FieldsSeq(line) {
			allowed[strings.Trim(word, ".,;:")] = true
		}
	}
	for width := range 60 {
		lines := ASCII.Section(s, width, 9)
		for word := range strings.FieldsSeq(strings.Join(lines, " ")) {
			word = strings.Trim(word, ".,;:[]=>")
			if word != "" && word[0] >= '0' && word[0] <= '9' && !allowed[word] {
				t.Errorf("width %d: the number %q is cut", width, word)
			}
		}
	}
}

func TestWrapKeepsUnits(t *testing.T) {
	s := "infuse 12.4 mL/h of 16 mcg/mL"
	for width := range 30 {
		rows, _ := wrap(s, width)
		for _, row := range rows {
			if end := row[len(row)-1]; end >= '0' && end <= '9' {
				t.Errorf("width %d: %q ends in a number without its unit", width, row)
			}
		}
	}
}

func BenchmarkPictures(b *testing.B) {
	r := picker{rand.New(rand.NewPCG(5, 6))}
	tr := hour()
	for range 1000 {
		tr.Readings = append(tr.Readings, Reading{r.Float64() * 47, 50 + r.Float64()*40})
	}
	s := lie(2.9, 5.5, 0, 47.8, 30, 1.1)
	for _, size := range [][2]int{{44, 7}, {78, 14}, {200, 60}} {
		run := func(name string, f func(width, height int)) {
			b.Run(fmt.Sprintf("%s/%dx%d", name, size[0], size[1]), func(b *testing.B) {
				for b.Loop() {
					f(size[0], size[1])
				}
			})
		}
		run("trend", func(w, h int) { Rich.Trend(tr, w, h) })
		run("section", func(w, h int) { Rich.Section(s, w, h) })
		run("swelling", func(w, h int) { Rich.Swelling(Swelling{35, 50, true}, w, h) })
	}
}
