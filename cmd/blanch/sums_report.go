package main

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"blanch/cmd/blanch/internal/fold"
	"blanch/cmd/blanch/internal/worksheet"
	"blanch/sim/quantity"
	"blanch/sim/sum"
)

// paragraph breaks a text into lines of at most 78 columns. The first begins
// with lead, the others with as many spaces; a line that is numbered goes on
// behind its number. A number and its unit stay on one line.
func paragraph(lead, text string) string {
	const width = 78
	words := unbroken(text)
	hang := fold.Under(lead)
	if first := words[0]; strings.TrimRight(first, ".0123456789") == "" && strings.HasSuffix(first, ".") {
		hang += fold.Under(first + " ")
	}
	return strings.Join(fold.Words(lead, hang, words, width), "\n")
}

// unbroken are the words of a text, with what must not be parted in one: a
// number and its unit, and a step and its number.
func unbroken(text string) []string {
	number := func(w string) bool {
		w = strings.TrimPrefix(w, "(")
		return w != "" && strings.Trim(w, "0123456789.") == "" && !strings.HasSuffix(w, ".")
	}
	out := []string{}
	joins := false
	for _, w := range strings.Fields(text) {
		last := len(out) - 1
		switch {
		case last >= 0 && joins && w != "x" && w != "/" && w != "=" && w != "+" && w != "-":
			out[last] += " " + w
			joins = false
			if strings.HasPrefix(out[last], "step ") {
				continue
			}
		default:
			out = append(out, w)
		}
		joins = number(w) || w == "step"
	}
	if len(out) == 0 {
		return []string{""}
	}
	return out
}

func (p *program) sumsAsText(path string, rows []worksheet.Row) error {
	widest := 0
	for _, r := range rows {
		widest = max(widest, min(utf8.RuneCountInString(r.ID), 20))
	}
	for _, r := range rows {
		head := fmt.Sprintf("%-*s  %-14s  ", widest, r.ID, r.Verdict)
		switch r.Verdict {
		case worksheet.Unreadable:
			fmt.Fprintln(p.out, strings.TrimRight(head, " "))
			fmt.Fprintln(p.out, paragraph("    ", fmt.Sprintf("%s:%s", path, r.Fault)))
		case worksheet.Agrees:
			fmt.Fprintln(p.out, paragraph(head, fmt.Sprintf("stated %s, computed %s", r.Stated, r.Sum.Answer())))
		default:
			fmt.Fprintln(p.out, paragraph(head, fmt.Sprintf("stated %s, computed %s", r.Stated, r.Sum.Answer())))
			why := r.Said
			if why == "" {
				why = r.Diagnosis.Account()
			}
			fmt.Fprintln(p.out, paragraph("    ", why))
			for _, line := range r.Sum.Working() {
				fmt.Fprintln(p.out, paragraph("      ", line))
			}
		}
		for _, note := range r.Notes {
			fmt.Fprintln(p.out, paragraph("    note: ", note))
		}
	}
	n := count(rows)
	_, err := fmt.Fprintf(p.out, "\n%s: %d agree, %d differ, %d cannot be read\n",
		plural(len(rows), "row"), n[worksheet.Agrees], n[worksheet.Differs], n[worksheet.Unreadable])
	return err
}

// amount is a quantity as JSON has it.
type amount struct {
	Value float64 `json:"value"`
	Unit  string  `json:"unit"`
}

func amountOf(q quantity.Quantity) *amount { return &amount{q.Value, q.Unit.String()} }

// slipped is a slip as JSON has it.
type slipped struct {
	Name   string `json:"name"`
	Family string `json:"family"`
	Stage  string `json:"stage"`
	Step   int    `json:"step"`
	Said   string `json:"said"`
}

func (p *program) sumsAsJSON(rows []worksheet.Row) error {
	type row struct {
		ID       string           `json:"id"`
		Line     int              `json:"line"`
		Kind     string           `json:"kind,omitempty"`
		Verdict  string           `json:"verdict"`
		Stated   *amount          `json:"stated,omitempty"`
		Computed *amount          `json:"computed,omitempty"`
		Exact    *amount          `json:"exact,omitempty"`
		Slips    []slipped        `json:"slips,omitempty"`
		Said     string           `json:"said,omitempty"`
		Question string           `json:"question,omitempty"`
		Working  []string         `json:"working,omitempty"`
		Notes    []string         `json:"notes,omitempty"`
		Fault    *worksheet.Fault `json:"fault,omitempty"`
	}
	n := count(rows)
	out := struct {
		Rows       []row `json:"rows"`
		Agree      int   `json:"agree"`
		Differ     int   `json:"differ"`
		Unreadable int   `json:"unreadable"`
	}{[]row{}, n[worksheet.Agrees], n[worksheet.Differs], n[worksheet.Unreadable]}
	for _, r := range rows {
		one := row{ID: r.ID, Line: r.Line, Verdict: string(r.Verdict), Said: r.Said, Question: r.Diagnosis.Question, Notes: r.Notes, Fault: r.Fault}
		if r.Sum != nil {
			one.Kind = r.Sum.Kind.Name
			one.Stated, one.Computed, one.Exact = amountOf(r.Stated), amountOf(r.Sum.Answer()), amountOf(r.Sum.Key())
			one.Working = r.Sum.Working()
		}
		if r.Verdict == worksheet.Differs && r.Said == "" {
			one.Said = r.Diagnosis.Account()
		}
		for _, s := range r.Diagnosis.Slips {
			one.Slips = append(one.Slips, slipped{s.Name, s.Family.String(), s.Stage.String(), s.Step, s.Clause()})
		}
		out.Rows = append(out.Rows, one)
	}
	return p.encode(out)
}

// listKinds lists every kind of sum with what it is given.
func (p *program) listKinds(asJSON bool) error {
	if asJSON {
		return p.kindsAsJSON()
	}
	for i, k := range sum.Kinds() {
		if i > 0 {
			fmt.Fprintln(p.out)
		}
		fmt.Fprintln(p.out, k.Name)
		fmt.Fprintln(p.out, paragraph("  ", k.Says))
		fmt.Fprintln(p.out, paragraph("  needs    ", k.Needs()))
		var extra []string
		for _, in := range k.Inputs {
			if in.Extra {
				extra = append(extra, in.Name)
			}
		}
		if extra != nil {
			fmt.Fprintln(p.out, paragraph("  can have ", strings.Join(extra, ", ")))
		}
		answer := strings.Join(k.Units, ", ")
		if answer == "" {
			answer = "a bare number"
		}
		if k.Step > 0 {
			answer += ", by " + quantity.Number(k.Step)
		}
		if k.Device != "" {
			answer += " on the " + k.Device
		}
		fmt.Fprintln(p.out, paragraph("  answer   ", answer))
		for _, in := range k.Inputs {
			units := strings.Join(in.Units, ", ")
			if units == "" {
				units = "a bare number"
			}
			fmt.Fprintln(p.out, paragraph(fmt.Sprintf("    %-20s ", in.Name), in.Says+": "+units))
		}
	}
	_, err := fmt.Fprintln(p.out, "\nUnits that convert to those named are taken as well, such as mcg for mg.")
	return err
}

func (p *program) kindsAsJSON() error {
	type input struct {
		Name  string   `json:"name"`
		Says  string   `json:"says"`
		Units []string `json:"units"`
		Extra bool     `json:"extra"`
	}
	type kind struct {
		Name   string     `json:"name"`
		Says   string     `json:"says"`
		Needs  [][]string `json:"needs"`
		Units  []string   `json:"units"`
		Step   float64    `json:"step,omitempty"`
		Device string     `json:"device,omitempty"`
		Inputs []input    `json:"inputs"`
	}
	var out []kind
	for _, k := range sum.Kinds() {
		one := kind{k.Name, k.Says, k.Ways, append([]string{}, k.Units...), k.Step, k.Device, nil}
		for _, in := range k.Inputs {
			one.Inputs = append(one.Inputs, input{in.Name, in.Says, append([]string{}, in.Units...), in.Extra})
		}
		out = append(out, one)
	}
	return p.encode(out)
}
