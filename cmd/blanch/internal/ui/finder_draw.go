package ui

import (
	"cmp"
	"fmt"
	"strings"

	"blanch/cmd/blanch/internal/session"
)

// spaced writes a sentence with its gaps in brackets, as they are read.
func spaced(said string) string { return strings.NewReplacer("{", "<", "}", ">").Replace(said) }

func (f *finder) draw(c canvas) {
	c = c.sub(1, 0, c.w-2, c.h)
	if f.offer == nil {
		f.drawOffers(c)
		return
	}
	y := 0
	put := func(text string, st style) {
		for _, s := range fold(text, c.w) {
			c.text(0, y, s, st)
			y++
		}
	}
	if f.final != nil {
		put(f.final.Said, strong)
		y++
		if f.final.Does != "" {
			put("What it does: "+f.final.Does+".", plain)
			put("How long: "+f.final.Takes+".", plain)
		}
		if f.final.Again != "" {
			put(strings.ToUpper(f.final.Again[:1])+f.final.Again[1:]+"; doing it again takes as long.", strong)
		}
		for _, note := range f.final.Notes {
			put(note, strong)
		}
		y++
		if f.final.Why != "" {
			put("Not possible now: "+stop(f.final.Why), strong)
			if f.u.s().Running() {
				put("The clock stands while this is open. Go back (Esc) and what you are doing goes on.", plain)
			}
		} else {
			put("Enter does it. Esc goes back and changes something.", plain)
		}
		return
	}
	put(spaced(f.said()), strong)
	put(f.offer.Does+" ("+f.offer.Takes+")", plain)
	if why := cmp.Or(f.why, f.offer.Why); why != "" {
		put("Not possible now: "+stop(why), strong)
	}
	if f.fault != "" {
		put(f.fault, strong)
	}
	y++
	switch {
	case f.open && f.answer != nil:
		c.text(0, y, "Next: "+f.gap.Says, plain)
		c.text(0, y+1, "> ", plain)
		rows := 1
		if f.gap.Prose {
			rows = max(1, c.h-y-2)
		}
		f.answer.draw(c.sub(2, y+1, c.w-2, rows))
	case f.open:
		next := "Next: " + f.gap.Says
		if f.picked != "" {
			next += ": " + f.picked
		}
		c.text(0, y, next, plain)
		f.list.draw(c.below(y+1), len(f.gap.Choices), true, func(i int) string {
			text := f.gap.Choices[i]
			if len(f.gap.Means) == len(f.gap.Choices) {
				text = fmt.Sprintf("%-17s %s", text, f.gap.Means[i])
			}
			if f.gap.Many {
				return tick(f.ticked[f.gap.Choices[i]]) + text
			}
			return text
		})
	default:
		c.text(0, y, "Who does it?", plain)
		f.list.draw(c.below(y+1), len(f.who), true, func(i int) string { return f.who[i] })
	}
}

func tick(on bool) string {
	if on {
		return "[x] "
	}
	return "[ ] "
}

func (f *finder) drawOffers(c canvas) {
	name := "Any step: "
	if f.step != 0 {
		name = session.StepNames()[f.step-1] + ": "
	}
	n := c.text(0, 0, name, strong)
	f.query.draw(c.sub(n, 0, c.w-n, 1))
	detail := 3
	room := max(1, c.h-1-detail)
	if len(f.offers) == 0 {
		c.text(0, 2, "No sentence has these words. Try fewer.", plain)
		return
	}
	const takes = 24
	f.list.draw(c.sub(0, 1, c.w, min(room, c.h-1)), len(f.offers), false, func(i int) string {
		o := f.offers[i]
		if c.w < 70 {
			return spaced(o.Sentence)
		}
		right := cut(o.Takes, takes)
		if o.Why != "" {
			right = "not now"
		}
		return offerRow(spaced(o.Sentence), right, o.Done, c.w-takes-4, takes)
	})
	o := f.offers[f.list.at]
	said := fmt.Sprintf("%s (%s)", o.Does, o.Takes)
	if o.Why != "" {
		said = "Not possible now: " + stop(o.Why)
	}
	for i, s := range fold(said, c.w) {
		c.text(0, 1+room+i, s, plain)
	}
}

// offerRow is a sentence, how long it takes and when it was last done: at the
// right, or beside the sentence where the duration leaves it no room.
func offerRow(said, takes, done string, saidWide, takesWide int) string {
	switch {
	case done == "":
	case width(takes)+2+width(done) <= takesWide:
		takes = pad(takes, takesWide-width(done)) + done
	default:
		room := saidWide - 2 - width(done)
		return pad(cut(said, room-1), room) + done + "  " + takes
	}
	return pad(cut(said, saidWide-1), saidWide) + takes
}
