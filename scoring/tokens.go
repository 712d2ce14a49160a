package scoring

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"blanch/scenarios"

	"github.com/expr-lang/expr/file"
	"github.com/expr-lang/expr/parser/lexer"
)

const (
	longestExpression = 2000 // characters
	mostNodes         = 200
	largestNumber     = 1e6 // written in a rule
)

// allowedTokens are all the operators and brackets of the language.
var allowedTokens = []string{"(", ")", ",", ".", "+", "-", "*", "<", "<=", ">", ">=", "==", "!=", "and", "or", "not", "&&", "||", "!"}

// insteadOf says what to write for what the language leaves out.
var insteadOf = map[string]string{
	"=":          "== to compare",
	"|":          "or between conditions, and a call as name(argument)",
	"&":          "and between conditions",
	"?":          "two rules, or applies when",
	"??":         "a comparison: it fails by itself when a moment is never",
	"?.":         "a plain dot",
	"[":          "a name with a dot, or a fact with its argument in round brackets",
	"in":         "the alternatives joined by or",
	"if":         "two rules, or applies when",
	"let":        "the expression itself where it is needed",
	"/":          "a multiplication, such as hours(1) * 0.5",
	"..":         "two comparisons joined by and",
	"matches":    "a fact with the name as its argument",
	"contains":   "a fact with the name as its argument",
	"startsWith": "a fact with the name as its argument",
	"endsWith":   "a fact with the name as its argument",
}

// scan refuses every token that is not of the language, before anything is
// parsed. It reports whether parsing makes sense.
func (v *vetter) scan() bool {
	source := v.text.Source
	if strings.TrimSpace(source) == "" {
		v.complain(1, 0, scenarios.Complaint{Code: "empty-expression", Said: "the expression is empty", Allowed: "a condition such as " + `did("feel")`})
		return false
	}
	if n := utf8.RuneCountInString(source); n > longestExpression {
		v.complain(1, 0, scenarios.Complaint{Code: "expression-too-long",
			Said:    fmt.Sprintf("the expression has %d characters", n),
			Allowed: fmt.Sprintf("at most %d; two rules are easier to read than one long one", longestExpression)})
		return false
	}
	tokens, err := lexer.Lex(file.NewSource(source))
	if err != nil {
		v.syntax(err)
		return false
	}
	sound := true
	for _, t := range tokens {
		if t.Kind == lexer.Bytes {
			v.refuse(t.From, "bytes-refused", "bytes have no place in a rule", "a name in double quotes")
			sound = false
		}
		if t.Kind != lexer.Operator && t.Kind != lexer.Bracket || slices.Contains(allowedTokens, t.Value) {
			continue
		}
		allowed := insteadOf[t.Value]
		if allowed == "" {
			allowed = "only and, or, not, comparisons, +, - and *"
		}
		v.refuse(t.From, "operator-refused", fmt.Sprintf("%q is not used in rules", t.Value), allowed)
		sound = false
	}
	return sound
}

// syntax turns a fault of the expression library's own reading into a
// complaint.
func (v *vetter) syntax(err error) {
	var at *file.Error
	if !errors.As(err, &at) {
		v.complain(1, 0, scenarios.Complaint{Code: "expression-unreadable", Said: "the expression cannot be read: " + plain(err.Error())})
		return
	}
	at.Bind(file.NewSource(v.text.Source))
	v.complain(at.Line, at.Column, scenarios.Complaint{
		Code: "expression-unreadable", Said: "the expression cannot be read here: " + plain(at.Message),
		Allowed: "a condition such as " + `did("feel") and start.known`,
	})
}

// plain puts the library's wording of a token into plain words.
func plain(message string) string {
	message = strings.TrimPrefix(message, "compilation failed: ")
	if strings.HasPrefix(message, "unexpected token EOF") {
		return "it ends too early"
	}
	if rest, ok := strings.CutPrefix(message, "unexpected token "); ok {
		if _, inside, found := strings.Cut(rest, "("); found {
			return "unexpected " + strings.TrimSuffix(inside, ")")
		}
	}
	return message
}
