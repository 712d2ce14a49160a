package ui

import (
	"fmt"
	"strings"

	"github.com/gdamore/tcell/v2"

	"blanch/cmd/blanch/internal/session"
)

// bedside is where everything is seen and everything begins.
type bedside struct {
	u    *UI
	list list
}

func newBedside(u *UI) *bedside { return &bedside{u: u} }

func (b *bedside) about() (string, string) {
	return "Bedside", "The pressure with its course, what runs through which line, what happened, and the steps of the job: Enter lists what can be done in a step. What you do takes the time it says and makes the clock run; Space lets the clock run on by itself. The clock stands while anything is read or typed."
}

func (b *bedside) keys() []hint {
	return []hint{
		back("pause"), letter(' ', "clock"), letter('/', "find"), letter('w', "wait"), letter('x', "speed"), letter('n', "notes"), letter('p', "papers"), letter('r', "look again"),
		letter('c', "calls"), letter('l', "line"), letter('b', "bench"), letter('o', "look"), // these stand beside their steps too
		enter("what can be done in this step"), letter('g', "go on with what your hands were doing"),
	}
}

// own are the screens of their own that a step has.
var own = map[int]string{2: "l", 4: "b", 7: "o", 8: "o", 11: "c"}

func (b *bedside) item(i int) string {
	steps := session.StepNames()
	if own[i+1] == "" {
		return fmt.Sprintf("%2d %s", i+1, steps[i])
	}
	return fmt.Sprintf("%2d %-27s %s", i+1, steps[i], own[i+1])
}

func (b *bedside) draw(c canvas) {
	board := b.u.s().Board()
	steps := len(session.StepNames())
	if c.w < 72 || c.h < 16 {
		b.stacked(c, board, steps)
		return
	}
	left := c.w * 38 / 80
	most := max(6, min(14, c.h-steps-1))
	c.text(1, 0, pressureRow(board, c.w-2), alertIf(board.Low))
	trend := b.u.s().Trend(left-1, most, b.u.rich)
	for i, s := range trend {
		c.text(1, 1+i, s, plain)
	}
	lines := c.sub(left+2, 1, c.w-left-3, most)
	lines.rows(flowsIn(board, lines.w, lines.h))
	body := c.below(most + 1)
	b.list.draw(body.sub(1, 0, left-1, body.h), steps, true, b.item)
	right := body.sub(left+2, 0, body.w-left-3, body.h)
	b.news(right, board)
}

// stacked puts what matters one under the other where there is little room.
func (b *bedside) stacked(c canvas, board session.Board, steps int) {
	y := 0
	put := func(text string, st style) {
		for _, s := range fold(text, c.w-2) {
			if y < c.h-1 {
				c.text(1, y, s, st)
				y++
			}
		}
	}
	if c.w >= tiny {
		put(pressureRow(board, 2*c.w), alertIf(board.Low))
	}
	for _, f := range flowRows(board) {
		put(f, plain)
	}
	for _, call := range board.Calls {
		put(callText(call), alert)
	}
	rest := c.below(y)
	n := min(steps, max(1, rest.h/2))
	b.list.draw(rest.sub(1, 0, rest.w-2, n), steps, true, b.item)
	b.recent(rest.sub(1, n, rest.w-2, rest.h-n))
}

func callText(call session.Wanted) string {
	return fmt.Sprintf("%s wants you since %s, waits %s more: %s", call.ID, call.Since, call.Left, call.Text)
}

// news are who wants the learner, what is asked, and what happened last.
func (b *bedside) news(c canvas, board session.Board) {
	y := 0
	put := func(text string, st style) {
		for _, s := range fold(text, c.w) {
			if y < c.h-3 {
				c.text(0, y, s, st)
				y++
			}
		}
	}
	if board.Hands != "" {
		put(board.Hands, strong)
	}
	for _, call := range board.Calls {
		put(callText(call), alert)
	}
	for _, sum := range board.Sums {
		put(fmt.Sprintf("sum open: %s (b)", sum.ID), strong)
	}
	if board.InHand != "" {
		put("in your hand: "+board.InHand, plain)
	}
	if board.Central != "" {
		put("central access: "+board.Central, plain)
	}
	put(strings.Join(append([]string{board.Cuff}, board.People...), "; "), plain)
	b.recent(c.below(y))
}

// recent sets the last things that happened, the newest at the bottom and
// whole as far as there is room. A new one that is too long gives way to an
// older new one that is not, and is counted.
func (b *bedside) recent(c canvas) {
	const most = 12
	var out []row
	lines := b.u.s().Recent(most)
	own, came := b.u.s().News(b.u.from)
	fresh := len(own) + len(came)
	var blocks [][]row // newest first
	all := 0
	for i := len(lines) - 1; i >= 0; i-- {
		l := lines[i]
		var rows []row
		for j, s := range fold(l.Text, c.w-6) {
			if j == 0 {
				rows = append(rows, row{pad(l.At[:len(l.At)-3], 6) + s, 0, plain})
			} else {
				rows = append(rows, row{s, 6, plain})
			}
		}
		if all+len(rows) > c.h {
			if len(blocks) == 0 && c.h > 0 {
				rows = append(rows[:c.h-1], row{".. p shows it whole", 6, strong})
				blocks, all, b.u.missed = append(blocks, rows), c.h, true
			}
			if i > len(lines)-fresh {
				continue
			}
			break
		}
		blocks, all = append(blocks, rows), all+len(rows)
	}
	if n := len(blocks); n < fresh && c.h > 1 {
		if all == c.h && n > 1 { // room for the row that counts them
			all -= len(blocks[n-1])
			n--
		}
		blocks = blocks[:n]
		if all < c.h {
			out, b.u.missed = append(out, row{fmt.Sprintf("      and %d more: p", fresh-n), 0, strong}), true
		}
	}
	for i := len(blocks) - 1; i >= 0; i-- {
		out = append(out, blocks[i]...)
	}
	c.rows(out)
}

func (b *bedside) key(ev *tcell.EventKey) bool {
	if b.list.key(ev, len(session.StepNames())) {
		return true
	}
	switch {
	case ev.Key() == tcell.KeyEscape:
		b.u.push(newPause(b.u))
	case ev.Key() == tcell.KeyEnter:
		b.u.push(newFinder(b.u, b.list.at+1, ""))
	case ev.Key() == tcell.KeyRune && ev.Rune() == 'r':
		b.u.lookAgain(b.u.s().LookFirst())
	case ev.Key() == tcell.KeyRune && ev.Rune() == 'g':
		if !b.u.s().Running() {
			b.u.s().GoOn()
		}
	default:
		return false
	}
	return true
}
