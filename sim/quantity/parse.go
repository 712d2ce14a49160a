package quantity

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// ErrNoUnit is the error, alone or wrapped, when a number stands without its
// unit. [Parse] then still returns the number, with the zero Unit.
var ErrNoUnit = errors.New("unit is missing")

// Longest text and most digits that anyone means to type.
const (
	longest    = 80
	mostDigits = 15
)

// Parse reads a number and its unit: "0.05 mcg/kg/min", "16mcg/mL",
// "40 degrees". It refuses, with the reason, a text without a number, an
// unknown unit, a comma (thousands or decimals), an exponent, more digits
// than are meant, and control characters. A number without a unit is
// returned with an error that wraps [ErrNoUnit].
func Parse(s string) (Quantity, error) {
	if err := plain(s); err != nil {
		return Quantity{}, err
	}
	s = strings.TrimSpace(s)
	digits, rest := cutNumber(s)
	if !strings.ContainsAny(digits, "0123456789") {
		return Quantity{}, fmt.Errorf("amount %q has no number in front: write it like 16 mcg/mL", shorten(s))
	}
	if err := tail(s, digits, rest); err != nil {
		return Quantity{}, err
	}
	v, err := value(digits)
	if err != nil {
		return Quantity{}, err
	}
	rest = strings.TrimSpace(rest)
	if rest == "" {
		return Quantity{Value: v}, fmt.Errorf("amount %q: %w: write it like %s mL", shorten(s), ErrNoUnit, Number(v))
	}
	u, err := ParseUnit(rest)
	if err != nil {
		return Quantity{}, err
	}
	return Quantity{Value: v, Unit: u}, nil
}

// span is a time as it is said at a bedside, in hours and minutes.
var span = regexp.MustCompile(`^([0-9.]{1,6})[ \x{a0}]*([A-Za-z]+)\.?[ \x{a0}]*(?:and[ \x{a0}]+)?([0-9.]{1,6})[ \x{a0}]*([A-Za-z]+)\.?$`)

// ParseSpan reads a time in hours and minutes, "2 h 17 min", in minutes, and
// names the unsafe notation in it. Anything else is left for [Parse]: the zero
// quantity, and no error. What could be misread is refused: a decimal point
// beside the minutes, and 60 min or more behind the hours.
func ParseSpan(s string) (q Quantity, unsafe []string, err error) {
	m := span.FindStringSubmatch(strings.TrimSpace(s))
	if m == nil {
		return Quantity{}, nil, nil
	}
	large, err1 := ParseUnit(m[2])
	small, err2 := ParseUnit(m[4])
	if err1 != nil || err2 != nil || large != MustUnit("h") || small != MustUnit("min") {
		return Quantity{}, nil, nil
	}
	if strings.Contains(m[1]+m[3], ".") {
		return Quantity{}, nil, fmt.Errorf("time %q has a decimal point as well as minutes: write it like 1 h 30 min, or like 1.5 h", shorten(s))
	}
	hours, _ := strconv.Atoi(m[1])   // digits alone
	minutes, _ := strconv.Atoi(m[3]) // as well
	if minutes >= 60 {
		return Quantity{}, nil, fmt.Errorf("time %q has %d min behind the hours: an hour has 60, so write it like %d h %d min", shorten(s), minutes, hours+minutes/60, minutes%60)
	}
	return Quantity{Value: float64(60*hours + minutes), Unit: small}, Unsafe(s), nil
}

// plain refuses what cannot be shown or was never typed by hand.
func plain(s string) error {
	if len(s) > longest {
		return fmt.Errorf("amount is %d characters long: write it like 16 mcg/mL", utf8.RuneCountInString(s))
	}
	if !utf8.ValidString(s) {
		return errors.New("amount is not readable text: write it like 16 mcg/mL")
	}
	for _, r := range s {
		if !unicode.IsPrint(r) && !unicode.Is(unicode.Zs, r) {
			return fmt.Errorf("amount holds the character %U that does not print: write it like 16 mcg/mL", r)
		}
	}
	return nil
}

// cutNumber splits off the longest start made of a sign, digits and points.
func cutNumber(s string) (digits, rest string) {
	end := 0
	for i, r := range s {
		sign := i == 0 && (r == '-' || r == '+' || r == '\u2212')
		if !sign && r != '.' && (r < '0' || r > '9') {
			break
		}
		end = i + utf8.RuneLen(r)
	}
	return s[:end], s[end:]
}

// tail refuses a rest that shows the number was not all of the number.
func tail(s, digits, rest string) error {
	next := func(i int) bool { return i < len(rest) && rest[i] >= '0' && rest[i] <= '9' }
	switch {
	case strings.HasPrefix(rest, ","):
		return fmt.Errorf("amount %q has a comma, which could mark thousands or decimals: write 1000 or 0.5 without one", shorten(s))
	case (strings.HasPrefix(rest, "e") || strings.HasPrefix(rest, "E")) &&
		(next(1) || strings.ContainsAny(rest[1:min(2, len(rest))], "+-") && next(2)):
		return fmt.Errorf("amount %q has an exponent: write the number out", shorten(s))
	case strings.HasPrefix(strings.TrimLeft(rest, " \u00a0\u2009\u202f"), "-"):
		return fmt.Errorf("amount %q is a range: write one number", shorten(s))
	}
	if r, _ := utf8.DecodeRuneInString(strings.TrimSpace(rest)); unicode.IsDigit(r) {
		return fmt.Errorf("amount %q holds two numbers: write one, without a space inside", shorten(s))
	}
	if strings.Count(digits, ".") > 1 {
		return fmt.Errorf("amount %q has more than one decimal point: write it like 0.5 mL", shorten(s))
	}
	return nil
}

func value(digits string) (float64, error) {
	digits = strings.Replace(digits, "\u2212", "-", 1)
	if n := len(strings.TrimLeft(strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' {
			return r
		}
		return -1
	}, digits), "0")); n > mostDigits {
		return 0, fmt.Errorf("number %s has %d digits: no amount here needs more than %d", shorten(digits), n, mostDigits)
	}
	v, err := strconv.ParseFloat(digits, 64)
	if err != nil {
		return 0, fmt.Errorf("number %q cannot be read: write it like 0.5", shorten(digits))
	}
	if v == 0 {
		v = 0 // not the negative zero
	}
	return v, nil
}

// shorten keeps a quoted piece of input short enough for one line.
func shorten(s string) string {
	const most = 32
	if utf8.RuneCountInString(s) <= most {
		return s
	}
	return string([]rune(s)[:most]) + "..."
}
