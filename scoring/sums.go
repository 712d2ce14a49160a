package scoring

import (
	"math"

	"blanch/sim"
	"blanch/sim/quantity"
)

// answer is what was given to a sum; false when nothing was. The engine takes
// one answer to a sum, the first that can be read as an amount.
func (r *record) answer(sum string) (sim.AnswerRecord, bool) {
	for _, a := range r.Answers {
		if a.ID == sum && a.At < sim.Never {
			a.Key = r.keyUnder(a)
			r.rests(a.Entry)
			return a, true
		}
	}
	return sim.AnswerRecord{}, false
}

func (r *record) answered(sum string) bool {
	_, given := r.answer(sum)
	return given
}

func (r *record) right(sum string) bool {
	a, given := r.answer(sum)
	return given && r.isRight(a)
}

func (r *record) errorOf(sum string) Share {
	a, given := r.answer(sum)
	off, ok := offBy(a)
	if !given || !ok || a.Key.Value == 0 {
		return Share{unknown}
	}
	return Share{off / math.Abs(a.Key.Value)}
}

func (r *record) answerTo(sum string) Words {
	a, given := r.answer(sum)
	if !given {
		return Words{"no answer"}
	}
	return Words{a.Raw}
}

// keyOf is the key of a sum that was asked, answered or not: a pump rate on
// the policy's step, anything else to the hundredth.
func (r *record) keyOf(sum string) Words {
	for _, a := range r.Answers {
		if a.ID != sum {
			continue
		}
		a.Key = r.keyUnder(a)
		step := 0.01
		if a.Key.Unit == quantity.MustUnit("mL/h") && r.policy.RateStepMLH > 0 {
			step = r.policy.RateStepMLH
		}
		return Words{quantity.Quantity{Value: quantity.Round(a.Key.Value, step), Unit: a.Key.Unit}.String()}
	}
	return Words{"not asked"}
}

// keyUnder is the key of a sum under the policy: the engine reckons a dose by
// the kilogram with the actual weight, and the policy may want another. What
// was ordered is what the sum was asked of: of that drug, as it then stood.
func (r *record) keyUnder(a sim.AnswerRecord) quantity.Quantity {
	key := a.Key
	if a.Sum != sim.SumRate || a.From == nil || !byKG(a.From.Given["dose"]) {
		return key
	}
	if weight := a.From.Given["weight"]; weight.Value > 0 {
		key.Value = key.Value * r.doseKG() / weight.Value
	}
	return key
}

// byKG says that a dose is one by the kilogram.
func byKG(dose quantity.Quantity) bool {
	return dose.Unit.Same(quantity.MustUnit("mcg/kg/min")) || dose.Unit.Same(quantity.MustUnit("units/kg/min"))
}

// Key is the key of a sum of a run under the marker's policy, and the weight
// that it was reckoned with where that is not the actual one, else 0.
func (m *Marker) Key(run *sim.Result, a sim.AnswerRecord) (key quantity.Quantity, kg float64) {
	r := &record{Result: run, policy: m.policy}
	key = r.keyUnder(a)
	if key != a.Key {
		kg = r.doseKG()
	}
	return key, kg
}

// Right says that an answer of a run is right under the marker's policy.
func (m *Marker) Right(run *sim.Result, a sim.AnswerRecord) bool {
	r := &record{Result: run, policy: m.policy}
	a.Key = r.keyUnder(a)
	return a.At < sim.Never && r.isRight(a)
}

// offBy is how far an answer is from its key, in the key's unit. It is false
// when the answer cannot be held against the key: no unit, or another kind.
func offBy(a sim.AnswerRecord) (float64, bool) {
	if a.Given.Unit.IsZero() != a.Key.Unit.IsZero() {
		return 0, false
	}
	given := a.Given.Value
	if !a.Key.Unit.IsZero() {
		v, err := a.Given.In(a.Key.Unit)
		if err != nil {
			return 0, false
		}
		given = v
	}
	return math.Abs(given - a.Key.Value), true
}

// slack lets an answer that is off by just the tolerance pass, whatever the
// last bits of the division were.
const slack = 1e-9

// isRight allows the policy's tolerance, or for a pump rate half a step of
// the pump where that is more.
func (r *record) isRight(a sim.AnswerRecord) bool {
	off, ok := offBy(a)
	if !ok {
		return false
	}
	allowed := r.policy.Tolerance * math.Abs(a.Key.Value)
	if perHour := quantity.MustUnit("mL/h"); a.Key.Unit.Same(perHour) {
		if half, err := (quantity.Quantity{Value: r.policy.RateStepMLH / 2, Unit: perHour}).In(a.Key.Unit); err == nil {
			allowed = max(allowed, half)
		}
	}
	return off <= allowed+float64(slack*math.Abs(a.Key.Value))
}
