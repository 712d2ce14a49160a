package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"blanch/cmd/blanch/internal/session"
	"blanch/cmd/blanch/internal/worksheet"
)

// largestTable bounds a table of sums, in bytes.
const largestTable = 1 << 20

func (p *program) sumsCommand() *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "sums [TABLE.csv]",
		Short: "Check a table of worked sums, or list the kinds of sums there are",
		Long: `Works every row of a table again and says whether the answer that it states
agrees, differs or cannot be read. Where it differs, the slip that leads to the
stated number is told, and the sum is worked step by step. Alone it lists the
kinds of sums with what each must be given.

The table is a CSV file. Its first row names the columns; id, kind, inputs,
answer and unit are needed, rounding may be there, others are left alone:

  id,kind,inputs,answer,unit,rounding
  A,rate,dose=8 mcg/min; amount=4 mg; volume=250 mL,30,mL/h,exact
  B,weight,weight_lb=133; lb_per_kg=2.2,60.45,kg,nearest hundredth

Inputs are parted by semicolons. The unit of each stands behind its number
(rate=12 mL/h) or at the end of its name (rate_mL_h=12). Rounding is "exact",
or "nearest" and one of whole, tenth, hundredth and thousandth; where it is
empty or "nominal" the answer is held to its last digit. A remark may follow it
in brackets or behind a colon. Half goes up. Weights in pounds pass by 2.2 and
by 2.20462 lb to the kg.

Notation that is known to be misread is told as a note (Institute for Safe
Medication Practices, list of error-prone abbreviations, symbols and dose
designations).

The exit code is 1 when a row differs or cannot be read. This checks the
arithmetic of a sheet, not whether a dose is right: that is for local policy
and licensed practice.`,
		Args: cobra.MaximumNArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return p.listKinds(asJSON)
			}
			return p.checkSums(args[0], asJSON)
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	return c
}

func (p *program) checkSums(path string, asJSON bool) error {
	src, err := session.ReadFile(path)
	if err != nil {
		return unreadable(err)
	}
	if len(src) > largestTable {
		return unreadable(fmt.Errorf("%s: the table is larger than 1 MB: split it", path))
	}
	rows, err := worksheet.Check(src)
	var fault *worksheet.Fault
	if errors.As(err, &fault) {
		return unreadable(fmt.Errorf("%s:%w", path, err))
	}
	if asJSON {
		err = p.sumsAsJSON(rows)
	} else {
		err = p.sumsAsText(path, rows)
	}
	if n := count(rows); err == nil && n[worksheet.Differs]+n[worksheet.Unreadable] > 0 {
		err = errFaults
	}
	return err
}

func count(rows []worksheet.Row) map[worksheet.Verdict]int {
	n := map[worksheet.Verdict]int{}
	for _, r := range rows {
		n[r.Verdict]++
	}
	return n
}
