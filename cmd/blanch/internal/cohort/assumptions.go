package cohort

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"

	"blanch/content"
	"blanch/sim"
	"blanch/sim/circulation"
	"blanch/sim/drug"
	"blanch/sim/line"
	"blanch/sim/symbol"
	"blanch/sim/tissue"
	"blanch/sim/vein"
)

// Assumption is one assumed parameter of the engine, and the headline
// outcomes with it at either end of its range.
type Assumption struct {
	symbol.Symbol
	Part   string // package of sim, or "sim"
	Drug   string // whose leak the outcomes are of
	Base   []float64
	AtLow  []float64 // in the order of Outcomes
	AtHigh []float64
}

// assumed lists the assumed parameters without what they move.
func assumed() []Assumption {
	var out []Assumption
	add := func(part string, symbols []symbol.Symbol) {
		for _, s := range symbols {
			if s.Published {
				continue
			}
			a := Assumption{Symbol: s, Part: part, Drug: "norepinephrine"}
			if first, _, _ := strings.Cut(s.Name, " "); infusions[first].drug != "" {
				a.Drug = first
			}
			out = append(out, a)
		}
	}
	add("sim/tissue", tissue.Symbols())
	add("sim/circulation", circulation.Symbols())
	for _, name := range drug.Names() {
		d, _ := drug.Named(name)
		add("sim/drug", d.Symbols())
	}
	add("sim/line", line.Symbols())
	add("sim/vein", vein.Symbols())
	add("sim", sim.Symbols())
	return out
}

// Assumptions lists every assumed parameter with what the headline outcomes
// come to at the ends of its range. The engine's parameters are constants, so
// these were computed by building it anew with each of them changed; the table
// is held to the engine by tests.
func Assumptions() ([]Assumption, error) {
	src, err := content.Calibration("assumptions.csv")
	if err != nil {
		return nil, err
	}
	lines, err := csv.NewReader(bytes.NewReader(src)).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("assumptions.csv: %w", err)
	}
	moves := map[string][]float64{}
	for i, l := range lines[1:] {
		var v []float64
		for _, cell := range l[3:] {
			x, err := strconv.ParseFloat(cell, 64)
			if err != nil {
				return nil, fmt.Errorf("assumptions.csv:%d: %q is not a number", i+2, cell)
			}
			v = append(v, x)
		}
		moves[l[0]+"|"+l[1]+"|"+l[2]] = v
	}
	out := assumed()
	for i := range out {
		a := &out[i]
		a.Base = moves["|"+a.Drug+"|base"]
		a.AtLow, a.AtHigh = moves[a.Part+"|"+a.Name+"|low"], moves[a.Part+"|"+a.Name+"|high"]
		if a.Base == nil || a.AtLow == nil || a.AtHigh == nil || a.AtLow[0] != a.Low || a.AtHigh[0] != a.High || a.Base[0] != 0 {
			return nil, fmt.Errorf("assumptions.csv: %s %s has changed and its row was not computed anew", a.Part, a.Name)
		}
		a.Base, a.AtLow, a.AtHigh = a.Base[1:], a.AtLow[1:], a.AtHigh[1:]
	}
	return out, nil
}
