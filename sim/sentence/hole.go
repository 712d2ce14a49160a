package sentence

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"blanch/sim/quantity"
)

// form is how the text in a hole is read.
type form uint8

const (
	name     form = iota // one word of small letters, digits and hyphens
	number               // a plain number; the unit stands in the sentence
	measured             // a number with its unit
	choice               // one of a few phrases
	list                 // several of a few words, with commas
	free                 // any text to the end of the line
)

// Hole is one typed gap in a sentence.
type Hole struct {
	Kind    string
	Says    string   // what belongs there, for messages and help
	Example string   // what it could hold; a name in capitals where names are the caller's
	Choices []string // for choices and lists
	form    form
	unit    string // for measured holes: one of the dimension
	or      string // or of this other one
	least   float64
	most    float64
}

// Facts are what a call or a handover can give.
var Facts = []string{
	"who", "reason", "pressure", "drug", "dose", "line", "time-running",
	"site", "done-so-far", "lines-tried", "plan",
}

// Requests are what a call can ask for.
var Requests = []string{"central-access", "antidote", "review", "surgical-opinion", "advice"}

// holes is the closed list of hole kinds.
var holes = func() map[string]Hole {
	all := []Hole{
		{Kind: "vein", Example: "VEIN", Says: "a vein on offer", form: name},
		{Kind: "line", Example: "LINE", Says: "a line, named by its vein, or central", form: name},
		{Kind: "pump", Example: "PUMP", Says: "a pump", form: name},
		{Kind: "bag", Example: "BAG", Says: "a bag", form: name},
		{Kind: "person", Example: "PERSON", Says: "someone who can be reached", form: name},
		{Kind: "call", Example: "CALL", Says: "something that wants you", form: name},
		{Kind: "sum", Example: "SUM", Says: "a sum you were asked for", form: name},
		{Kind: "drug", Example: "DRUG", Says: "a drug in stock", form: name},
		{Kind: "arm", Example: "left", Says: "left or right", form: choice, Choices: []string{"left", "right"}},
		{Kind: "gauge", Example: "20", Says: "a gauge in stock, such as 20", form: number, least: 14, most: 26},
		{Kind: "length", Example: "48", Says: "a length in stock in mm, such as 48", form: number, least: 10, most: 120},
		{Kind: "angle", Example: "30", Says: "degrees to the skin, 5 to 80", form: number, least: 5, most: 80},
		{Kind: "rate", Example: "13.1 mL/h", Says: "a rate such as 13.1 mL/h", form: measured, unit: "mL/h", least: 0, most: 1500},
		{Kind: "mass", Example: "4 mg", Says: "an amount of drug such as 4 mg", form: measured, unit: "mg", least: 0, most: 10000},
		{Kind: "amount", Example: "4 mg", Says: "an amount of drug such as 4 mg, or 20 units of vasopressin", form: measured, unit: "mg", or: "units", least: 0, most: 10000},
		{Kind: "antidote", Example: "phentolamine", Says: "phentolamine or terbutaline", form: choice, Choices: []string{"phentolamine", "terbutaline"}},
		{Kind: "pack", Example: "a warm pack", Says: "a warm pack, or a hot pack", form: choice, Choices: []string{"a warm pack", "a hot pack"}},
		{Kind: "diluent", Example: "250 mL", Says: "the labelled volume of a bag in stock, such as 250 mL", form: measured, unit: "mL", least: 0, most: 3000},
		{Kind: "volume", Example: "10 mL", Says: "a volume such as 250 mL", form: measured, unit: "mL", least: 0, most: 5000},
		{Kind: "span", Example: "10 min", Says: "a time such as 10 min", form: measured, unit: "min", least: 0, most: 720},
		{Kind: "how", Example: "by feel", Says: "by feel, or under ultrasound", form: choice, Choices: []string{"by feel", "under ultrasound"}},
		{Kind: "adding", Example: "adding to the bag", Says: "adding to the bag, which is then a little weaker than its label, or withdrawing as much first", form: choice, Choices: []string{"adding to the bag", "withdrawing first"}},
		{Kind: "verdict", Example: "leaking", Says: "leaking, sound, inflamed, blocked, out or unsure", form: choice, Choices: []string{"leaking", "sound", "inflamed", "blocked", "out", "unsure"}},
		{Kind: "plan", Example: "stay peripheral", Says: "what you decide", form: choice, Choices: []string{"stay peripheral", "ask for central access", "use another site", "wean the vasopressor"}},
		{Kind: "request", Example: "review", Says: "what you ask for", form: choice, Choices: Requests},
		{Kind: "facts", Example: "who, pressure, dose", Says: "facts with commas between them", form: list, Choices: Facts},
		{Kind: "text", Example: "YOUR WORDS", Says: "your own words", form: free},
	}
	m := make(map[string]Hole, len(all))
	for _, h := range all {
		m[h.Kind] = h
	}
	return m
}()

// Named is the hole of that kind.
func Named(kind string) (Hole, bool) {
	h, ok := holes[kind]
	return h, ok
}

// Arg is what stands in one hole.
type Arg struct {
	Kind     string
	Word     string // names, choices and free text
	Number   float64
	Quantity quantity.Quantity
	List     []string
}

// Is says that two values are the same.
func (a Arg) Is(b Arg) bool {
	return a.Kind == b.Kind && a.Word == b.Word && a.Number == b.Number && a.Quantity == b.Quantity && slices.Equal(a.List, b.List)
}

// Read reads the text of one hole.
func (h Hole) Read(text string) (Arg, error) {
	text = strings.TrimSpace(text)
	arg := Arg{Kind: h.Kind}
	switch h.form {
	case name:
		arg.Word = strings.ToLower(text)
		if !isName(arg.Word) {
			return arg, fmt.Errorf("%q is not a name; wanted %s", text, h.Says)
		}
	case number:
		v, err := strconv.ParseFloat(text, 64)
		if err != nil || math.IsNaN(v) || v < h.least || v > h.most {
			return arg, fmt.Errorf("%q does not fit; wanted %s", text, h.Says)
		}
		arg.Number = v
	case measured:
		q, err := quantity.Parse(text)
		if err != nil {
			if errors.Is(err, quantity.ErrNoUnit) {
				return arg, fmt.Errorf("%q: the unit is missing; wanted %s", text, h.Says)
			}
			if strings.Contains(text, ",") {
				return arg, fmt.Errorf("%q: write a point for the decimals, and no commas; wanted %s", text, h.Says)
			}
			return arg, fmt.Errorf("%q cannot be read as %s", text, h.Says)
		}
		v, err := q.In(quantity.MustUnit(h.unit))
		if err != nil && h.or != "" {
			v, err = q.In(quantity.MustUnit(h.or))
		}
		if err != nil {
			return arg, fmt.Errorf("%q has the wrong kind of unit; wanted %s", text, h.Says)
		}
		if v < h.least || v > h.most {
			return arg, fmt.Errorf("%q is out of reach; wanted %s, at most %s %s", text, h.Says, quantity.Number(h.most), h.unit)
		}
		arg.Quantity, arg.Number = q, v
	case choice:
		arg.Word = strings.ToLower(text)
		if !slices.Contains(h.Choices, arg.Word) {
			return arg, fmt.Errorf("%q does not fit; wanted one of: %s", text, strings.Join(h.Choices, ", "))
		}
	case list:
		for _, part := range strings.Split(text, ",") {
			word := strings.ToLower(strings.TrimSpace(part))
			if !slices.Contains(h.Choices, word) {
				return arg, fmt.Errorf("%q is not known here; wanted any of: %s", word, strings.Join(h.Choices, ", "))
			}
			if slices.Contains(arg.List, word) {
				return arg, fmt.Errorf("%q is said twice", word)
			}
			arg.List = append(arg.List, word)
		}
	case free:
		if text == "" {
			return arg, errors.New("nothing was written")
		}
		for _, r := range text {
			if unicode.IsControl(r) || turns(r) {
				return arg, errors.New("control characters, and those that turn the reading direction, cannot be written here")
			}
		}
		arg.Word = text
	}
	return arg, nil
}

// String writes the value as it is read.
func (a Arg) String() string {
	switch {
	case len(a.List) > 0:
		return strings.Join(a.List, ", ")
	case !a.Quantity.Unit.IsZero():
		return a.Quantity.String()
	case a.Word != "":
		return a.Word
	}
	return quantity.Number(a.Number)
}

// offers lists what could stand in the hole given what has been typed of it.
func (h Hole) offers(typed string, names func(kind string) []string) []string {
	var from []string
	switch h.form {
	case choice:
		from = h.Choices
	case list:
		before, last := "", typed
		if i := strings.LastIndex(typed, ","); i >= 0 {
			before, last = typed[:i+1]+" ", strings.TrimLeft(typed[i+1:], " ")
		}
		for _, c := range h.Choices {
			if hasPrefixFold(c, last) && !strings.Contains(before, c+",") {
				from = append(from, before+c)
			}
		}
		return from
	default:
		from = names(h.Kind)
	}
	var out []string
	for _, f := range from {
		if hasPrefixFold(f, typed) {
			out = append(out, f)
		}
	}
	return out
}

// closes says that nothing can follow name within the same hole.
func (h Hole) closes(string) bool { return h.form != list }

func isName(s string) bool {
	for _, r := range s {
		if (r < 'a' || r > 'z') && (r < '0' || r > '9') && r != '-' {
			return false
		}
	}
	return s != ""
}

// turns says that a character turns the reading direction, so that what is
// shown is not what was written.
func turns(r rune) bool {
	return r == 0x061c || r == 0x200e || r == 0x200f || r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069
}
