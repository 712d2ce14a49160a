package scenarios

import (
	"fmt"
	"regexp"
	"strings"
)

// placed is a text of an item with its path below the item.
type placed struct{ path, text string }

func (h *ItemHead) texts() []placed {
	out := []placed{{"objective", h.Objective}}
	for i, v := range h.Views {
		out = append(out, placed{fmt.Sprintf("views/%d/holds", i+1), v.Holds})
	}
	return out
}

func (s *SingleBest) texts() []placed {
	out := []placed{{"stem", s.Stem}, {"lead-in", s.LeadIn}}
	for i, o := range s.Options {
		out = append(out, placed{fmt.Sprintf("options/%d/option", i+1), o.Says}, placed{fmt.Sprintf("options/%d/because", i+1), o.Because})
	}
	return out
}

func (o *Ordering) texts() []placed {
	out := []placed{{"stem", o.Stem}, {"lead-in", o.LeadIn}, {"because", o.Because}}
	for _, s := range o.Steps {
		out = append(out, placed{"steps/" + s.ID, s.Says})
	}
	return out
}

func (c *Concordance) texts() []placed {
	return []placed{{"vignette", c.Vignette}, {"hypothesis", c.Hypothesis}, {"information", c.Information}, {"panel", c.Panel}, {"because", c.Because}}
}

// unsafeForms is notation that has been misread with harm: the official list of
// the Joint Commission (trailing zero, naked decimal point, U, IU) and the
// error-prone list of ISMP (the Greek letter for micro, cc, a number that
// touches its unit).
var unsafeForms = []struct {
	what, allowed string
	found         *regexp.Regexp
}{
	{"a zero after the point", "5 mg, without the point and the zero", regexp.MustCompile(`[0-9]\.[0-9]*0(?:[^0-9.]|\.?$|\.[^0-9])`)},
	{"a decimal without a zero before the point", "0.5 mg, with the zero", regexp.MustCompile(`(?:^|[^0-9A-Za-z.])\.[0-9]+`)},
	{"a Greek letter for micro", "mcg", regexp.MustCompile(`[\x{00b5}\x{03bc}]\w*`)},
	{"an abbreviation for units", "units, written out", regexp.MustCompile(`[0-9] ?(?:U|IU|u)\b`)},
	{"ug or cc", "mcg or mL", regexp.MustCompile(`[0-9] ?(?:ug|cc)\b`)},
	{"a number that touches its unit", "a space between number and unit", regexp.MustCompile(`[0-9](?:mcg|mg|kg|g|mL|ml|L|mm|cm|mmHg|min|h|s|units?)\b`)},
	{"a thousand without a comma", "1,000 mL, with a comma", regexp.MustCompile(`\b[0-9]{4,} (?:mcg|mg|kg|g|mL|L|units?)\b`)},
}

// lintNotation refuses notation that is unsafe in any text of an item.
func (r *reader) lintNotation(path string, texts []placed) {
	for _, t := range texts {
		at := join(path, t.path)
		if !r.sound(at) {
			continue
		}
		for _, u := range unsafeForms {
			if m := u.found.FindString(t.text); m != "" {
				r.at(at, Error, "unsafe-notation", fmt.Sprintf("%s holds %s: %s", r.subject(at, "text"), u.what, quoted(strings.TrimSpace(m))), u.allowed)
			}
		}
	}
}
