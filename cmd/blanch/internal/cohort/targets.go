package cohort

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strconv"

	"blanch/content"
)

// Target is one published figure that the engine is held to.
type Target struct {
	ID         string
	What       string
	Published  float64
	Low, High  float64 // tolerance
	Unit       string
	Kind       string // "monte-carlo", "formula", "distribution" or "shape only"
	Population string
	Source     string
	Read       string // how the source was read: "abstract", "table", "derived"
}

// Targets is the table of published figures, in its order.
func Targets() ([]Target, error) {
	src, err := content.Calibration("targets.csv")
	if err != nil {
		return nil, err
	}
	rows, err := csv.NewReader(bytes.NewReader(src)).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("targets.csv: %w", err)
	}
	var out []Target
	for i, r := range rows[1:] {
		t := Target{ID: r[0], What: r[1], Unit: r[5], Kind: r[6], Population: r[7], Source: r[8], Read: r[9]}
		for j, into := range []*float64{&t.Published, &t.Low, &t.High} {
			if *into, err = strconv.ParseFloat(r[2+j], 64); err != nil {
				return nil, fmt.Errorf("targets.csv:%d: %q is not a number", i+2, r[2+j])
			}
		}
		out = append(out, t)
	}
	return out, nil
}
