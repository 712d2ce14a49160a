package session

import (
	"strings"

	"blanch/sim/sentence"
)

// Begun reads what was typed as the beginning of a sentence with gaps: what
// stands in the gaps that are whole, and what has been typed of the next one.
func Begun(said, typed string) (whole []string, part string) {
	typed = strings.TrimLeft(typed, " ")
	for {
		lead, after, open := strings.Cut(said, "{")
		kind, tail, closed := strings.Cut(after, "}")
		h, known := sentence.Named(kind)
		if !open || !closed || !known || len(typed) < len(lead) || !strings.EqualFold(typed[:len(lead)], lead) {
			return whole, ""
		}
		next, _, _ := strings.Cut(tail, "{")
		said, typed = tail, typed[len(lead):]
		inside := strings.TrimSpace(upTo(typed, next))
		if kind == "text" || inside == "" {
			return whole, typed
		}
		if _, err := h.Read(inside); err != nil {
			return whole, inside
		}
		whole = append(whole, inside)
		typed = strings.TrimLeft(typed, " ")[len(inside):]
	}
}

// upTo is the text before a mark, or before as much of the mark as the text
// ends with.
func upTo(text, mark string) string {
	lower, mark := strings.ToLower(text), strings.ToLower(mark)
	if len(lower) != len(text) || mark == "" {
		return text
	}
	for n := len(mark); n > 0; n-- {
		if at := strings.Index(lower, mark[:n]); n == len(mark) && at >= 0 {
			return text[:at]
		}
		if strings.HasSuffix(lower, mark[:n]) {
			return text[:len(text)-n]
		}
	}
	return text
}
