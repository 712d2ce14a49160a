package drill

import (
	"fmt"

	"blanch/sim/quantity"
)

// patient is somebody invented, to begin a stem with.
func (h *hand) patient() string {
	who := h.say("a woman", "a man")
	age := h.between(24, 88)
	why := h.say("septic shock from a lung infection", "a low pressure after abdominal surgery", "septic shock from a kidney infection",
		"a low pressure in spite of fluid", "vasodilatory shock")
	return h.say(
		fmt.Sprintf("Bed %d: %s of %d with %s.", h.between(1, 18), who, age, why),
		fmt.Sprintf("You look after %s of %d with %s.", who, age, why),
		fmt.Sprintf("Your patient is %s of %d with %s.", who, age, why),
	)
}

// ask is the question with the unit of its answer and how to round it.
func ask(question, unit string, step float64) string {
	if unit == "" {
		return question + " Answer with a whole number."
	}
	return fmt.Sprintf("%s Answer in %s, to the nearest %s; a half goes up.", question, unit, quantity.Quantity{Value: step, Unit: quantity.MustUnit(unit)})
}

func of(v float64, unit string) quantity.Quantity { return quantity.Of(v, unit) }

func bare(v float64) quantity.Quantity { return quantity.Quantity{Value: v} }
