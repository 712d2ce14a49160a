package quiz

import (
	"fmt"
	"strings"

	"blanch/cmd/blanch/internal/picture"
	"blanch/content/drill"
)

// Shown is one thing there is to see with a question: drawn, and in words for
// those who hear the screen.
type Shown struct {
	Drawn []string // rows; nil where words do as well
	Words string
}

// pictureWidth is what a picture may take of a row.
const pictureWidth = 60

// Look draws what a drill has to show.
func Look(p drill.Picture) []Shown {
	var out []Shown
	for _, b := range p.Bags {
		out = append(out, Shown{trimmed(picture.ASCII.Bag(b.Label(), 40, len(b.Label())+5)), "Bag: " + strings.Join(b.Label(), ", ") + "."})
	}
	for _, v := range p.Vials {
		out = append(out, Shown{Words: "Vial: " + strings.Join(v.Label(), ", ") + "."})
	}
	for _, y := range p.Syringes {
		out = append(out, Shown{Words: facts("Syringe", y.Drug, field("", y.Concentration), field("holds ", y.Volume))})
	}
	for _, q := range p.Pumps {
		var drawn []string
		if !q.Rate.Unit.IsZero() {
			number, unit, _ := strings.Cut(q.Rate.String(), " ")
			state := q.State
			if state == "" {
				state = q.Drug
			}
			drawn = trimmed(picture.ASCII.PumpFields(number, unit, state, pictureWidth))
		}
		rest := facts("Pump", q.Drug, field("rate ", q.Rate), field("dose ", q.Dose), field("concentration ", q.Concentration),
			field("weight ", q.Weight), field("left to run ", q.Left), q.State)
		if drawn != nil {
			if more := facts("Pump", q.Drug, field("dose ", q.Dose), field("concentration ", q.Concentration), field("weight ", q.Weight), field("left to run ", q.Left)); more != "" {
				drawn = append(drawn, more)
			}
		}
		out = append(out, Shown{drawn, rest})
	}
	for _, l := range p.Lines {
		out = append(out, Shown{Words: facts("Line", field("volume from pump to tip ", l.Dead), field("flow ", l.Flow))})
	}
	for _, c := range p.Cannulae {
		gauge := ""
		if c.Gauge != 0 {
			gauge = fmt.Sprintf("%d gauge", c.Gauge)
		}
		out = append(out, Shown{Words: facts("Cannula", gauge, field("length ", c.Length), field("vein's near wall at a depth of ", c.Depth), field("angle to the skin ", c.Angle))})
	}
	return out
}

type measured interface{ String() string }

// field is a quantity with its name, empty where there is none.
func field(name string, q measured) string {
	text := q.String()
	if text == "" || text == "0" {
		return ""
	}
	return name + text
}

// facts joins what there is to say of a thing; empty when there is nothing.
func facts(thing string, parts ...string) string {
	var said []string
	for _, p := range parts {
		if p != "" {
			said = append(said, p)
		}
	}
	if said == nil {
		return ""
	}
	return thing + ": " + strings.Join(said, ", ") + "."
}

// trimmed drops the blanks around a picture, and its common margin down to two
// columns.
func trimmed(rows []string) []string {
	margin := pictureWidth
	var out []string
	for _, r := range rows {
		if r = strings.TrimRight(r, " "); r != "" {
			margin = min(margin, len(r)-len(strings.TrimLeft(r, " ")))
			out = append(out, r)
		}
	}
	for i, r := range out {
		out[i] = "  " + r[margin:]
	}
	return out
}
