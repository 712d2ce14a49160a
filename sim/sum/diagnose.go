package sum

import (
	"fmt"
	"slices"
	"strings"

	"blanch/sim/quantity"
)

// Diagnosis is what explains a wrong number: no slip, one, or several that
// lead to the same number.
type Diagnosis struct {
	Slips    []Slip
	Question string // what tells the first two apart; empty for fewer

	times string // "26.3 x 60", where the answer is that
	off   string // "60 times too large"
}

// Diagnose finds the slips that lead to an answer.
func (s *Sum) Diagnose(a Answer) Diagnosis {
	var d Diagnosis
	if a.Value.Unit.IsZero() {
		a.Value.Unit = s.Unit
	}
	if !a.Value.Unit.Same(s.Unit) || s.right(a) {
		return d
	}
	// Within a hundredth of the key the number is meant to be the key.
	if off := abs(a.Value.Value - s.key); !a.clock && a.Value.Unit != s.Unit && off <= s.key/100 {
		d.Slips = append(d.Slips, Slip{Name: "unit", Family: UnitFactor, Stage: SetDevice, Step: len(s.steps), Label: s.steps[len(s.steps)-1].Label,
			Value: a.Value, steps: s.steps, clause: fmt.Sprintf("written the right number with another unit, %s for %s", a.Value.Unit, s.Unit)})
		return d
	}
	for _, slip := range s.slips {
		said := func(t Slip) bool { return t.clause == slip.clause }
		if !s.hidden(slip) && s.fits(a, slip) && !slices.ContainsFunc(d.Slips, said) {
			d.Slips = append(d.Slips, slip)
		}
	}
	if len(d.Slips) > 1 {
		d.Question = s.question(d.Slips[0], d.Slips[1])
	}
	if len(d.Slips) == 1 {
		d.times, d.off = s.times(d.Slips[0])
	}
	return d
}

// From is the slips of a stage and of those behind it: what is left to explain a
// number when all before it was right.
func (d Diagnosis) From(stage Stage) Diagnosis {
	left := slices.DeleteFunc(slices.Clone(d.Slips), func(s Slip) bool { return s.Stage < stage })
	if len(left) == len(d.Slips) {
		return d
	}
	d.Slips, d.Question = left, ""
	if len(left) > 1 {
		d.Question = asPaper
	}
	return d
}

// Rounded says that nothing but rounding explains the number.
func (d Diagnosis) Rounded() bool {
	return len(d.Slips) > 0 && !slices.ContainsFunc(d.Slips, func(s Slip) bool { return s.Family != Rounding })
}

// fits says that somebody who slips so would write this answer: rounded for
// the device, to three figures, or to as many digits as were written. A slip of
// two digits is seen only in the digits themselves: the number must be exactly
// what it gives.
func (s *Sum) fits(a Answer, slip Slip) bool {
	for _, x := range []float64{slip.Value.Value, slip.also} {
		step := s.Step
		if a.Value.Unit != s.Unit {
			x = in(x, s.Unit, a.Value.Unit)
			step = in(step, s.Unit, a.Value.Unit)
		}
		writes := func(step float64) bool {
			return near(quantity.Round(x, step), a.Value.Value)
		}
		fits := false
		switch {
		case a.Value.Value == 0:
		case a.exact, slip.exact:
			fits = near(x, a.Value.Value)
		case slip.digits:
			fits = a.carries(step) && (writes(step) || a.place <= step && writes(a.place))
		default:
			fits = writes(step) || writes(place(x, 3)) || (a.figures > 1 || a.place <= step) && writes(a.place)
		}
		if fits {
			return true
		}
	}
	return false
}

// carries says that an answer has digits enough to show that two of them were
// swapped: two, or so many as its step makes two of.
func (a Answer) carries(step float64) bool {
	return a.figures > 1 || a.Value.Value > float64(9.999*step)
}

func in(x float64, from, to quantity.Unit) float64 {
	v, _ := quantity.Quantity{Value: x, Unit: from}.In(to) // the caller has seen that they are the same kind
	return v
}

// shown is the answer that somebody who slips so would write: as the device
// takes it, or where that leaves less than two figures with more of them, so
// many that it still sets the device as the unrounded value does.
func (s *Sum) shown(slip Slip) Answer {
	x, step := slip.Value.Value, s.Step
	for n := 3; n < 9 && (step > place(x, 2) || quantity.Round(quantity.Round(x, step), s.Step) != quantity.Round(x, s.Step)); n++ {
		step = min(s.Step, place(x, n))
	}
	return answerOf(quantity.Quantity{Value: quantity.Round(x, step), Unit: s.Unit})
}

// Shown is the answer that somebody who slips so would write.
func (s *Sum) Shown(slip Slip) quantity.Quantity { return s.shown(slip).Value }

// way is the steps on the way of a slip; those of the key where it is only the
// answer that was changed.
func (s *Sum) way(slip Slip) []Step {
	if slip.steps != nil {
		return slip.steps
	}
	return s.steps
}

// asPaper tells two slips apart where no step does.
const asPaper = "To tell which, look on your own paper at the number before the answer."

// question is what tells two slips apart on one's own paper: the first step at
// which their ways differ.
func (s *Sum) question(a, b Slip) string {
	one, two := s.way(a), s.way(b)
	for i := range min(len(one), len(two)) {
		x, y := one[i].Value, two[i].Value
		if !near(y.Value, x.Value) {
			return fmt.Sprintf("To tell which, look on your own paper at step %d (%s): %s there means the first, %s the second.", i+1, one[i].Label, written(x.Value, x.Unit), written(y.Value, y.Unit))
		}
	}
	return asPaper
}

// times writes the answer as the key times or over a whole number, where a
// factor was put in or left out, and says how far off that is.
func (s *Sum) times(slip Slip) (formula, off string) {
	if slip.Family != UnitFactor && slip.Name != "point to the right" && slip.Name != "point to the left" {
		return "", ""
	}
	ratio, sign, way := slip.Value.Value/s.key, "x", "large"
	if ratio < 1 {
		ratio, sign, way = 1/ratio, "/", "small"
	}
	n := quantity.Round(ratio, 1)
	if n < 2 || n > 1e7 || !near(ratio, n) {
		return "", ""
	}
	return fmt.Sprintf("%s %s %s", s.unrounded(), sign, quantity.Number(n)), fmt.Sprintf("%s times too %s", quantity.Number(n), way)
}

// Sentence says what was done, to the one who did it, and where to look to tell
// two slips apart; empty when no slip explains the number.
func (d Diagnosis) Sentence() string {
	switch len(d.Slips) {
	case 0:
		return ""
	case 1:
		if d.off != "" {
			return "Your number is " + d.off + ": you have " + d.Slips[0].told() + "."
		}
		return "You have " + d.Slips[0].told() + "."
	}
	said := "Either you have " + d.Slips[0].told()
	for _, slip := range d.Slips[1:] {
		said += ", or you have " + slip.told()
	}
	return said + ". " + d.Question
}

// Fits says the same as a guess, where the number alone is known and other
// things may lead to it too.
func (d Diagnosis) Fits() string {
	const guess = " This is a guess from the number alone: your own paper tells."
	switch len(d.Slips) {
	case 0:
		return ""
	case 1:
		said := "This fits when one has " + d.Slips[0].told() + "." + guess
		if d.off != "" {
			said = "Your number is " + d.off + ". " + said
		}
		return said
	}
	said := "This fits when one has " + d.Slips[0].told()
	for _, slip := range d.Slips[1:] {
		said += ", and when one has " + slip.told()
	}
	return said + ". " + d.Question
}

// Account says of a number in print how it comes about.
func (d Diagnosis) Account() string {
	if len(d.Slips) == 0 {
		return "No single slip that is known here leads to that number."
	}
	said := "It comes out when one has "
	if d.times != "" {
		said = capital(d.times) + ": it comes out when one has "
	}
	said += d.Slips[0].told()
	for _, slip := range d.Slips[1:] {
		said += "; or when one has " + slip.told()
	}
	return said + "."
}

func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

func (s Slip) told() string { return s.clause + s.where() }

// where names the step at which a slip left the path.
func (s Slip) where() string {
	switch {
	case s.Name == "unit":
		return ""
	case s.steps == nil && s.Family == Rounding:
		return ", at the end"
	case s.steps == nil:
		return ", in the answer"
	}
	return fmt.Sprintf(", in step %d (%s)", s.Step, s.Label)
}
