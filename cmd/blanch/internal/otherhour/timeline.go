package otherhour

import (
	"slices"
	"strings"

	"blanch/sim"
)

const barWidth = 66

// sign is one letter of a timeline.
type sign struct {
	letter byte
	says   string
	at     func(r *sim.Result, f Figures) sim.Time
}

var signs = []sign{
	{'D', "drug first in the blood", func(r *sim.Result, _ Figures) sim.Time { return r.Outcome.FirstDrug }},
	{'v', "a look could find the leak from here", func(_ *sim.Result, f Figures) sim.Time { return f.Visible }},
	{'F', "found, or judged to be leaking", func(_ *sim.Result, f Figures) sim.Time { return f.Found }},
	{'S', "nothing runs through the leaking line any more", func(_ *sim.Result, f Figures) sim.Time { return f.Stopped }},
	{'A', "antidote first in", func(_ *sim.Result, f Figures) sim.Time { return f.Antidote }},
	{'C', "the central line carries the drug", func(r *sim.Result, _ Figures) sim.Time {
		at := sim.Never
		for _, l := range r.Lines {
			if l.Central {
				at = min(at, l.Pressor)
			}
		}
		return at
	}},
}

// timeline draws both hours, one above the other.
func (h *Hour) timeline(p *page, other Played) {
	used := map[byte]bool{}
	ends := max(h.Before.Result.Ended, other.Result.Ended, sim.Minute)
	p.row("            %s", scale(ends))
	p.row("As it was   %s", bar(h.Before.Result, ends, used))
	p.row("Other hour  %s", bar(other.Result, ends, used))
	var key []string
	for _, s := range signs {
		if used[s.letter] {
			key = append(key, string(s.letter)+" "+s.says)
		}
	}
	if len(key) > 0 {
		p.say("            ", "%s", strings.Join(key, "; "))
	}
}

// bar is one hour as a line of dots and letters. A letter whose place is taken
// stands beside it.
func bar(r *sim.Result, ends sim.Time, used map[byte]bool) string {
	line := []byte(strings.Repeat(".", barWidth))
	f := FiguresOf(r)
	type mark struct {
		at     sim.Time
		letter byte
	}
	var marks []mark
	for _, s := range signs {
		if at := s.at(r, f); at <= r.Ended {
			marks = append(marks, mark{at, s.letter})
		}
	}
	slices.SortStableFunc(marks, func(a, b mark) int { return int(a.at - b.at) })
	for _, m := range marks {
		i := cell(m.at, ends)
		for i < barWidth-1 && line[i] != '.' {
			i++
		}
		line[i] = m.letter
		used[m.letter] = true
	}
	return string(line)
}

func cell(at, ends sim.Time) int { return int(min(at*barWidth/ends, barWidth-1)) }

// scale writes the half hours over the bars.
func scale(ends sim.Time) string {
	step := 30 * sim.Minute
	for cell(step, ends) < 6 {
		step *= 2
	}
	line := []byte(strings.Repeat(" ", barWidth))
	for at := sim.Time(0); at < ends; at += step {
		copy(line[cell(at, ends):], at.Clock())
	}
	return string(line)
}
