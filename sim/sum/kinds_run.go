package sum

import (
	"math"
	"slices"

	"blanch/sim/dose"
	"blanch/sim/quantity"
)

var running = []*Kind{
	{
		Name: "run_out",
		Says: "the time until a bag is empty",
		Inputs: []Input{
			{"volume", "volume that is left", volumes, false},
			{"rate", "rate of the pump", flows, false},
			{"amount", "drug that is left", amounts[:2], false},
			{"dose", "dose that runs", []string{"mcg/min", "units/min"}, false},
		},
		Ways: [][]string{{"volume", "rate"}, {"amount", "dose"}}, Units: []string{"h"},
		fault: func(s *Sum) error {
			if _, ok := s.given["volume"]; ok {
				return nil
			}
			return likeTheDrug("dose")(s)
		},
		work: func(p *path) value { return p.runOut() },
	},
	{
		Name: "hang_next",
		Says: "the time until the next bag must hang, so that it hangs before this one is empty",
		Inputs: []Input{
			{"volume", "volume that is left", volumes, false},
			{"rate", "rate of the pump", flows, false},
			{"lead", "how long before the end the next must hang", times, false},
		},
		Ways: [][]string{{"volume", "rate", "lead"}}, Units: []string{"h"},
		fault: func(s *Sum) error {
			lasts := dose.RunOutH(s.given["volume"].Float("mL"), s.given["rate"].Float("mL/h"))
			if s.given["lead"].Float("h") >= lasts {
				return &InputError{"lead", "lead is longer than the bag lasts: that is " + written(lasts, quantity.MustUnit("h"))}
			}
			return nil
		},
		work: func(p *path) value {
			lasts := p.runOut()
			lead := p.take("lead", "the time before the end")
			unit := p.want.String()
			if lead.unit == quantity.MustUnit("min") && unit == "h" && p.slips("minutes as hundredths", UnitFactor, "written the minutes behind the point, as hundredths of an hour") {
				lead.x = lead.x * 60 / 100
			}
			lead = p.into("time before the end", lead, lasts.unit.String())
			x := lasts.x - lead.x
			if p.slips("time before the end forgotten", WrongDatum, "left out the time before the end") {
				x = lasts.x
			}
			if p.slips("time before the end added", Inverted, "added the time before the end where one takes it away") {
				x = lasts.x + lead.x
			}
			return p.plus("time until then", lasts, lead, "-", x)
		},
	},
	{
		Name: "volume_needed",
		Says: "the volume that runs in a time",
		Inputs: []Input{
			{"rate", "rate of the pump", flows, false},
			{"time", "how long it runs", times, false},
		},
		Ways: [][]string{{"rate", "time"}}, Units: volumes,
		work: func(p *path) value {
			r := p.take("rate", "the rate")
			_, _, per := shape(r.unit)
			r = p.into("rate in mL", r, "mL/"+per)
			t := p.into("time in "+per, p.take("time", "the time"), per)
			return p.times("volume", r, t, "mL", turn)
		},
	},
	{
		Name: "first_drug",
		Says: "the time until drug reaches the tip of a line that is filled with something else",
		Inputs: []Input{
			{"dead_volume", "dead volume from the pump to the tip", volumes, false},
			{"rate", "flow through the line", flows, false},
		},
		Ways: [][]string{{"dead_volume", "rate"}}, Units: []string{"min"},
		work: func(p *path) value {
			v := p.into("dead volume", p.take("dead_volume", "the dead volume"), "mL")
			r := p.take("rate", "the flow")
			_, _, per := shape(r.unit)
			r = p.into("flow in mL", r, "mL/"+per)
			return p.over("delay", v, r, per, flip|turn)
		},
	},
	{
		Name:   "flush",
		Says:   "the drug that a flush pushes ahead of itself as a bolus: what the dead volume holds",
		Inputs: slices.Concat([]Input{{"dead_volume", "dead volume that is flushed", volumes, false}}, bag),
		Ways:   with(bagWays, "dead_volume"), Units: amounts[:2],
		usual: func(g map[string]quantity.Quantity) string {
			return measureOf(g, "concentration", "amount", "stock_amount")
		},
		fault: sameMeasure("concentration", "amount", "stock_amount"),
		work:  func(p *path) value { return p.holds("dead_volume", "the dead volume") },
	},
	{
		Name: "vein_share",
		Says: "the share of a cannula that lies in the vein",
		Inputs: []Input{
			{"length", "length of the cannula", []string{"mm"}, false},
			{"depth", "depth of the vein", []string{"mm"}, false},
			{"angle", "angle to the skin", []string{"degrees"}, false},
		},
		Ways: [][]string{{"length", "depth", "angle"}}, Units: []string{"%"}, Step: 1,
		fault: func(s *Sum) error {
			g := s.given
			if g["angle"].Value > 90 {
				return &InputError{"angle", "angle is " + g["angle"].String() + ": it lies between 0 and 90 degrees"}
			}
			if dose.PathMM(g["depth"].Float("mm"), g["angle"].Value) >= g["length"].Float("mm") {
				return &InputError{"length", "length is too short: at that angle the cannula does not reach the vein"}
			}
			return nil
		},
		work: func(p *path) value {
			l := p.into("length in mm", p.take("length", "the length"), "mm")
			d := p.into("depth in mm", p.take("depth", "the depth"), "mm")
			a := p.take("angle", "the angle")
			x := dose.PathMM(d.x, a.x)
			if p.slips("angle forgotten", WrongDatum, "taken the depth for the way to the vein, as if the cannula went straight down") {
				x = d.x
			}
			if p.slips("angle from upright", WrongDatum, "measured the angle from upright, where it is measured from the skin") {
				x = dose.PathMM(d.x, 90-a.x)
			}
			way := p.record("way to the vein", written(d.x, d.unit)+" / sin("+written(a.x, a.unit)+") = "+written(x, d.unit), value{x: x, unit: d.unit, what: "the way to the vein"})
			inside := l.x - way.x
			if p.slips("outside for inside", WrongDatum, "taken the part outside the vein for the part inside") {
				inside = way.x
			}
			in := p.plus("length in the vein", l, way, "-", inside)
			share := p.over("share", in, l, "", flip|kept)
			return p.times("share in hundredths", share, value{x: 100, unit: quantity.MustUnit("%"), what: "100 %"}, "%", 0)
		},
	},
	{
		Name: "drops",
		Says: "the drops a minute",
		Inputs: slices.Concat([]Input{
			{"drop_factor", "drops that 1 mL makes in the set", []string{"gtt/mL"}, false},
			{"rate", "rate", flows, false},
			{"time", "time that the volume runs in", times, false},
			{"dose", "dose ordered", doses, false},
		}, person, bag),
		Ways:  append([][]string{{"drop_factor", "rate"}, {"drop_factor", "volume", "time"}}, with(bagWays, "drop_factor", "dose")...),
		Units: []string{"gtt/min"}, Step: 1, Device: "drip chamber", Whole: [2]string{"count", "drop"},
		fault: func(s *Sum) error {
			if _, ok := s.given["dose"]; !ok {
				return nil
			}
			return all(needsWeight("dose"), likeTheDrug("dose"))(s)
		},
		work: func(p *path) value {
			var r value
			switch {
			case p.has("rate"):
				r = p.take("rate", "the rate")
			case p.has("dose"):
				r = p.rate()
			default:
				v := p.into("volume", p.take("volume", "the volume"), "mL")
				t := p.take("time", "the time")
				r = p.over("rate", v, t, "mL/"+t.unit.String(), flip)
			}
			_, _, per := shape(r.unit)
			r = p.into("rate in mL", r, "mL/"+per)
			f := p.take("drop_factor", "the drops in 1 mL")
			d := p.times("drops in 1 "+per, r, f, "gtt/"+per, forget|turn)
			return p.into("drops a minute", d, "gtt/min")
		},
	},
}

// runOut is how long a volume, or an amount of drug, lasts.
func (p *path) runOut() value {
	if !p.has("volume") {
		d := p.take("dose", "the dose")
		measure, _, per := shape(d.unit)
		a := p.into("drug left", p.take("amount", "the amount"), measure)
		return p.over("time", a, d, per, flip|turn)
	}
	v := p.into("volume left", p.take("volume", "the volume"), "mL")
	r := p.take("rate", "the rate")
	_, _, per := shape(r.unit)
	r = p.into("rate in mL", r, "mL/"+per)
	t := p.over("time for that volume", v, r, per, flip|turn)
	return p.into("time for that volume", t, p.want.String())
}

// holds is the drug in a volume of the mix.
func (p *path) holds(name, what string) value {
	measure, _, _ := shape(p.want)
	v := p.into(what[len("the "):], p.take(name, what), "mL")
	return p.times("drug", v, p.strengthOf(measure), measure, turn)
}

// ceil is a number of whole things; a hair over a whole number is that number.
func ceil(x float64) float64 { return math.Ceil(x - 1e-9) }
