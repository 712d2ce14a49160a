package quantity

// kind is one base dimension.
type kind uint8

const (
	drugMass kind = iota
	activity
	bodyWeight
	volume
	length
	pressure
	angle
	fraction
	drops
	charge
	beats
	years
	duration
	kinds // how many there are
)

// Dimension says what a unit measures, as the power of each base dimension.
// Two units convert into each other when their dimensions are equal. The
// zero Dimension is that of a bare number.
type Dimension struct {
	powers [kinds]int8
}

// base is one unit of the table: Num/Den of the smallest unit of its kind.
type base struct {
	kind     kind
	symbol   string // as printed
	one      string // as printed after exactly 1; empty when the same
	num, den int64
	spelt    []string // other spellings accepted, in lower case
}

// bases is every unit a compound is made of. Scales are ratios of whole
// numbers, so that 4 mg is exactly 4000 mcg and a third of an hour 20 min.
var bases = []base{
	{drugMass, "mcg", "", 1, 1, []string{"ug", "\u00b5g", "\u03bcg", "microgram", "micrograms", "mcgs"}},
	{drugMass, "mg", "", 1000, 1, []string{"milligram", "milligrams", "mgs"}},
	{drugMass, "g", "", 1000000, 1, []string{"gram", "grams", "gm"}},
	{activity, "units", "unit", 1, 1, []string{"u", "iu"}},
	{bodyWeight, "kg", "", 1, 1, []string{"kgs", "kilogram", "kilograms", "kilo", "kilos"}},
	{bodyWeight, "lb", "", 5, 11, []string{"lbs", "pound", "pounds"}},
	{volume, "mL", "", 1, 1, []string{"cc", "ccs", "mls", "millilitre", "millilitres", "milliliter", "milliliters"}},
	{volume, "L", "", 1000, 1, []string{"litre", "litres", "liter", "liters"}},
	{length, "mm", "", 1, 1, []string{"millimetre", "millimetres", "millimeter", "millimeters"}},
	{length, "cm", "", 10, 1, []string{"centimetre", "centimetres", "centimeter", "centimeters"}},
	{length, "m", "", 1000, 1, []string{"metre", "metres", "meter", "meters"}},
	{pressure, "mmHg", "", 1, 1, []string{"mm hg"}},
	{angle, "degrees", "degree", 1, 1, []string{"deg", "degs", "\u00b0"}},
	{fraction, "%", "", 1, 1, []string{"percent", "pct"}},
	{drops, "gtt", "", 1, 1, []string{"gtts", "drop", "drops"}},
	{charge, "mEq", "", 1, 1, nil},
	{beats, "beats", "beat", 1, 1, nil},
	{years, "y", "", 1, 1, []string{"yr", "yrs", "year", "years"}},
	{duration, "s", "", 1, 1, []string{"sec", "secs", "second", "seconds"}},
	{duration, "min", "", 60, 1, []string{"mins", "minute", "minutes"}},
	{duration, "h", "", 3600, 1, []string{"hr", "hrs", "hour", "hours"}},
	{duration, "d", "", 86400, 1, []string{"day", "days"}},
}
