package drill

import (
	"blanch/sim/luck"
	"blanch/sim/quantity"
)

// hand deals the choices of one question. Choices of numbers are the digits of
// one index, so that each index is another set of numbers; choices of words
// come from the seed alone.
type hand struct {
	name  string
	seed  uint64
	index uint64
	size  uint64 // how many indices there are: the product of what was chosen from
	words int
}

// pick is one of 0 to n-1. What a drill picks from must not depend on what it
// picked before.
func (h *hand) pick(n int) int {
	h.size *= uint64(n)
	d := h.index % uint64(n)
	h.index /= uint64(n)
	return int(d)
}

func one[T any](h *hand, of []T) T { return of[h.pick(len(of))] }

// grid is a multiple of step from low on, up to high.
func (h *hand) grid(low, high, step float64) float64 {
	return quantity.Round(low+float64(h.pick(int((high-low)/step+1.5)))*step, step)
}

// say is one of some wordings.
func (h *hand) say(of ...string) string {
	h.words++
	return of[luck.Bits(h.seed, "words", h.name, h.words)%uint64(len(of))]
}

// between is a whole number for the story, which no sum uses.
func (h *hand) between(low, high int) int {
	h.words++
	return low + int(luck.Bits(h.seed, "words", h.name, h.words)%uint64(high-low+1))
}
