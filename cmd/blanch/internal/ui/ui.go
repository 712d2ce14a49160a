package ui

import (
	"strings"
	"time"

	"github.com/gdamore/tcell/v2"
	"github.com/rivo/tview"

	"blanch/cmd/blanch/internal/session"
)

// view is one thing that can be open.
type view interface {
	draw(c canvas)
	// key takes a key; false when the view has no use for it.
	key(ev *tcell.EventKey) bool
	// keys are what can be pressed here, the most useful first.
	keys() []hint
	// about names the view and says in a sentence or two what it is for.
	about() (name, says string)
}

// typist is a view in which text is being typed.
type typist interface {
	// typing is the place to type at, nil when there is none now, with what has
	// been typed as it is kept in the recording: also while it waits for a last
	// word before it is done.
	typing() (e *entry, draft string)
}

// reader is a view under which the clock stands.
type reader interface{ stands() bool }

// hint is a key and what it does.
type hint struct {
	key  string // as it is written: "Enter", "w"
	says string
	ev   *tcell.EventKey // what pressing it sends; nil for several keys at once
}

func letter(r rune, says string) hint {
	name := string(r)
	if r == ' ' {
		name = "Space"
	}
	return hint{name, says, tcell.NewEventKey(tcell.KeyRune, r, tcell.ModNone)}
}

func press(k tcell.Key, name, says string) hint {
	return hint{name, says, tcell.NewEventKey(k, 0, tcell.ModNone)}
}

func enter(says string) hint { return press(tcell.KeyEnter, "Enter", says) }
func back(says string) hint  { return press(tcell.KeyEscape, "Esc", says) }

// UI is the whole screen.
type UI struct {
	*tview.Box
	app  *tview.Application // nil in tests that draw without one
	open Opening
	opt  Options

	stack  []view
	play   *Attempt // under way; nil at home
	flash  string   // said once, until the next key
	came   []string // said after it: what came beside one's own act
	loud   bool     // it is about something that cannot be left for later
	from   int      // entries of the journal before the last key
	missed bool     // there was no room for all that came
	stir   bool     // something came during an act that may end a list of acts

	warned bool            // the learner has been told that the attempt is not being saved
	note   string          // begun in the notes and left
	desk   *line           // as the line screen was left
	facts  map[string]bool // as they were ticked for the last call or handover

	agreed []string // acts that were agreed to as a list and are still to be done

	colour, rich bool
	beatAt       time.Time
	draftAt      time.Time
	left         Left
	gone         bool
	quit         chan struct{} // closed when the other goroutine is to end
	over         chan struct{} // closed when it has ended
	panicked     any
}

func newUI(o Opening, opt Options) *UI {
	u := &UI{
		Box: tview.NewBox(), open: o, opt: opt, colour: !opt.NoColour, rich: !opt.ASCII,
		quit: make(chan struct{}), over: make(chan struct{}),
	}
	u.SetBackgroundColor(tcell.ColorDefault)
	switch {
	case o.First != nil:
		u.enter(o.First)
	case o.Sitting != nil:
		u.push(newQuestions(u, o.Sitting))
	default:
		u.push(newHome(u))
	}
	return u
}

// enter goes into an attempt: to its briefing, or to where it stood.
func (u *UI) enter(a *Attempt) {
	u.play, u.left = a, Left{}
	u.note, u.desk, u.facts, u.agreed, u.warned = "", nil, map[string]bool{}, nil, false
	a.Session.Slows()
	if a.Read {
		u.marks()
		return
	}
	if !a.Resumed {
		u.push(newBrief(u))
		return
	}
	u.bed(session.Harmless(a.Draft))
}

// bed begins the case itself, or what follows it, with what was being typed.
func (u *UI) bed(draft string) {
	s := u.s()
	u.stack = u.stack[:0]
	if s.Over() {
		u.reflect(draft)
		return
	}
	u.push(newBedside(u))
	_, whole := session.Whole(draft)
	switch id, text, isSum := sumDraft(draft); {
	case draft == "":
	case strings.HasPrefix(draft, notesDraft):
		u.push(newNotes(u, strings.TrimPrefix(draft, notesDraft)))
	case isSum:
		u.push(newBench(u, id, text))
	case whole:
		u.push(newConfirm(u, draft))
	default:
		u.push(newFinder(u, 0, draft))
	}
}

func (u *UI) s() *session.Session { return u.play.Session }

func (u *UI) top() view { return u.stack[len(u.stack)-1] }

func (u *UI) push(v view) {
	u.stack = append(u.stack, v)
	if u.play != nil && u.stands() {
		u.s().Keep() // how far it came, since it stands now
	}
}

// pop takes the top view off. Below the last there is the way out.
func (u *UI) pop() {
	if len(u.stack) > 1 {
		u.stack = u.stack[:len(u.stack)-1]
	}
	if u.play != nil {
		u.draft() // what was typed above is given up
	}
}

// bedside takes everything off that lies on the bedside.
func (u *UI) bedside() {
	u.stack = u.stack[:1]
}

// bedsideOr closes what was opened to say a sentence, so that what comes of it
// is in sight: the view below when that shows findings or sums, else the bed.
func (u *UI) bedsideOr(v view) {
	if u.top() == v {
		u.pop()
	}
	switch below := u.top().(type) {
	case *look, *bench, *line:
	case *calls:
		if below.to != "" {
			u.facts = map[string]bool{} // they have been said
		}
		below.to, below.asks, below.chosen, below.list = "", false, "", list{}
	default:
		u.bedside()
	}
}

// stands says that the clock stands under what is open.
func (u *UI) stands() bool {
	if r, ok := u.top().(reader); ok && r.stands() {
		return true
	}
	if t, ok := u.top().(typist); ok {
		e, _ := t.typing()
		return e != nil
	}
	return false
}

// say says a sentence and tells what came of it at once. A list that was being
// done ends with it.
func (u *UI) say(said string) {
	u.from = u.s().Entries()
	u.do(said)
}

// do says a sentence, as one of a list or alone.
func (u *UI) do(said string) {
	s := u.s()
	u.agreed = nil
	u.tell(s.Handle(said))
	for s.Running() && s.Jumps() {
		u.tell(s.Pass(0))
	}
	if s.Over() {
		u.ended()
	}
	u.warn()
}

// tell shows what is new since the last key: first what came of one's own act,
// then what came beside it. The journal has it in full.
func (u *UI) tell(lines []session.Line) {
	busy := u.s().Board().Busy != ""
	begun, under, hands := "", false, false
	for _, l := range lines {
		switch {
		case l.Kind == session.Fault:
			u.flash, u.came = l.Text, nil
			return
		case l.Kind == session.Happened:
			begun = l.Text
		case l.Kind == session.Told && strings.HasPrefix(l.Text, session.Meanwhile):
			u.stir = true
		case l.Kind == session.Told && l.Text == session.UnderNow:
			under = true
		case l.Kind == session.Told && l.Text == session.HandsStay:
			hands = true
		}
	}
	own, came := u.s().News(u.from)
	if len(own)+len(came) == 0 {
		if begun != "" {
			u.flash, u.came = begun, nil
		}
	} else {
		u.flash, u.came = texts(own, " "), nil
		for _, l := range came {
			u.came = append(u.came, l.Text)
		}
		if len(came) > 0 && (len(own) > 0 || busy) {
			u.came[0] = session.Meanwhile + u.came[0]
		}
	}
	if under {
		u.came = append(u.came, session.UnderNow)
	}
	if hands {
		u.flash = strings.TrimSuffix(u.flash, ".") + ". Your own hands are free; w waits"
	}
}

func texts(lines []session.Line, between string) string {
	var out []string
	for _, l := range lines {
		out = append(out, l.Text)
	}
	return strings.Join(out, between)
}

// ended goes on to what follows the case.
func (u *UI) ended() {
	if _, already := u.stack[0].(*reflection); already {
		return
	}
	if _, already := u.stack[0].(*debrief); already {
		return
	}
	u.reflect("")
}

// Draw draws head, top view and foot.
func (u *UI) Draw(screen tcell.Screen) {
	screen.HideCursor()
	w, h := screen.Size()
	c := canvas{screen, 0, 0, w, h, u.colour}
	if w < 1 || h < 1 {
		return
	}
	said := u.message(w-6, sayRows(h))
	foot := 1 + max(1, len(said))
	if h < 12 {
		foot = 1
	}
	if h < 3 {
		foot = 0
	}
	if u.play != nil && !u.bare() {
		c2, rest := c.sub(0, 0, w, h-foot), 0
		_, atBed := u.top().(*bedside)
		rest = u.head(c2, atBed)
		u.top().draw(c2.below(rest))
	} else {
		u.top().draw(c.sub(0, 0, w, h-foot))
	}
	u.foot(c.below(h-foot), said)
}

// bare says that no attempt is being played under the top view.
func (u *UI) bare() bool {
	switch u.stack[0].(type) {
	case *home, *brief, *reflection, *debrief:
		return true
	}
	return false
}

// typed is the place at which text is typed now, nil when there is none.
func (u *UI) typed() *entry {
	if t, ok := u.top().(typist); ok {
		e, _ := t.typing()
		return e
	}
	return nil
}
