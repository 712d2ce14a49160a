package quantity

import "fmt"

// Quantity is an amount with its unit.
type Quantity struct {
	Value float64
	Unit  Unit
}

// Of is a quantity written in code. It panics on an unknown unit.
func Of(v float64, unit string) Quantity {
	return Quantity{Value: v, Unit: MustUnit(unit)}
}

// In is the value in another unit of the same dimension. Between dimensions
// it is an error, as is a bare number asked for in a unit.
func (q Quantity) In(u Unit) (float64, error) {
	if !q.Unit.Same(u) {
		return 0, fmt.Errorf("%s cannot be given in %s: give an amount that is measured in %s", q, u.orBare(), u.orBare())
	}
	if q.Unit == u {
		return q.Value, nil
	}
	num, den := lowest(q.Unit.num*u.den, q.Unit.den*u.num)
	// One rounding where the ratio allows it: dividing by 60 is exact to the
	// last bit, multiplying by 1/60 is not.
	return float64(q.Value*float64(num)) / float64(den), nil
}

// Float is the value in the named unit, for code that has already checked
// the dimension. It panics when the unit is unknown or does not fit.
func (q Quantity) Float(unit string) float64 {
	v, err := q.In(MustUnit(unit))
	if err != nil {
		panic("quantity: " + err.Error())
	}
	return v
}

// String prints the quantity in safe notation: "0.05 mcg/kg/min".
func (q Quantity) String() string {
	if q.Unit.IsZero() {
		return Number(q.Value)
	}
	if q.Value == 1 {
		return "1 " + q.Unit.single
	}
	return Number(q.Value) + " " + q.Unit.text
}

func (u Unit) orBare() string {
	if u.IsZero() {
		return "a bare number"
	}
	return u.text
}
