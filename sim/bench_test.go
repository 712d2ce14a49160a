package sim

import (
	"fmt"
	"strings"
	"testing"
)

// timed is a script read once, so that a benchmark times the engine and not
// the parser.
type timed struct {
	at  Time
	act Action
}

func readScript(tb testing.TB, lines string) []timed {
	var out []timed
	for line := range strings.Lines(lines) {
		if line = strings.TrimSpace(line); line == "" {
			continue
		}
		var h, m, s int
		fmt.Sscanf(line, "%d:%d:%d", &h, &m, &s)
		a, err := ParseAction(line[7:])
		if err != nil {
			tb.Fatal(err)
		}
		out = append(out, timed{Time(h)*Hour + Time(m)*Minute + Time(s)*Second, a})
	}
	return out
}

// BenchmarkCase plays four hours with the journal kept: set up and left
// alone without a leak, and with a leak at 70 min that is found and treated.
func BenchmarkCase(b *testing.B) {
	seed := luckySeed(b, 1)
	for _, kind := range []struct {
		name  string
		fate  Fate
		lines string
	}{
		{"no-leak", Fate{Kind: NoLeak}, setUp},
		{"leaking", testCase().Leak, script("right-basilic-arm")},
		{"left-to-leak", testCase().Leak, setUp},
	} {
		b.Run(kind.name, func(b *testing.B) {
			c, p := testCase(), testPlace()
			c.Leak = kind.fate
			steps := readScript(b, kind.lines)
			b.ReportAllocs()
			for b.Loop() {
				e, err := New(c, p, seed)
				if err != nil {
					b.Fatal(err)
				}
				for _, s := range steps {
					e.Advance(s.at)
					e.Do(s.act)
				}
				e.Advance(c.Ends)
			}
			b.ReportMetric(4*float64(b.N)/b.Elapsed().Seconds(), "patient-hours/s")
		})
	}
}

// BenchmarkView reads everything a screen needs in the middle of a case.
func BenchmarkView(b *testing.B) {
	e := newEngine(b, testCase(), luckySeed(b, 1))
	follow(b, e, setUp)
	e.Advance(2 * Hour)
	b.ReportAllocs()
	for b.Loop() {
		e.View()
	}
}
