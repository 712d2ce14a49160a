package session

import (
	"fmt"
	"slices"
	"strings"

	"blanch/cmd/blanch/internal/picture"
	"blanch/sim"
	"blanch/sim/quantity"
	"blanch/sim/vein"
)

// LineDesk is what is on offer for a new line, and what is known of it.
type LineDesk struct {
	Veins    []VeinKnown
	Cannulae []Size
}

// VeinKnown is a vein as far as the learner has found out.
type VeinKnown struct {
	ID, Where string
	Look      string // what examining it showed; empty before
	Measured  string // what scanning it showed; empty before
	Taken     string // what lies in it; empty when nothing does

	scanned vein.Vein // what was measured; zero before
}

// Size is a cannula in stock.
type Size struct {
	Gauge  int
	Length string // mm
	About  string // "20 gauge (pink) 47.8 mm"
	Colour string
}

// Angles are the angles that a line desk goes through, in degrees.
var Angles = []int{5, 10, 15, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80}

// LineDesk copies what is known.
func (s *Session) LineDesk() LineDesk {
	var d LineDesk
	v := s.e.View()
	for _, offer := range s.a.Case.Veins {
		k := VeinKnown{ID: offer.ID, Where: fmt.Sprintf("%s %s", offer.Side, offer.Site)}
		seen := "" // of what lies in it
		for _, en := range s.entries {
			if en.Kind != sim.Found || en.Subject != offer.ID {
				continue
			}
			switch en.Act {
			case "examine":
				k.Look = oneLine(en.Word)
			case "view-tip":
				if en.What == "share in vein" {
					seen = fmt.Sprintf(", %s %% of it in the vein", quantity.Number(en.Value))
				}
			case "scan":
				k.measure(offer.Site, en)
				part := fmt.Sprintf("%s %s %s", en.What, quantity.Number(en.Value), en.Unit)
				if !strings.Contains(k.Measured, en.What) {
					k.Measured = strings.Trim(k.Measured+", "+strings.TrimSpace(part), ", ")
				}
			}
		}
		for _, l := range v.Lines {
			if l.Name == offer.ID && l.In {
				k.Taken = l.About + seen
			}
		}
		d.Veins = append(d.Veins, k)
	}
	sizes := slices.Clone(s.a.Place.Cannulae)
	slices.SortStableFunc(sizes, func(a, b vein.Cannula) int {
		if a.Gauge != b.Gauge {
			return a.Gauge - b.Gauge
		}
		return int(a.LengthMM*10) - int(b.LengthMM*10)
	})
	for _, c := range sizes {
		mm := quantity.Number(c.LengthMM)
		d.Cannulae = append(d.Cannulae, Size{c.Gauge, mm, fmt.Sprintf("%d gauge (%s) %s mm", c.Gauge, vein.Colour(c.Gauge), mm), vein.Colour(c.Gauge)})
	}
	return d
}

// measure keeps what a scan found. The case may leave a vein's measures to the
// seed, so they are known from the finding only.
func (k *VeinKnown) measure(site vein.Site, en sim.Entry) {
	k.scanned.Site = site
	switch en.What {
	case "diameter":
		k.scanned.DiameterMM = en.Value
	case "depth":
		k.scanned.DepthMM = en.Value
	case "straight length":
		k.scanned.StraightMM = en.Value
	}
}

// Lie is how a cannula would come to lie: a try on paper that costs no time.
type Lie struct {
	Picture []string // the long section, to scale; empty when the depth is not known
	Facts   []string
	Policy  []string // what the policy says to it, where the learner knows enough
	Choose  string   // the sentence that takes it in hand
}

// Lie works a choice of vein, cannula and angle out, by their places in the
// line desk. Of a vein that was not scanned nothing is drawn.
func (s *Session) Lie(veinAt, sizeAt, angle, width, height int, rich bool) Lie {
	d := s.LineDesk()
	if veinAt >= len(d.Veins) || sizeAt >= len(d.Cannulae) {
		return Lie{}
	}
	v, size, offer := d.Veins[veinAt], d.Cannulae[sizeAt], s.a.Case.Veins[veinAt]
	mm, _ := quantity.Parse(size.Length + " mm")
	c := vein.Cannula{Gauge: size.Gauge, LengthMM: mm.Value}
	out := Lie{Choose: fmt.Sprintf("choose %s with %d gauge %s mm at %d degrees", v.ID, size.Gauge, size.Length, angle)}
	g := vein.Geometry{}
	if v.Measured == "" {
		out.Facts = []string{"depth not known: scan this vein to see how it would lie"}
	} else {
		g = vein.Lie(v.scanned, c, float64(angle))
		n := func(x, step float64) string { return quantity.Number(quantity.Round(x, step)) }
		out.Picture = pen(rich).Section(picture.Section{
			DiameterMM: v.scanned.DiameterMM, DepthMM: v.scanned.DepthMM, StraightMM: v.scanned.StraightMM, LengthMM: c.LengthMM,
			OuterMM: vein.OuterMM(c.Gauge), AngleDeg: float64(angle), PathMM: g.PathMM, InVeinMM: g.InVeinMM,
		}, width, height)
		out.Facts = []string{
			fmt.Sprintf("path in tissue %s mm", n(g.PathMM, 0.1)),
			fmt.Sprintf("in the vein %s of %s mm", n(g.InVeinMM, 0.1), size.Length),
			fmt.Sprintf("share in vein %s %%", shareSaid(g.Share, s.a.Policy.LeastShare)),
			fmt.Sprintf("cannula to vein %s", n(g.Ratio, 0.01)),
		}
	}
	if angle < 15 || angle > 45 {
		out.Facts = append(out.Facts, "outside the usual 15 to 45 degrees")
	}
	out.Policy = s.accepts(offer, c, g, v.Measured != "")
	return out
}

// shareSaid is a share in percent, with a tenth where without it the side of
// the limit could not be seen.
func shareSaid(share, least float64) string {
	whole := quantity.Round(100*share, 1)
	if (whole >= 100*least) != (share >= least) {
		return quantity.Number(quantity.Round(100*share, 0.1))
	}
	return quantity.Number(whole)
}

// accepts sets a line against the policy, as far as the learner can know it.
func (s *Session) accepts(offer sim.VeinOffer, c vein.Cannula, g vein.Geometry, measured bool) []string {
	p := s.a.Policy
	yes := func(what string, ok bool, limit string) string {
		if ok {
			return what + " yes"
		}
		return what + " no (" + limit + ")"
	}
	var gauges []string
	for _, n := range p.Gauges {
		gauges = append(gauges, fmt.Sprint(n))
	}
	var sites []string
	for _, site := range p.Sites {
		sites = append(sites, string(site))
	}
	share := "share in vein not known" // of this try; what lies there already is another matter
	least := "at least " + percent(p.LeastShare) + " %"
	if measured {
		share = yes("share in vein", g.Share >= p.LeastShare, least)
	}
	return []string{
		yes("site", slices.Contains(p.Sites, offer.Site), strings.Join(sites, ", ")),
		yes("gauge", slices.Contains(p.Gauges, c.Gauge), strings.Join(gauges, ", ")),
		yes("length", c.LengthMM >= p.LeastMM, "at least "+quantity.Number(p.LeastMM)+" mm"),
		share,
	}
}
