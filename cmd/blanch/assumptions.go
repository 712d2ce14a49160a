package main

import (
	"fmt"
	"math"
	"strings"

	"github.com/spf13/cobra"

	"blanch/cmd/blanch/internal/cohort"
)

func (p *program) assumptionsCommand() *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "assumptions",
		Short: "List what the engine assumes, and what each assumption moves",
		Long: `Lists every assumed parameter of the engine with its unit, its range and the reason, and what headline
outcomes come to at either end of that range. An outcome that an assumption moves by less than 1 % is
left out. The outcomes are those of one reference leak, with the drug that the assumption is about or
else norepinephrine, and of a routine line; they were computed by building the engine with each
parameter changed in turn. Nothing here is a prognosis for a patient.`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			rows, err := cohort.Assumptions()
			if err != nil {
				return err
			}
			outcomes, err := cohort.Outcomes("norepinephrine")
			if err != nil {
				return err
			}
			if asJSON {
				return p.assumptionsAsJSON(rows, outcomes)
			}
			p.assumptionsAsText(rows, outcomes)
			return nil
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	return c
}

func (p *program) assumptionsAsText(rows []cohort.Assumption, outcomes []cohort.Outcome) {
	part := ""
	for _, r := range rows {
		if r.Part != part {
			part = r.Part
			fmt.Fprintf(p.out, "\n%s\n", part)
		}
		fmt.Fprintf(p.out, "  %s: %s%s (%s to %s)\n    %s\n", r.Name, figure(r.Value), unitAfter(r.Unit), figure(r.Low), figure(r.High), r.Why)
		moved := false
		for i, o := range outcomes {
			if !moves(r.Base[i], r.AtLow[i]) && !moves(r.Base[i], r.AtHigh[i]) {
				continue
			}
			moved = true
			with := ""
			if r.Drug != "norepinephrine" {
				with = " (" + r.Drug + ")"
			}
			fmt.Fprintf(p.out, "    %s%s: %s; %s at the low end, %s at the high end\n", o.Name, with, now(r.Base[i], o.Unit), outcome(r.AtLow[i]), outcome(r.AtHigh[i]))
		}
		if !moved {
			fmt.Fprintln(p.out, "    moves none of these outcomes by 1 %")
		}
	}
	fmt.Fprintf(p.out, "\n%s\n", plural(len(rows), "assumption"))
}

// unitAfter is a unit of a symbol as people write it, with a space before it;
// nothing for a plain number.
func unitAfter(unit string) string {
	if unit == "1" {
		return ""
	}
	return " " + strings.ReplaceAll(unit, "mm[Hg]", "mmHg")
}

// moves says that an outcome changes by more than 1 %.
func moves(from, to float64) bool { return math.Abs(to-from) > 0.01*math.Abs(from) }

// outcome is a value, or that there was none: a sign that never comes.
func outcome(v float64) string {
	if v < 0 {
		return "never"
	}
	return short(v)
}

// now is an outcome as it is, with its unit.
func now(v float64, unit string) string {
	if v < 0 {
		return outcome(v)
	}
	return short(v) + " " + unit
}

// short writes three figures.
func short(v float64) string {
	if v == 0 {
		return "0"
	}
	scale := math.Pow(10, 2-math.Floor(math.Log10(math.Abs(v))))
	return figure(math.Round(v*scale) / scale)
}

func (p *program) assumptionsAsJSON(rows []cohort.Assumption, outcomes []cohort.Outcome) error {
	type moved struct {
		Outcome string   `json:"outcome"`
		Unit    string   `json:"unit"`
		Now     *float64 `json:"now"` // null when it never comes
		AtLow   *float64 `json:"at_low"`
		AtHigh  *float64 `json:"at_high"`
	}
	type row struct {
		Part     string  `json:"part"`
		Name     string  `json:"name"`
		Value    float64 `json:"value"`
		Unit     string  `json:"unit"`
		Low      float64 `json:"low"`
		High     float64 `json:"high"`
		Why      string  `json:"why"`
		Drug     string  `json:"drug"`
		Outcomes []moved `json:"outcomes"`
	}
	came := func(v float64) *float64 {
		if v < 0 {
			return nil
		}
		return &v
	}
	out := []row{}
	for _, r := range rows {
		one := row{r.Part, r.Name, r.Value, r.Unit, r.Low, r.High, r.Why, r.Drug, nil}
		for i, o := range outcomes {
			one.Outcomes = append(one.Outcomes, moved{o.Name, o.Unit, came(r.Base[i]), came(r.AtLow[i]), came(r.AtHigh[i])})
		}
		out = append(out, one)
	}
	return p.encode(out)
}
