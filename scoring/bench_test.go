package scoring

import "testing"

func BenchmarkCompile(b *testing.B) {
	c, p := referenceCase(), testPolicy()
	text := exactText(`found("leak") - visible("leak") <= policy.check_early and start.known`)
	for b.Loop() {
		compile(c, p, text, false, text.At)
	}
}

func BenchmarkHolds(b *testing.B) {
	c, p, run := referenceCase(), testPolicy(), testRun()
	text := exactText(`found("leak") - visible("leak") <= policy.check_early and start.known`)
	x, _ := compile(c, p, text, false, text.At)
	r := &record{policy: p}
	q := x.of(r)
	for b.Loop() {
		r.turn(run)
		q.holds()
	}
}
