package main

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"blanch/cmd/blanch/internal/cohort"
	"blanch/cmd/blanch/internal/session"
	"blanch/scenarios"
)

func (p *program) calibrationCommand() *cobra.Command {
	var asJSON bool
	var table string
	runs := cohort.Runs
	c := &cobra.Command{
		Use:   "calibration",
		Short: "Simulate published cohorts and compare",
		Long: `Simulates every row of the table of published figures and prints what was published, the tolerance,
what the engine gives with its Monte Carlo error, and whether the figure was put into the model or is
predicted by it. A row passes when its value lies inside the tolerance with two errors either side.
With --table it simulates cohorts of your own instead; content/calibration/README.md has the format
and two worked ones. The exit code is 1 when a row fails.`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			if runs < 100 || runs > 10_000_000 {
				return misused("--runs %d: too few or too many patients; 100 to 10000000", runs)
			}
			rows, err := p.calibrate(table, runs)
			if err != nil {
				return err
			}
			failed := 0
			for _, r := range rows {
				if !r.Pass {
					failed++
				}
			}
			if asJSON {
				err = p.rowsAsJSON(rows, runs)
			} else {
				p.rowsAsText(rows, runs, failed)
			}
			if err == nil && failed > 0 {
				err = errFaults
			}
			return err
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	c.Flags().StringVar(&table, "table", "", "simulate the cohorts of this YAML file instead")
	c.Flags().IntVar(&runs, "runs", runs, "simulated patients for each row")
	return c
}

func (p *program) calibrate(table string, runs int) ([]cohort.Row, error) {
	if table == "" {
		return cohort.Table(runs)
	}
	src, err := session.ReadFile(table)
	if err != nil {
		return nil, unreadable(err)
	}
	cohorts, complaints := scenarios.LoadCohorts(table, src)
	for _, c := range complaints {
		fmt.Fprintln(p.err, scenarios.Render(c, src))
	}
	if cohorts == nil {
		return nil, unreadable(fmt.Errorf("%s: the table was refused, with the reasons above", table))
	}
	return cohort.Further(cohorts, runs), nil
}

func verdict(pass bool) string {
	if pass {
		return "pass"
	}
	return "FAIL"
}

func (p *program) rowsAsText(rows []cohort.Row, runs, failed int) {
	lines := [][]string{{"id", "published", "tolerance", "simulated", "unit", "", "", "what"}}
	for _, r := range rows {
		lines = append(lines, []string{
			r.ID, figure(r.Published), figure(r.Low) + " to " + figure(r.High), simulatedText(r.Estimate), r.Unit,
			string(r.Origin), verdict(r.Pass), r.What + "; " + r.Source,
		})
	}
	printColumns(p.out, lines)
	fmt.Fprintf(p.out, "\n%s, %d simulated patients each, two errors either side inside the tolerance: %d pass, %d fail\n", plural(len(rows), "row"), runs, len(rows)-failed, failed)
	fmt.Fprintln(p.out, "An animal's curve and a bench are what they are: nothing here is a prognosis for a patient.")
}

// simulatedText is a value with its error, to two figures of the error.
func simulatedText(e cohort.Estimate) string {
	if e.Error == 0 || math.IsNaN(e.Value) {
		return figure(e.Value)
	}
	digits := int(max(0, min(4, math.Ceil(1-math.Log10(e.Error)))))
	return tidy(strconv.FormatFloat(e.Value, 'f', digits, 64)) + " +/- " + tidy(strconv.FormatFloat(e.Error, 'f', digits, 64))
}

// figure writes a number with up to four figures, a leading and no trailing
// zero.
func figure(v float64) string {
	if v == 0 || math.IsNaN(v) {
		return strings.ReplaceAll(fmt.Sprint(v), "NaN", "none")
	}
	digits := int(max(0, min(6, 3-math.Floor(math.Log10(math.Abs(v))))))
	return tidy(strconv.FormatFloat(v, 'f', digits, 64))
}

// tidy takes off trailing zeros.
func tidy(s string) string {
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

func (p *program) rowsAsJSON(rows []cohort.Row, runs int) error {
	type row struct {
		ID        string   `json:"id"`
		What      string   `json:"what"`
		Published float64  `json:"published"`
		Low       float64  `json:"low"`
		High      float64  `json:"high"`
		Unit      string   `json:"unit"`
		Simulated *float64 `json:"simulated"` // null when nobody was counted
		Error     *float64 `json:"error"`
		Origin    string   `json:"origin"`
		How       string   `json:"how"`
		Pass      bool     `json:"pass"`
		Kind      string   `json:"kind"`
		Source    string   `json:"source"`
		Read      string   `json:"read_as"`
	}
	known := func(v float64) *float64 {
		if math.IsNaN(v) {
			return nil
		}
		return &v
	}
	out := struct {
		Runs int   `json:"runs"`
		Rows []row `json:"rows"`
	}{Runs: runs}
	for _, r := range rows {
		out.Rows = append(out.Rows, row{r.ID, r.What, r.Published, r.Low, r.High, r.Unit, known(r.Value), known(r.Error), string(r.Origin), r.How, r.Pass, r.Kind, r.Source, r.Read})
	}
	return p.encode(out)
}
