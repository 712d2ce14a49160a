package worksheet

import (
	"slices"
	"strings"
)

// rounding is how a row says that its answer was rounded. The zero value says
// nothing, and the answer is held to its last digit.
type rounding struct {
	step  float64 // 0: to its last digit
	exact bool    // not at all
}

// roundings are the words for it. What is nominal goes by a label, which may
// leave a small volume out.
var roundings = map[string]rounding{
	"":           {},
	"nominal":    {},
	"exact":      {exact: true},
	"whole":      {step: 1},
	"tenth":      {step: 0.1},
	"hundredth":  {step: 0.01},
	"thousandth": {step: 0.001},
}

// roundingOf reads the cell: a rounding, and behind a bracket, a colon or a
// semicolon a remark, which is left alone.
func roundingOf(cell field) (rounding, *Fault) {
	said := cell.text
	if end := strings.IndexAny(said, "(:;"); end >= 0 {
		said = said[:end]
	}
	words := slices.DeleteFunc(strings.Fields(strings.ToLower(said)), func(w string) bool {
		return slices.Contains([]string{"rounded", "to", "the", "nearest", "number"}, w)
	})
	how, known := roundings[strings.Join(words, " ")]
	if !known || len(words) == 0 && strings.TrimSpace(said) != "" {
		begins := len(said) - len(strings.TrimLeft(said, " \t\n"))
		return how, cell.at(begins, "%q is no rounding: write exact, nominal, or nearest and one of whole, tenth, hundredth and thousandth", strings.TrimSpace(said))
	}
	return how, nil
}
