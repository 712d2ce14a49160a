package ui

import (
	"fmt"
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
	// typing is the place to type at, nil when there is none now, with what is
	// typed as it is kept in the recording.
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

	stack []view
	play  *Attempt // under way; nil at home
	flash string   // said once, until the next key
	loud  bool     // it is about something that cannot be left for later

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
	if o.First != nil {
		u.enter(o.First)
	} else {
		u.push(newHome(u))
	}
	return u
}

// enter goes into an attempt: to its briefing, or to where it stood.
func (u *UI) enter(a *Attempt) {
	u.play, u.left = a, Left{}
	a.Session.Slows()
	if !a.Resumed {
		u.push(newBrief(u))
		return
	}
	u.bed(a.Draft)
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
	switch id, text, isSum := sumDraft(draft); {
	case draft == "":
	case strings.HasPrefix(draft, notesDraft):
		u.push(newNotes(u, strings.TrimPrefix(draft, notesDraft)))
	case isSum:
		u.push(newBench(u, id, text))
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
	if u.play != nil && u.typed() != nil {
		u.s().Draft("") // it was given up
	}
	if len(u.stack) > 1 {
		u.stack = u.stack[:len(u.stack)-1]
	}
}

// bedside takes everything off that lies on the bedside.
func (u *UI) bedside() {
	u.stack = u.stack[:1]
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

// say says a sentence and tells what came of it at once.
func (u *UI) say(said string) {
	s := u.s()
	u.tell(s.Handle(said))
	for s.Running() && s.Jumps() {
		u.tell(s.Pass(0))
	}
	if s.Over() {
		u.ended()
	}
}

// tell shows the last of what was said, shortly; the journal has it in full.
func (u *UI) tell(lines []session.Line) {
	for _, l := range lines {
		switch {
		case l.Kind == session.Fault || l.Kind == session.Happened:
			u.flash = l.Text
		case l.Kind == session.Told && l.Text == session.HandsStay:
			u.flash += ". Your own hands are free; w waits"
		}
	}
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
	foot := 2
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
	u.foot(c.below(h - foot))
}

// bare says that no attempt is being played under the top view.
func (u *UI) bare() bool {
	switch u.stack[0].(type) {
	case *home, *brief, *reflection, *debrief:
		return true
	}
	return false
}

// foot draws what was just said and the next keys, the way out first.
func (u *UI) foot(c canvas) {
	if c.h < 1 {
		return
	}
	if c.h > 1 {
		st := strong
		if u.loud {
			st = alert
		}
		c.rule(0, u.flash, st)
	} else if u.flash != "" {
		c.text(0, 0, cut(u.flash, c.w), strong)
		return
	}
	c.text(1, c.h-1, u.hints(c.w-2), plain)
}

// hints are as many keys as fit: the way out, help, then the rest.
func (u *UI) hints(w int) string {
	text := ""
	for _, h := range u.shown() {
		more := h.key + " " + h.says
		if text != "" {
			more = "  " + more
		}
		if width(text)+width(more) > w {
			break
		}
		text += more
	}
	return text
}

// shown are the keys of the top view with those that work everywhere, in the
// order in which they are named.
func (u *UI) shown() []hint {
	own := u.top().keys()
	var first, rest []hint
	for _, h := range own {
		if h.key == "Esc" {
			first = append(first, h)
		} else {
			rest = append(rest, h)
		}
	}
	if u.typed() == nil {
		first = append(first, letter('?', "help"))
	} else {
		first = append(first, press(tcell.KeyF1, "F1", "help"))
	}
	return append(first, rest...)
}

// typed is the place at which text is typed now, nil when there is none.
func (u *UI) typed() *entry {
	if t, ok := u.top().(typist); ok {
		e, _ := t.typing()
		return e
	}
	return nil
}

// InputHandler takes every key.
func (u *UI) InputHandler() func(*tcell.EventKey, func(tview.Primitive)) {
	return func(ev *tcell.EventKey, _ func(tview.Primitive)) { u.key(ev) }
}

// PasteHandler puts what was pasted where text is typed.
func (u *UI) PasteHandler() func(string, func(tview.Primitive)) {
	return func(text string, _ func(tview.Primitive)) {
		if e := u.typed(); e != nil {
			e.paste(strings.Join(strings.Fields(text), " "))
		}
	}
}

func (u *UI) key(ev *tcell.EventKey) {
	u.flash, u.loud = "", false
	switch {
	case ev.Key() == tcell.KeyCtrlC:
		u.leave(ErrInterrupted)
		return
	case ev.Key() == tcell.KeyF1 || ev.Key() == tcell.KeyRune && ev.Rune() == '?' && u.typed() == nil:
		if _, already := u.top().(*help); !already {
			u.push(newHelp(u))
		}
		return
	case u.top().key(ev):
		return
	case ev.Key() == tcell.KeyEscape:
		u.pop()
		return
	case ev.Key() == tcell.KeyRune && u.typed() == nil:
		u.everywhere(ev.Rune())
	}
}

// everywhere takes the keys that mean the same wherever nothing is typed.
func (u *UI) everywhere(r rune) {
	switch r {
	case 'q':
		u.leave(nil)
		return
	case 'k':
		u.colour = !u.colour
		u.flash = map[bool]string{true: "Colour is on; nothing depends on it.", false: "Colour is off."}[u.colour]
		return
	}
	if u.play == nil || u.bare() || u.stands() {
		return
	}
	switch r {
	case ' ':
		u.hold()
	case 'x':
		u.faster()
	case 'w':
		u.push(newWait(u))
	case '/':
		u.push(newFinder(u, 0, ""))
	case 'l':
		u.over1(newLine(u))
	case 'b':
		u.over1(newBench(u, "", ""))
	case 'o':
		u.over1(newLook(u))
	case 'c':
		u.over1(newCalls(u))
	case 'n':
		u.over1(newNotes(u, ""))
	case 'p':
		u.over1(newPapers(u))
	}
}

// over1 opens a view beside the bedside, in place of another that is open
// there, so that Esc leads back to the bed.
func (u *UI) over1(v view) {
	u.bedside()
	u.push(v)
}

// anywhere are the keys of everywhere, for help.
func (u *UI) anywhere() []hint {
	out := []hint{
		letter('q', "leave; the attempt is saved and the way to resume is printed"),
		letter('k', "colour on or off; nothing depends on it"),
		press(tcell.KeyCtrlC, "Ctrl-C", "leave at once, wherever you are"),
	}
	if u.play == nil || u.bare() {
		return out
	}
	return append([]hint{
		letter(' ', "hold the clock, or let it run"), letter('x', "next speed of the clock: x1, x10, x60, x600"),
		letter('w', "wait for a time, or to a time"), letter('/', "find anything that can be done by part of its sentence"),
		letter('l', "line: choose vein, cannula and angle"), letter('b', "bench: mixing and sums"),
		letter('o', "look at a site"), letter('c', "calls and handover"), letter('n', "notes"),
		letter('p', "papers: order, notes, policy, stock, all so far"),
	}, out...)
}

// hold holds the clock or lets it run.
func (u *UI) hold() {
	s := u.s()
	if s.Running() {
		s.Stand()
		u.flash = "The clock stands."
		return
	}
	s.Start()
	u.flash = "The clock runs."
	for s.Running() && s.Jumps() {
		u.tell(s.Pass(0))
	}
	if s.Over() {
		u.ended()
	}
}

// speeds are simulated seconds a real second.
var speeds = []float64{1, 10, 60, 600}

// faster goes to the next speed and begins again after the last.
func (u *UI) faster() {
	s := u.s()
	next := speeds[0]
	for i := len(speeds) - 1; i >= 0 && speeds[i] > s.Speed(); i-- {
		next = speeds[i]
	}
	s.SetSpeed(next)
	u.flash = fmt.Sprintf("%g simulated seconds a second.", next)
}

// Real times of the running clock.
const (
	beat       = 100 * time.Millisecond
	longBeat   = time.Second // more is taken for a machine that slept
	draftEvery = 500 * time.Millisecond
)

// tick moves a running clock on and keeps what is being typed. It reports
// whether anything is to be drawn again.
func (u *UI) tick(now time.Time) bool {
	passed := min(max(0, now.Sub(u.beatAt)), longBeat)
	u.beatAt = now
	if u.play == nil {
		return false
	}
	s := u.s()
	if now.Sub(u.draftAt) >= draftEvery {
		u.draftAt = now
		u.draft()
	}
	if !s.Running() || u.stands() {
		return false
	}
	speed := s.Speed()
	lines := s.Pass(passed)
	if s.Speed() < speed || !s.Running() {
		u.tell(lines)
		u.loud = s.Speed() < speed
		if u.loud && u.flash != "" {
			u.flash = fmt.Sprintf("x1 now: %s", u.flash)
		}
	}
	if s.Over() {
		u.ended()
	}
	return true
}

// draft keeps what is being typed.
func (u *UI) draft() {
	if t, ok := u.top().(typist); ok {
		if e, draft := t.typing(); e != nil {
			u.s().Draft(draft)
		}
	}
}
