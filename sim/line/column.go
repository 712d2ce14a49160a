// Package line knows tubing: columns of fluid that move as a plug, so that
// what enters one end comes out of the other only after the dead volume has
// passed. Volumes are mL, concentrations mcg/mL, flows mL/s, times s.
package line

import "math"

// Slug is one stretch of fluid of one concentration.
type Slug struct {
	ML   float64
	Conc float64
}

// Column is a tube that is always full. The first slug is nearest the
// patient and leaves first.
type Column struct {
	slugs []Slug
}

// NewColumn is a tube of deadML filled with fluid of concentration conc.
// A tube without volume holds nothing and passes fluid on at once.
func NewColumn(deadML, conc float64) Column {
	if deadML <= 0 {
		return Column{}
	}
	return Column{slugs: []Slug{{deadML, conc}}}
}

// Copy is an independent copy.
func (c Column) Copy() Column { return Column{slugs: append([]Slug(nil), c.slugs...)} }

// Slugs lists the content from the patient's end; the caller must not
// change it.
func (c Column) Slugs() []Slug { return c.slugs }

// DeadML is the tube's volume.
func (c Column) DeadML() float64 {
	v := 0.0
	for _, s := range c.slugs {
		v += s.ML
	}
	return v
}

// Mcg is the drug in the tube.
func (c Column) Mcg() float64 {
	m := 0.0
	for _, s := range c.slugs {
		m += float64(s.ML * s.Conc)
	}
	return m
}

// Out is the concentration that leaves while fluid of concentration inflow
// enters.
func (c Column) Out(inflow float64) float64 {
	if len(c.slugs) == 0 {
		return inflow
	}
	return c.slugs[0].Conc
}

// UntilFront is how many mL can enter before a front reaches the patient's
// end; infinite when the whole content is already like the inflow.
func (c Column) UntilFront(inflow float64) float64 {
	if len(c.slugs) == 0 || (len(c.slugs) == 1 && c.slugs[0].Conc == inflow) {
		return math.Inf(1)
	}
	return c.slugs[0].ML
}

// Push moves ml through: fluid of concentration inflow enters, and as much
// leaves from the first slug. It must not exceed the first slug's volume
// (see UntilFront), so that a front is always an event of its own.
func (c *Column) Push(ml, inflow float64) {
	if len(c.slugs) == 0 || ml <= 0 {
		return
	}
	last := len(c.slugs) - 1
	if last == 0 && c.slugs[0].Conc == inflow {
		return // the same fluid throughout: nothing changes
	}
	if c.slugs[last].Conc == inflow {
		c.slugs[last].ML += ml
	} else {
		c.slugs = append(c.slugs, Slug{ml, inflow})
	}
	if ml >= c.slugs[0].ML {
		c.slugs = append(c.slugs[:0], c.slugs[1:]...)
		return
	}
	c.slugs[0].ML -= ml
}

// Fill replaces the whole content by fluid of concentration conc and
// returns the drug that was in it.
func (c *Column) Fill(conc float64) (mcg float64) {
	mcg = c.Mcg()
	*c = NewColumn(c.DeadML(), conc)
	return mcg
}

// Draw moves ml through in as many pieces as fronts demand and returns the
// drug that left.
func (c *Column) Draw(ml, inflow float64) (mcg float64) {
	for ml > 0 {
		piece := min(ml, c.UntilFront(inflow))
		mcg += float64(piece * c.Out(inflow))
		c.Push(piece, inflow)
		ml -= piece
	}
	return mcg
}

// ReplaceFar replaces the farML nearest the pump by fluid of concentration
// conc and returns the drug that was in it. What lies nearer the patient
// stays as it is.
func (c *Column) ReplaceFar(farML, conc float64) (mcg float64) {
	keep := max(0, c.DeadML()-farML)
	var kept []Slug
	for _, s := range c.slugs {
		near := min(s.ML, keep)
		keep -= near
		if near > 0 {
			kept = append(kept, Slug{near, s.Conc})
		}
		mcg += float64((s.ML - near) * s.Conc)
	}
	c.slugs = append(kept, Slug{farML, conc})
	return mcg
}
