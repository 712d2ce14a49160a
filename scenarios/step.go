package scenarios

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"blanch/sim"
	"blanch/sim/quantity"
)

const stepSays = `"at 12 min: ...", "then: ..." or "after 30 s: ...", with one action after the colon, or none to wait`

// timed is a step's text cut at its colon, with the place of both halves.
type timed struct {
	when, said     string
	whenAt, saidAt Pos
}

// ParseSteps reads a plain-text script: one step a line, worded as in a
// walk-through; blank lines and lines that begin with # are passed over.
func ParseSteps(file string, src []byte) ([]Step, []Complaint) {
	r := newReader(nil)
	var ok bool
	if r.src, ok = newSource(file, src, r.complain); !ok {
		out, _ := r.done()
		return nil, out
	}
	var steps []Step
	for i, text := range r.src.lines {
		body := strings.TrimLeft(text, " \t")
		if strings.TrimSpace(body) == "" || body[0] == '#' {
			continue
		}
		if r.dropped > 0 {
			break
		}
		if len(steps) >= maxNodes {
			r.complain(Complaint{Code: "too-many-values", Pos: r.src.pos(i+1, 1), Said: fmt.Sprintf("the script has more than %d steps", maxNodes), Allowed: "a shorter script"})
			break
		}
		start := utf8.RuneCountInString(text[:len(text)-len(body)]) + 1
		if s, ok := r.step(cutStep(body, r.src.pos(i+1, start))); ok {
			steps = append(steps, s)
		}
	}
	r.stepOrder(steps)
	out, failed := r.done()
	if failed {
		return nil, out
	}
	return steps, out
}

// cutStep cuts "at 0 min: read the order" at its colon. at is the place of
// the first character of text.
func cutStep(text string, at Pos) timed {
	when, said, _ := strings.Cut(text, ":")
	t := timed{when: strings.Trim(when, " \t"), whenAt: at, saidAt: at}
	body := strings.TrimLeft(said, " \t")
	t.said = strings.TrimRight(body, " \t")
	t.saidAt.Column += utf8.RuneCountInString(text) - utf8.RuneCountInString(body)
	return t
}

// step reads the time of a step and checks its action's sentence.
func (r *reader) step(t timed) (Step, bool) {
	s := Step{Said: t.said, Pos: t.whenAt, SaidAt: t.saidAt}
	head, rest, _ := strings.Cut(t.when, " ")
	switch head {
	case "at":
		s.When = AtTime
	case "after":
		s.When = After
	case "then":
		if rest == "" {
			s.When = Then
			break
		}
		fallthrough
	default:
		c := Complaint{Code: "bad-step", Pos: t.whenAt, Said: fmt.Sprintf("a step cannot begin with %s", quoted(t.when)), Allowed: stepSays}
		if t.when == "" {
			c.Said = "a step has nothing before its colon"
		}
		c.Meant = Nearest(head, []string{"at", "then", "after"})
		r.complain(c)
		return s, false
	}
	if s.When != Then {
		place := t.whenAt
		place.Column += utf8.RuneCountInString(t.when) - utf8.RuneCountInString(strings.TrimLeft(rest, " "))
		q, err := quantity.Parse(rest)
		if rest == "" {
			err = fmt.Errorf("none stands after %s", quoted(head))
		}
		if err == nil {
			var v float64
			if v, err = q.In(quantity.MustUnit("s")); err == nil && (v < 0 || v > 7*24*3600) {
				err = fmt.Errorf("%s is out of reach", quoted(rest))
			}
			s.At = milliseconds(v)
		}
		if err != nil {
			r.complain(Complaint{Code: "bad-step-time", Pos: place, Said: fmt.Sprintf("the time of a step cannot be read: %s", err), Allowed: "a time such as 12 min, 90 s or 2 h"})
			return s, false
		}
	}
	return s, s.Said == "" || r.action(s.Said, t.saidAt)
}

// action checks that a sentence is one of the action table. Where the
// message quotes a part of the sentence, that part is pointed at.
func (r *reader) action(said string, at Pos) bool {
	_, err := sim.ParseAction(said)
	if err == nil {
		return true
	}
	words := err.Error()
	if _, after, found := strings.Cut(words, `"`); found {
		part, _, _ := strings.Cut(after, `"`)
		at = wordIn(said, part, at)
	}
	r.complain(Complaint{Code: "unknown-action", Pos: at, Said: "this action cannot be read: " + words, Allowed: "a sentence of the table of actions"})
	return false
}

// wordIn is the place of a word in a sentence that begins at a place.
func wordIn(said, word string, at Pos) Pos {
	if i := strings.Index(said, word); i > 0 && word != "" {
		at.Column += utf8.RuneCountInString(said[:i])
	}
	return at
}

// stepOrder complains about steps whose time is before that of a step above.
func (r *reader) stepOrder(steps []Step) {
	var last *Step
	for i := range steps {
		s := &steps[i]
		if s.When != AtTime {
			continue
		}
		if last != nil && s.At < last.At {
			also := last.Pos
			r.complain(Complaint{Code: "out-of-order", Pos: s.Pos, Said: fmt.Sprintf("this step is at %s, before a step above it at %s", s.At.Exact(), last.At.Exact()), Allowed: "steps in the order of time", Also: &also})
			continue
		}
		last = s
	}
}

// steps is the list of a walk-through. An unquoted "- at 0 min: read the
// order" is a group of one field to YAML; it is read like the quoted line.
var steps = form[[]Step]{
	value: Value{Kind: "steps", Says: "a list of steps: " + stepSays},
	read: func(r *reader, at string, n *node, v *[]Step) bool {
		if n.kind != list || len(n.items) == 0 {
			return r.unfit(at, n, "not-a-list", "a list of steps: "+stepSays)
		}
		sound := true
		for _, item := range n.items {
			t, ok := r.timed(item)
			if ok {
				var s Step
				if s, ok = r.step(t); ok {
					*v = append(*v, s)
				}
			}
			sound = sound && ok
		}
		r.stepOrder(*v)
		return sound
	},
}

func (r *reader) timed(n *node) (timed, bool) {
	bad := func(at *node, code, said string) (timed, bool) {
		r.complain(Complaint{Code: code, Pos: r.src.pos(at.line, at.column), Said: said, Allowed: stepSays})
		return timed{}, false
	}
	switch {
	case n.kind == 0:
		return timed{}, false
	case n.kind == list:
		return bad(n, "bad-step", "a step is a list")
	case n.kind == scalar:
		text, ok := r.stepText(n)
		return cutStep(text.Source, text.Pos), ok
	case len(n.keys) == 0:
		return bad(n, "bad-step", "a step is empty")
	case len(n.keys) > 1:
		return bad(n.keys[1], "bad-step", `a second step stands in one item; a "- " is missing`)
	}
	key, value := n.keys[0], n.values[0]
	t := timed{when: strings.Trim(key.text, " \t"), whenAt: r.text(key).Pos, saidAt: r.src.pos(value.line, value.column)}
	switch {
	case value.kind == 0:
		return timed{}, false
	case value.null() && value.text == "":
		return t, true
	case value.kind != scalar:
		return bad(value, "bad-step", "the action of a step is "+value.describe())
	}
	text, ok := r.stepText(value)
	t.said, t.saidAt = strings.TrimSpace(text.Source), text.Pos
	return t, ok
}

// stepText reads the text of a step, or of the action in one.
func (r *reader) stepText(n *node) (Text, bool) {
	at := r.src.pos(n.line, n.column)
	if comment := r.commentAfter(n); comment != "" {
		r.complain(Complaint{Code: "comment-cuts-rule", Pos: at, Said: fmt.Sprintf("a step ends before %s, which is read as a comment", quoted(comment)), Allowed: "the step between quotes, or the comment on a line of its own"})
		return Text{}, false
	}
	t := r.text(n)
	if strings.Contains(strings.TrimSpace(n.text), "\n") || n.style == folded || !t.Exact && !r.oneLine(n) {
		r.complain(Complaint{Code: "one-line", Pos: at, Said: "a step has more than one line", Allowed: stepSays})
		return Text{}, false
	}
	return t, true
}
