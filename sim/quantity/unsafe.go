package quantity

import (
	"regexp"
	"strings"
)

// hazard is one kind of notation that has harmed, and what to write instead.
type hazard struct {
	found *regexp.Regexp
	says  string
}

// hazards follow the error-prone notation that safety bodies list (Institute
// for Safe Medication Practices, list of error-prone abbreviations, symbols
// and dose designations). RE2 is linear in the length of its input.
var hazards = []hazard{
	{regexp.MustCompile("[\u00b5\u03bc]"), "the Greek letter for micro can be read as m: write mcg"},
	{regexp.MustCompile(`(?i)(^|[^a-z])ug([^a-z]|$)`), "ug can be read as mg: write mcg"},
	{regexp.MustCompile(`(^|[^A-Za-z])[Uu]([^A-Za-z]|$)`), "U can be read as 0 or 4: write units"},
	{regexp.MustCompile(`(?i)(^|[^a-z])iu([^a-z]|$)`), "IU can be read as IV or 10: write units"},
	{regexp.MustCompile(`(?i)(^|[^a-z])ccs?([^a-z]|$)`), "cc can be read as 00: write mL"},
	{regexp.MustCompile(`\.[0-9]*0([^0-9]|$)`), "a trailing zero can be read as ten times as much: leave it off"},
	{regexp.MustCompile(`(^|[^0-9])\.[0-9]`), "a decimal point without a leading zero can be missed: write 0 before it"},
	{regexp.MustCompile(`[0-9]\.([^0-9]|$)`), "a decimal point with nothing after it can be read as a digit: leave it off"},
	{regexp.MustCompile("[0-9][A-Za-z\u00b5\u03bc]"), "a number run into its unit can be misread: put a space between"},
}

// Unsafe names the unsafe notation in an amount as it was written, a reason
// and the safe form each, in a fixed order; nil when there is none. The
// notation may still be plain enough for [Parse].
func Unsafe(s string) []string {
	s = strings.TrimSpace(s)
	if len(s) > longest {
		return nil
	}
	var found []string
	for _, h := range hazards {
		if h.found.MatchString(s) {
			found = append(found, h.says)
		}
	}
	return found
}
