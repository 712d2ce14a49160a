package worksheet

import (
	"errors"
	"fmt"
	"regexp"
	"strings"

	"blanch/sim/drug"
	"blanch/sim/quantity"
	"blanch/sim/sum"
)

// given is what the inputs of a row come to.
type given struct {
	values map[string]quantity.Quantity
	at     map[string]int // where in the cell each stands
	to     quantity.Unit  // "to=mcg" of a conversion
	unsafe []string
}

// parseInputs reads a cell of inputs for a kind.
func parseInputs(cell field, k *sum.Kind, dose string) (given, *Fault) {
	g := given{values: map[string]quantity.Quantity{}, at: map[string]int{}}
	var words []word
	offset := 0
	for _, part := range strings.Split(cell.text, ";") {
		start := offset + len(part) - len(strings.TrimLeft(part, " \t\n"))
		offset += len(part) + 1
		part = strings.TrimSpace(part)
		if part == "" {
			continue
		}
		name, value, ok := strings.Cut(part, "=")
		name, value = strings.TrimSpace(name), strings.TrimSpace(value)
		if !ok && name == "same mL/h" && k.Name == "error_factor" {
			continue // says in words what the kind takes for granted
		}
		if !ok || value == "" {
			return g, cell.at(start, "%q is no input: write it like dose=5 mcg/kg/min", name)
		}
		if k.Name == "convert" && (name == "from" || name == "to") || k.Name == "stock_needed" && name == "find" {
			if _, twice := g.at[name]; twice {
				return g, cell.at(start, "%s is given twice", name)
			}
			words = append(words, word{name, value})
			g.at[name] = start
			continue
		}
		if name == "salt" && hasInput(k, "salt_ratio") {
			if ratio, ok := saltNamed(value); ok {
				if _, twice := g.values["salt_ratio"]; twice {
					return g, cell.at(start, "salt_ratio is given twice")
				}
				g.values["salt_ratio"], g.at["salt_ratio"] = quantity.Quantity{Value: ratio}, start
				continue
			}
		}
		in, q, err := parseInput(k, name, value, dose)
		if err != nil {
			return g, cell.at(start, "%s", err)
		}
		if _, twice := g.values[in]; twice {
			return g, cell.at(start, "%s is given twice", in)
		}
		g.values[in], g.at[in] = q, start
		for _, says := range quantity.Unsafe(value) {
			g.unsafe = append(g.unsafe, fmt.Sprintf("%s: %s", part, says))
		}
	}
	return g, g.use(cell, words)
}

// word is an input that says something other than a number.
type word struct{ name, says string }

// use gives the words of a row their meaning, in the order of the row.
func (g *given) use(cell field, words []word) *Fault {
	for _, w := range words {
		at := g.at[w.name]
		if w.name == "find" {
			if w.says != "V1" {
				return cell.at(at, "find=%s is not worked out: find=V1 is the volume of the stock", w.says)
			}
			continue
		}
		u, err := quantity.ParseUnit(w.says)
		if err != nil {
			return cell.at(at, "%s", err)
		}
		if w.name == "to" {
			g.to = u
			continue
		}
		switch q, ok := g.values["value"]; {
		case ok && q.Unit.IsZero():
			g.values["value"] = quantity.Quantity{Value: q.Value, Unit: u}
		case ok && q.Unit != u:
			return cell.at(at, "from says %s and value is in %s: write one of them", u, q.Unit)
		}
	}
	return nil
}

func hasInput(k *sum.Kind, name string) bool { _, ok := k.Input(name); return ok }

// saltNamed is the mass of a salt that holds 1 of base, by the name of the
// salt, with or without its drug: "bitartrate_monohydrate", "dopamine_HCl".
func saltNamed(text string) (ratio float64, ok bool) {
	name := strings.ReplaceAll(strings.ReplaceAll(text, "_", " "), "HCl", "hydrochloride")
	for _, n := range drug.Names() {
		d, _ := drug.Named(n)
		rest, named := strings.CutPrefix(name, n+" ")
		if s, has := d.SaltNamed(rest); has && (named || !ok) {
			ratio, ok = s.Ratio, true
			if named {
				return ratio, true
			}
		}
	}
	return ratio, ok
}

// parseInput reads one input: its unit stands in the value or at the end of
// the name.
func parseInput(k *sum.Kind, name, value, dose string) (input string, q quantity.Quantity, err error) {
	q, err = amount(value)
	bare := errors.Is(err, quantity.ErrNoUnit)
	if err != nil && !bare {
		return "", q, fmt.Errorf("%s: %w", name, err)
	}
	// The whole name first, then ever shorter beginnings of it, with the rest
	// as the unit.
	var misfit error
	for end := len(name); end > 0; end = strings.LastIndex(name[:end], "_") {
		found := inputsNamed(k, name[:end])
		for _, o := range found {
			in, _ := k.Input(o.name)
			scaled, ok := q, true
			switch tail := strings.TrimPrefix(name[end:], "_"); {
			case !bare && (tail != "" || o.unit != ""):
				misfit = fmt.Errorf("%s has a unit in its name and another in its value: leave one out", name)
				continue
			case tail != "":
				scaled, ok = suffixed(q.Value, tail)
			case o.unit != "":
				scaled.Unit = quantity.MustUnit(o.unit)
			case bare && o.name == "dose" && dose != "":
				scaled.Unit = quantity.MustUnit(dose)
			}
			if ok && (in.Measure(scaled.Unit) || k.Name == "convert" && scaled.Unit.IsZero()) {
				return o.name, scaled, nil
			}
			switch {
			case !ok || misfit != nil:
			case scaled.Unit.IsZero():
				misfit = fmt.Errorf("%s has no unit: write it like %s=%s %s", name, o.name, quantity.Number(q.Value), in.Units[0])
			case len(in.Units) == 0:
				misfit = fmt.Errorf("%s is a bare number: write it like %s=%s", o.name, o.name, quantity.Number(q.Value))
			default:
				misfit = fmt.Errorf("%s cannot be %s: give it in %s", o.name, scaled, strings.Join(in.Units, " or "))
			}
		}
	}
	if misfit != nil {
		return "", q, misfit
	}
	var takes []string
	for _, in := range k.Inputs {
		takes = append(takes, in.Name)
	}
	return "", q, fmt.Errorf("%s takes no %q: it takes %s", k.Name, name, strings.Join(takes, ", "))
}

// amount reads a quantity, or a drug in a volume: "dopamine 200 mg/250 mL".
func amount(text string) (quantity.Quantity, error) {
	if first := strings.IndexAny(text, "0123456789"); first > 0 && strings.Trim(text[:first], "abcdefghijklmnopqrstuvwxyz ") == "" {
		text = text[first:] // the name of the drug
	}
	q, err := quantity.Parse(text)
	if err == nil || errors.Is(err, quantity.ErrNoUnit) {
		return q, err
	}
	over, under, ok := strings.Cut(text, "/")
	if !ok {
		return q, err
	}
	drug, err1 := quantity.Parse(over)
	volume, err2 := quantity.Parse(under)
	if err1 != nil || err2 != nil || !(volume.Value > 0) {
		return q, err
	}
	u, bad := quantity.ParseUnit(drug.Unit.String() + "/" + volume.Unit.String())
	if bad != nil {
		return q, err
	}
	return quantity.Quantity{Value: drug.Value / volume.Value, Unit: u}, nil
}

var perMany = regexp.MustCompile(`^([A-Za-z]+)/([0-9]+)([A-Za-z]+)$`)

// suffixed is a number with the unit that the end of a name says: mL_h,
// mg_per_kg, mg_per_250mL.
func suffixed(x float64, tail string) (quantity.Quantity, bool) {
	text := strings.ReplaceAll(strings.ReplaceAll("_"+tail, "_per_", "/"), "_", "/")[1:]
	if m := perMany.FindStringSubmatch(text); m != nil {
		many, err := quantity.Parse(m[2] + " " + m[3])
		if err != nil || many.Value == 0 {
			return quantity.Quantity{}, false
		}
		x, text = x/many.Value, m[1]+"/"+m[3]
	}
	u, err := quantity.ParseUnit(text)
	return quantity.Quantity{Value: x, Unit: u}, err == nil
}
