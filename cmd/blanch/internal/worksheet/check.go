package worksheet

import (
	"errors"
	"fmt"
	"strings"

	"blanch/sim/quantity"
	"blanch/sim/sum"
)

// Verdict is what a row comes to.
type Verdict string

// The verdicts.
const (
	Agrees     Verdict = "agrees"
	Differs    Verdict = "differs"
	Unreadable Verdict = "cannot be read"
)

// Row is one row that was checked.
type Row struct {
	ID      string
	Line    int
	Verdict Verdict
	Fault   *Fault // of a row that cannot be read

	Sum       *sum.Sum // nil when it cannot be read
	Stated    quantity.Quantity
	Diagnosis sum.Diagnosis // of a row that differs
	Said      string        // why it differs, where that is not the number alone
	Notes     []string      // unsafe notation in the sheet itself, and the like
}

// Check works every row of a table again. The error is a [Fault] of the whole
// file.
func Check(src []byte) ([]Row, error) {
	all, err := records(src)
	if err != nil {
		return nil, err
	}
	rows := make([]Row, len(all))
	for i, r := range all {
		rows[i] = check(r)
		if rows[i].Fault != nil {
			rows[i].Verdict = Unreadable
		}
	}
	return rows, nil
}

func check(r record) Row {
	row := Row{ID: strings.Join(strings.Fields(r.fields["id"].text), " "), Line: r.line}
	if row.Fault = r.fault; row.Fault != nil {
		return row
	}
	stated, fault := answer(r.fields["answer"], r.fields["unit"])
	if row.Fault = fault; fault != nil {
		return row
	}
	row.Stated = stated.Value
	how, fault := roundingOf(r.fields["rounding"])
	if row.Fault = fault; fault != nil {
		return row
	}
	row.Sum, row.Notes, row.Fault = work(r.fields["kind"], r.fields["inputs"], r.fields["unit"], stated.Value.Unit)
	if row.Fault != nil {
		return row
	}
	for _, says := range stated.Unsafe {
		row.Notes = append(row.Notes, fmt.Sprintf("%s: %s", strings.TrimSpace(stated.Raw), says))
	}
	row.judge(stated, how)
	return row
}

// answer reads what a row states. Its unit stands in a column of its own, or
// behind the number.
func answer(cell, unit field) (sum.Answer, *Fault) {
	a, err := sum.Read(cell.text)
	if err != nil {
		return a, cell.at(0, "%s", err)
	}
	text := strings.TrimSpace(unit.text)
	// Vials a day are counted as vials are.
	if text == "" || sum.Counts(strings.TrimSuffix(text, "/day")) {
		return a, nil
	}
	u, err := quantity.ParseUnit(text)
	if err != nil {
		return a, unit.at(0, "%s", err)
	}
	if !a.Value.Unit.IsZero() && a.Value.Unit != u {
		return a, cell.at(0, "the answer is in %s and the column unit says %s: write one of them", a.Value.Unit, u)
	}
	if a.Value.Unit.IsZero() {
		a.Unsafe = append(a.Unsafe, quantity.Unsafe("1 "+text)...)
		a.Raw = strings.TrimSpace(cell.text) + " " + text
	}
	a.Value.Unit = u
	return a, nil
}

// work finds the kind and puts its numbers in.
func work(kind, inputs, unit field, want quantity.Unit) (*sum.Sum, []string, *Fault) {
	name := strings.TrimSpace(kind.text)
	kinds, dose := kindsNamed(name)
	if kinds == nil {
		said := fmt.Sprintf("no kind is called %q: blanch sums lists them", name)
		if fit := fitting(inputs, want); fit != nil {
			said = fmt.Sprintf("no kind is called %q: these inputs would do for %s", name, strings.Join(fit, " or "))
		}
		return nil, nil, kind.at(0, "%s", said)
	}
	var first *Fault
	for _, k := range kinds {
		s, notes, fault := workAs(k, dose, inputs, unit, want)
		if fault == nil {
			return s, notes, nil
		}
		if first == nil {
			first = fault
		}
	}
	return nil, nil, first
}

func workAs(k *sum.Kind, dose string, inputs, unit field, want quantity.Unit) (*sum.Sum, []string, *Fault) {
	g, fault := parseInputs(inputs, k, dose)
	if fault != nil {
		return nil, nil, fault
	}
	if want.IsZero() {
		want = g.to
	} else if !g.to.IsZero() && g.to != want {
		return nil, nil, inputs.at(g.at["to"], "to says %s and the answer is in %s: write one of them", g.to, want)
	}
	s, err := k.New(g.values, want)
	if err != nil {
		return nil, nil, g.fault(err, inputs, unit)
	}
	return s, g.unsafe, nil
}

// fault is why a kind cannot be worked with what was given, at the input that
// is the reason, as far as that is known.
func (g given) fault(err error, inputs, unit field) *Fault {
	var bad *sum.InputError
	if !errors.As(err, &bad) {
		return inputs.at(0, "%s", err)
	}
	if at, ok := g.at[bad.Input]; ok {
		return inputs.at(at, "%s", bad.Said)
	}
	if strings.HasPrefix(bad.Said, "the answer") && unit.text != "" {
		return unit.at(0, "%s", bad.Said)
	}
	return inputs.at(0, "%s", bad.Said)
}

// fitting are the kinds that the inputs would do for.
func fitting(inputs field, want quantity.Unit) []string {
	var out []string
	for _, k := range sum.Kinds() {
		for _, dose := range []string{"", "mcg/kg/min", "mcg/min"} {
			if _, _, fault := workAs(k, dose, inputs, field{}, want); fault == nil && k.Takes(want) {
				out = append(out, k.Name)
				break
			}
		}
	}
	return out
}

// judge holds the stated answer against the key, rounded as the row says, or
// to the last digit that it shows.
func (row *Row) judge(stated sum.Answer, how rounding) {
	step := how.step
	if step == 0 {
		step = stated.Place()
	}
	s, err := row.Sum.To(step)
	if err != nil { // rounded so, nothing is left of it
		row.Verdict = Differs
		row.Diagnosis = row.Sum.Diagnose(stated)
		return
	}
	row.Sum = s
	// An answer with more digits than it is rounded to is held to them all.
	if place := stated.Place(); quantity.Round(stated.Value.Value, step) != stated.Value.Value && place < step {
		if s, err = s.To(place); err != nil {
			row.Verdict = Differs
			return
		}
	}
	m := s.MarkAnswer(stated)
	switch {
	case m.Verdict == sum.NoUnit:
		row.Verdict = Differs
		row.Said = m.Reason
	case m.Verdict != sum.Right:
		row.Verdict = Differs
		row.Diagnosis = m.Diagnosis
	case how.exact && !s.Exactly(stated.Value):
		row.Verdict = Differs
		row.Said = fmt.Sprintf("It is stated as exact, and is %s before it is rounded.", s.Key())
	default:
		row.Verdict = Agrees
		if !s.ByOwnPounds(stated.Value) {
			row.Notes = append(row.Notes, "by the other convention for pounds")
		}
	}
}
