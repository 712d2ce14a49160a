package sum

import (
	"math/rand/v2"
	"testing"

	"blanch/sim/quantity"
)

// One sum made, with every wrong way through it.
func BenchmarkNew(b *testing.B) {
	k, _ := Named("rate")
	given := map[string]quantity.Quantity{
		"dose": quantity.Of(0.05, "mcg/kg/min"), "weight": quantity.Of(154, "lb"), "amount": quantity.Of(4, "mg"), "volume": quantity.Of(250, "mL"),
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := k.New(given, quantity.Unit{}); err != nil {
			b.Fatal(err)
		}
	}
}

// One wrong answer read, marked and diagnosed.
func BenchmarkMark(b *testing.B) {
	s := draw(rand.New(rand.NewPCG(1, 1)), kinds[7])
	wrong := s.Shown(s.Slips()[0]).String()
	b.ReportAllocs()
	for b.Loop() {
		s.Mark(wrong)
	}
}
