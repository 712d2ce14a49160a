package scenarios

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// line is text on one line.
var line = form[string]{
	value: Value{Kind: "text", Says: "a line of text"},
	read:  func(r *reader, at string, n *node, v *string) bool { return r.prose(at, n, false, v) },
}

// prose is text of any length.
var prose = form[string]{
	value: Value{Kind: "prose", Says: "text"},
	read:  func(r *reader, at string, n *node, v *string) bool { return r.prose(at, n, true, v) },
}

// prose reads text that people will see.
func (r *reader) prose(at string, n *node, lines bool, v *string) bool {
	if n.kind != scalar || n.null() && n.style == plain {
		return r.unfit(at, n, "not-text", "text; between quotes when it holds a colon or begins with a bracket")
	}
	if n.style == plain && !r.plainText(at, n) {
		return false
	}
	text := strings.TrimSpace(n.text)
	if text == "" {
		r.complain(Complaint{Code: "empty-field", Pos: r.place(at, n), Said: r.subject(at, "file") + " is empty", Allowed: "text"})
		return false
	}
	if !lines && strings.Contains(text, "\n") {
		r.complain(Complaint{Code: "one-line", Pos: r.place(at, n), Said: r.subject(at, "file") + " has more than one line", Allowed: "one line of text"})
		return false
	}
	*v = text
	return true
}

// plainText refuses unquoted text that other YAML readers take for something
// else, and warns where a comment may have cut it.
func (r *reader) plainText(at string, n *node) bool {
	word := strings.ToLower(n.text)
	trap := n.is != "str" && n.is != "int" && n.is != "timestamp" || n.is == "int" && leadingZero(n.text)
	switch word {
	case "yes", "no", "on", "off", "y", "n":
		trap = true
	}
	if trap {
		r.complain(Complaint{
			Code: "bare-word", Pos: r.place(at, n),
			Said:    fmt.Sprintf("%s is %s without quotes, which YAML may read as something other than text", r.subject(at, "file"), quoted(n.text)),
			Allowed: `"` + n.text + `"`,
		})
		return false
	}
	if comment := r.commentAfter(n); comment != "" && !strings.HasPrefix(comment, "# ") {
		r.complain(Complaint{
			Level: Warning, Code: "comment-cuts-text", Pos: r.place(at, n),
			Said:    fmt.Sprintf("%s ends before %s, which is read as a comment", r.subject(at, "file"), quoted(comment)),
			Allowed: "the text between quotes",
		})
	}
	return true
}

// commentAfter is the comment that follows a plain scalar on its line.
func (r *reader) commentAfter(n *node) string {
	rest, found := strings.CutPrefix(r.src.from(n.line, n.column), n.text)
	if !found || n.style != plain {
		return ""
	}
	if comment := strings.TrimLeft(rest, " \t"); comment != rest && strings.HasPrefix(comment, "#") {
		return comment
	}
	return ""
}

// expression is a rule, read by package scoring.
var expression = form[Text]{
	value: Value{Kind: "expression", Says: "an expression; on lines of its own after | when it is long"},
	read: func(r *reader, at string, n *node, v *Text) bool {
		if n.kind != scalar || n.null() && n.style == plain {
			return r.unfit(at, n, "not-an-expression", `an expression; after "|" or between quotes when it holds ": " or begins with a bracket`)
		}
		if comment := r.commentAfter(n); comment != "" {
			r.complain(Complaint{
				Code: "comment-cuts-rule", Pos: r.place(at, n),
				Said:    fmt.Sprintf("%s ends before %s, which is read as a comment", r.subject(at, "file"), quoted(comment)),
				Allowed: `the expression between quotes, or after "|" on lines of its own`,
			})
			return false
		}
		*v = r.text(n)
		if strings.TrimSpace(v.Source) == "" {
			r.complain(Complaint{Code: "empty-field", Pos: r.place(at, n), Said: r.subject(at, "file") + " is empty", Allowed: "an expression"})
			return false
		}
		if n.style == folded || !v.Exact && !r.oneLine(n) {
			r.complain(Complaint{
				Code: "folded-rule", Pos: r.place(at, n),
				Said:    fmt.Sprintf("%s is folded from several lines, so a fault in it could not be pointed at", r.subject(at, "file")),
				Allowed: `the expression on one line, or after "|" on lines of its own`,
			})
			return false
		}
		return true
	},
}

// message is prose with expressions in braces.
var message = form[Text]{
	value: Value{Kind: "message", Says: "text; an expression in braces is replaced by its value"},
	read: func(r *reader, at string, n *node, v *Text) bool {
		if n.kind == mapping && len(n.keys) == 1 {
			r.complain(Complaint{
				Code: "brace-without-quotes", Pos: r.src.pos(n.line, n.column),
				Said:    r.subject(at, "file") + " begins with a brace, which YAML reads as a group of fields",
				Allowed: "the text between quotes",
			})
			return false
		}
		var text string
		if !r.prose(at, n, true, &text) {
			return false
		}
		*v = r.text(n)
		v.Source = strings.TrimRight(v.Source, "\n ")
		return true
	},
}

// oneLine says that a quoted scalar begins and ends on one line.
func (r *reader) oneLine(n *node) bool {
	rest := r.src.from(n.line, n.column)
	return (n.style == single || n.style == double) && rest != "" && closes(rest)
}

// text keeps the place of a scalar's characters where they can be known:
// not in folded text, nor where an escape shifts what follows it.
func (r *reader) text(n *node) Text {
	t := Text{Source: n.text, Pos: r.src.pos(n.line, n.column)}
	switch n.style {
	case plain:
		if strings.HasPrefix(r.src.from(n.line, n.column), n.text) {
			t.Columns, t.Exact = []int{n.column}, true
		}
	case single, double:
		if rest := r.src.from(n.line, n.column+1); strings.HasPrefix(rest, n.text) && r.oneLine(n) {
			t.Pos.Column++
			t.Columns, t.Exact = []int{n.column + 1}, true
		}
	case literal:
		t.Source = strings.TrimRight(n.text, "\n")
		for i, l := range strings.Split(t.Source, "\n") {
			indent, fits := strings.CutSuffix(r.src.line(n.line+1+i), l)
			if !fits {
				return t
			}
			t.Columns = append(t.Columns, utf8.RuneCountInString(indent)+1)
		}
		t.Pos = r.src.pos(n.line+1, t.Columns[0])
		t.Exact = true
	}
	return t
}

// date is a day, "2026-03-01".
var date = form[string]{
	value: Value{Kind: "date", Says: "a day such as 2026-03-01", Pattern: `^[0-9]{4}-[0-9]{2}-[0-9]{2}$`},
	read: func(r *reader, at string, n *node, v *string) bool {
		text, ok := r.word(at, n, "a day such as 2026-03-01")
		if !ok {
			return false
		}
		if !isDay(text) {
			return r.unfit(at, n, "not-a-date", "a day such as 2026-03-01")
		}
		*v = text
		return true
	},
}

func isDay(s string) bool {
	if len(s) != 10 || s[4] != '-' || s[7] != '-' {
		return false
	}
	for i, r := range s {
		if i != 4 && i != 7 && (r < '0' || r > '9') {
			return false
		}
	}
	month, day := s[5:7], s[8:]
	return month >= "01" && month <= "12" && day >= "01" && day <= "31"
}
