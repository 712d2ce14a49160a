// Package line knows tubing: columns of fluid that move as a plug, so that
// what enters one end comes out of the other only after the dead volume has
// passed. Volumes are mL, concentrations the drug's base unit a mL.
package line

import "math"

// Fluid is what a stretch of tubing holds. The zero value is saline.
type Fluid struct {
	Drug int // the caller's number for it; 0 for none
	Conc float64
}

// Saline is fluid without a drug.
var Saline Fluid

// Slug is one stretch of one fluid.
type Slug struct {
	ML float64
	Fluid
}

// Column is a tube that is always full. The first slug is nearest the
// patient and leaves first.
type Column struct {
	slugs []Slug
}

// NewColumn is a tube of deadML full of one fluid. A tube without volume
// holds nothing and passes fluid on at once.
func NewColumn(deadML float64, f Fluid) Column {
	if deadML <= 0 {
		return Column{}
	}
	return Column{slugs: []Slug{{deadML, f}}}
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

// Amount is how much of a drug is in the tube.
func (c Column) Amount(drug int) float64 {
	m := 0.0
	for _, s := range c.slugs {
		if s.Drug == drug {
			m += float64(s.ML * s.Conc)
		}
	}
	return m
}

// Out is the fluid that leaves while inflow enters.
func (c Column) Out(inflow Fluid) Fluid {
	if len(c.slugs) == 0 {
		return inflow
	}
	return c.slugs[0].Fluid
}

// UntilFront is how many mL can enter before a front reaches the patient's
// end; infinite when the whole content is already like the inflow.
func (c Column) UntilFront(inflow Fluid) float64 {
	if len(c.slugs) == 0 || (len(c.slugs) == 1 && c.slugs[0].Fluid == inflow) {
		return math.Inf(1)
	}
	return c.slugs[0].ML
}

// Push moves ml through: inflow enters, and as much leaves from the first
// slug. It must not exceed the first slug's volume (see UntilFront), so that
// a front is always an event of its own.
func (c *Column) Push(ml float64, inflow Fluid) {
	if len(c.slugs) == 0 || ml <= 0 {
		return
	}
	last := len(c.slugs) - 1
	if last == 0 && c.slugs[0].Fluid == inflow {
		return // the same fluid throughout: nothing changes
	}
	if c.slugs[last].Fluid == inflow {
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

// Fill replaces the whole content by one fluid and returns what was in it.
func (c *Column) Fill(f Fluid) []Slug {
	was := c.slugs
	*c = NewColumn(c.DeadML(), f)
	return was
}

// Draw moves ml through in as many pieces as fronts demand and returns what
// left.
func (c *Column) Draw(ml float64, inflow Fluid) []Slug {
	var out []Slug
	for ml > 0 {
		piece := min(ml, c.UntilFront(inflow))
		out = append(out, Slug{piece, c.Out(inflow)})
		c.Push(piece, inflow)
		ml -= piece
	}
	return out
}

// ReplaceFar replaces what lies nearest the pump by the slugs given, nearest
// the patient first, and returns what was there. What lies nearer the patient
// stays as it is.
func (c *Column) ReplaceFar(by []Slug) []Slug {
	keep := c.DeadML()
	for _, s := range by {
		keep -= s.ML
	}
	var kept, gone []Slug
	for _, s := range c.slugs {
		near := min(s.ML, max(0, keep))
		keep -= near
		if near > 0 {
			kept = append(kept, Slug{near, s.Fluid})
		}
		if s.ML > near {
			gone = append(gone, Slug{s.ML - near, s.Fluid})
		}
	}
	c.slugs = append(kept, by...)
	return gone
}
