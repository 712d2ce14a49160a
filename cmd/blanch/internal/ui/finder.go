package ui

import (
	"slices"
	"strings"

	"github.com/gdamore/tcell/v2"

	"blanch/cmd/blanch/internal/session"
)

// finder finds a sentence by part of it, fills its gaps one after the other,
// and says what it will do before it is done.
type finder struct {
	u      *UI
	step   int // of the job; 0 for all
	query  *entry
	offers []session.Offer
	list   list

	offer  *session.Offer // chosen; nil while looking
	fills  []fill         // what the gaps were filled with
	gap    session.Gap
	open   bool // a gap is open
	answer *entry
	ticked map[string]bool
	who    []string // who could do it, "you" first; asked once the gaps are full
	by     string
	final  *session.Preview
	fault  string
	why    string // known already to be impossible, whatever follows
	picked string // typed to pick a choice
	direct bool   // it was opened with a sentence, so back leads out
}

// fill is what stands in a gap.
type fill struct {
	text string
	only bool // nothing else can stand there, so it was not asked for
}

// newFinder opens at a step, or with something typed.
func newFinder(u *UI, step int, typed string) *finder {
	f := &finder{u: u, step: step, query: newEntry(typed)}
	f.look()
	return f
}

// newFill opens with a sentence chosen, to fill its gaps.
func newFill(u *UI, said string) *finder {
	f := newFinder(u, 0, "")
	for _, o := range u.s().Offers("", 0) {
		if o.Sentence == said {
			f.choose(o)
		}
	}
	f.direct = true
	return f
}

// newOffer opens with a sentence that was found elsewhere.
func newOffer(u *UI, o session.Offer) *finder {
	f := newFinder(u, 0, "")
	f.choose(o)
	f.direct = true
	return f
}

// newConfirm opens with a whole sentence, to be read before it is done.
func newConfirm(u *UI, said string) *finder {
	f := &finder{u: u, query: newEntry(""), offer: &session.Offer{Sentence: said}}
	f.settle()
	return f
}

func (f *finder) stands() bool { return true }

func (f *finder) about() (string, string) {
	return "Finder", "Type part of what you want to do, choose a sentence, fill its gaps. Before it is done you read what it does and how long it takes. Wise and unwise ones stand side by side; what is impossible says why."
}

func (f *finder) keys() []hint {
	switch {
	case f.final != nil && f.final.Why == "":
		return []hint{back("back"), enter("do it")}
	case f.final != nil:
		return []hint{back("back")}
	case f.open && f.gap.Many:
		return []hint{back("back"), letter(' ', "tick"), enter("that is all")}
	case f.open && f.answer != nil:
		return []hint{back("back"), enter("put it in")}
	case f.offer != nil:
		return []hint{back("back"), enter("choose")}
	}
	return []hint{back("back"), enter("choose"), press(tcell.KeyTab, "Tab", "every step")}
}

// typing is the query or the gap that is written.
func (f *finder) typing() (*entry, string) {
	switch {
	case f.offer == nil:
		return f.query, f.query.text()
	case f.open && f.answer != nil:
		before, _, _ := strings.Cut(f.said(), "{")
		return f.answer, before + f.answer.text()
	case f.final != nil && f.final.Why == "":
		return nil, f.final.Said
	case f.open && f.asked() > 0:
		before, _, _ := strings.Cut(f.said(), "{")
		return nil, before
	}
	return nil, ""
}

func (f *finder) look() {
	f.offers = f.u.s().Offers(f.query.text(), f.step)
	if len(f.offers) == 0 && f.step != 0 { // what is typed counts for more
		f.step = 0
		f.offers = f.u.s().Offers(f.query.text(), 0)
	}
	f.list = list{}
}

func (f *finder) choose(o session.Offer) {
	f.offer, f.fills, f.final, f.who, f.by, f.fault = &o, nil, nil, nil, "", ""
	f.settle()
}

// keep fills the gaps of the chosen sentence with what was typed for them. A
// name that cannot stand there is left for settle to tell.
func (f *finder) keep() {
	whole, part := session.Begun(f.offer.Sentence, f.query.text())
	f.fills = nil
	for _, text := range whole {
		gap, _ := f.u.s().NextGap(f.said())
		if len(gap.Choices) > 0 && !gap.Many {
			if text = strings.ToLower(text); !slices.Contains(gap.Choices, text) {
				part = ""
				break
			}
		}
		f.fills = append(f.fills, fill{text, text == gap.Only})
	}
	f.settle()
	if f.open && f.answer != nil {
		f.answer = newEntry(part)
	}
}

// said is the sentence as far as its gaps are filled.
func (f *finder) said() string {
	said := f.offer.Sentence
	for _, in := range f.fills {
		said, _ = session.FillGap(said, in.text)
	}
	return said
}

// settle finds what is to be asked next. A gap for which there is one name is
// filled, unless what was typed to find the sentence names another. A choice
// begins at what was typed.
func (f *finder) settle() {
	f.answer, f.ticked, f.list, f.who, f.final, f.picked, f.why = nil, nil, list{}, nil, nil, "", ""
	f.gap, f.open = f.u.s().NextGap(f.said())
	if f.open {
		f.why = f.u.s().Refused(f.said())
		f.list.at = f.gap.Usual
		f.begin(strings.Fields(strings.ToLower(f.query.text())))
		if f.gap.Only != "" && f.gap.Choices[f.list.at] == f.gap.Only && f.fault == "" {
			f.fills = append(f.fills, fill{f.gap.Only, true})
			f.settle()
			return
		}
		f.picked = ""
	}
	switch {
	case f.open && f.gap.Many:
		f.ticked = map[string]bool{}
	case f.open && len(f.gap.Choices) == 0:
		f.answer = newEntry("")
	case f.open:
	case len(f.offer.Others) > 0 && f.by == "":
		f.who = append([]string{"you"}, f.offer.Others...)
	default:
		said := f.said()
		if f.by != "" && f.by != "you" {
			said = session.Asked(f.by, said)
		}
		p := f.u.s().Preview(said)
		f.final = &p
	}
}

// unfill goes one step back; false when there is none.
func (f *finder) unfill() bool {
	f.fault = ""
	switch {
	case f.offer == nil || f.offer.Name == "":
		return false
	case f.by != "":
		f.by = ""
	case f.asked() > 0:
		n := f.asked() - 1
		last := f.fills[n].text
		f.fills = f.fills[:n]
		f.settle()
		f.refill(last)
		return true
	case f.direct:
		return false
	default:
		f.offer, f.final, f.open, f.who = nil, nil, false, nil
		f.look()
		return true
	}
	f.settle()
	return true
}

// asked counts the gaps up to the last one that was asked for.
func (f *finder) asked() int {
	n := len(f.fills)
	for n > 0 && f.fills[n-1].only {
		n--
	}
	return n
}

// refill offers again what stood in the gap.
func (f *finder) refill(text string) {
	switch {
	case f.answer != nil:
		f.answer = newEntry(text)
	case f.gap.Many:
		for _, part := range strings.Split(text, ", ") {
			f.ticked[part] = true
		}
	default:
		f.list.at = max(0, slices.Index(f.gap.Choices, text))
	}
}

func (f *finder) key(ev *tcell.EventKey) bool {
	if ev.Key() == tcell.KeyEscape {
		return f.unfill()
	}
	switch {
	case f.offer == nil:
		return f.looking(ev)
	case f.final != nil:
		if ev.Key() == tcell.KeyEnter && f.final.Why == "" {
			said := f.final.Said
			f.u.bedsideOr(f)
			f.u.say(said)
			return true
		}
		return false
	case f.open && f.answer != nil:
		if ev.Key() == tcell.KeyEnter {
			f.fill(f.answer.text())
			return true
		}
		return f.answer.key(ev)
	}
	choices := f.gap.Choices
	if !f.open {
		choices = f.who
	}
	if f.list.key(ev, len(choices)) {
		return true
	}
	switch {
	case ev.Key() == tcell.KeyRune && ev.Rune() == ' ' && f.gap.Many && f.open:
		f.ticked[choices[f.list.at]] = !f.ticked[choices[f.list.at]]
	case ev.Key() == tcell.KeyRune && f.open:
		f.pick(f.picked + string(ev.Rune()))
	case (ev.Key() == tcell.KeyBackspace || ev.Key() == tcell.KeyBackspace2) && f.picked != "":
		f.picked = f.picked[:len(f.picked)-1]
	case ev.Key() != tcell.KeyEnter || len(choices) == 0:
		return false
	case !f.open:
		f.by = choices[f.list.at]
		f.settle()
	case f.gap.Many:
		f.fill(strings.Join(ticks(choices, f.ticked), ", "))
	default:
		f.fill(choices[f.list.at])
	}
	return true
}

// ticks are the choices that are ticked, in their order.
func ticks(choices []string, ticked map[string]bool) []string {
	var out []string
	for _, c := range choices {
		if ticked[c] {
			out = append(out, c)
		}
	}
	return out
}

func (f *finder) fill(text string) {
	if strings.TrimSpace(text) == "" {
		f.fault = "Nothing is put in yet: " + f.gap.Says + "."
		return
	}
	if _, err := session.FillGap(f.said(), text); err != nil {
		f.fault = err.Error()
		return
	}
	f.fault = ""
	f.fills = append(f.fills, fill{text, false})
	f.settle()
}

func (f *finder) looking(ev *tcell.EventKey) bool {
	switch {
	case ev.Key() == tcell.KeyRune && ev.Rune() == '/' && f.query.text() == "": // over every step; once something is typed it is a letter
		f.step = 0
		f.look()
	case ev.Key() == tcell.KeyTab:
		f.step = 0
		f.look()
	case ev.Key() == tcell.KeyEnter:
		if name, whole := session.Whole(f.query.text()); whole { // typed out, gaps and all
			f.choose(session.Offer{Name: name, Sentence: f.query.text()})
		} else if len(f.offers) > 0 {
			f.choose(f.offers[f.list.at])
			f.keep()
		}
	case f.list.key(ev, len(f.offers)) && ev.Key() != tcell.KeyHome && ev.Key() != tcell.KeyEnd:
	case f.query.key(ev):
		f.look()
	default:
		return false
	}
	return true
}
