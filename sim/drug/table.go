package drug

import (
	"blanch/sim/quantity"
	"blanch/sim/symbol"
)

// table is every drug known, vasopressors first. A file for each holds where
// its numbers come from.
var table = []Drug{norepinephrine, epinephrine, phenylephrine, dopamine, vasopressin, phentolamine, terbutaline}

// assumed is a row of a drug's own table that was not published.
func assumed(name, unit string, value, low, high float64, why string) symbol.Symbol {
	return symbol.Symbol{Name: name, Unit: unit, Value: value, Low: low, High: high, Why: why}
}

// published is a row of a drug's own table with its source.
func published(name, unit string, value, low, high float64, source string) symbol.Symbol {
	return symbol.Symbol{Name: name, Unit: unit, Value: value, Low: low, High: high, Published: true, Why: source}
}

func of(v float64, unit string) quantity.Quantity { return quantity.Of(v, unit) }
