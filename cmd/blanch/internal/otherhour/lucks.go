package otherhour

import (
	"fmt"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"blanch/cmd/blanch/internal/spread"
	"blanch/sim"
)

// MostLucks bounds how many seeds are played.
const MostLucks = 100_000

// Luck is what one seed came to, as it was done and with the move.
type Luck struct {
	Seed          uint64
	Before, After Figures
	Leaked        [2]bool // a line leaked
}

// Lucks are what other seeds came to.
type Lucks struct {
	Lucks []Luck
	Tried int // seeds played to find as many with the same lines
}

// mostTries bounds how many seeds are tried for each that is wanted.
const mostTries = 20

// Lucks plays the hour under n other seeds, with and without a move. The loop
// is closed: lines, mix, rates and look times are as the learner did them, and
// the answer to a leak begins when a look first finds one, with the learner's
// own delays. A seed under which a puncture comes out otherwise gives other
// lines, and is passed over. The seeds are those that follow the hour's own,
// so the same hour gives the same figures on any number of cores.
func (h *Hour) Lucks(m Move, n int) Lucks {
	var out Lucks
	for len(out.Lucks) < n && out.Tried < mostTries*n {
		lucks, fits := h.batch(m, h.Seed+1+uint64(out.Tried), n)
		for i := range lucks {
			if len(out.Lucks) == n {
				break
			}
			out.Tried++
			if fits[i] {
				out.Lucks = append(out.Lucks, lucks[i])
			}
		}
	}
	return out
}

// batch plays n seeds from one on, on all cores.
func (h *Hour) batch(m Move, from uint64, n int) (lucks []Luck, fits []bool) {
	lucks, fits = make([]Luck, n), make([]bool, n)
	var next atomic.Int64
	var group sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		group.Go(func() {
			for {
				i := int(next.Add(1)) - 1
				if i >= n {
					return
				}
				l := &lucks[i]
				l.Seed = from + uint64(i)
				r := h.under(l.Seed, Move{})
				if fits[i] = h.sameLines(r); !fits[i] {
					continue
				}
				l.Before, l.Leaked[0] = FiguresOf(r), anyLeak(r)
				l.After, l.Leaked[1] = l.Before, l.Leaked[0]
				if m.Way != Nothing {
					r = h.under(l.Seed, m)
					l.After, l.Leaked[1] = FiguresOf(r), anyLeak(r)
				}
			}
		})
	}
	group.Wait()
	return lucks, fits
}

// under plays the closed loop under one seed.
func (h *Hour) under(seed uint64, m Move) *sim.Result {
	p := h.plan(m)
	p.close()
	return h.play(p, seed).Result
}

func anyLeak(r *sim.Result) bool {
	return slices.ContainsFunc(r.Lines, func(l sim.LineRecord) bool { return l.Leaks <= r.Ended })
}

// sameLines says that every puncture which was tried in both came out as in
// the hour as it was.
func (h *Hour) sameLines(r *sim.Result) bool {
	was := h.Before.Result.Lines
	for i, l := range r.Lines {
		if i < len(was) && !l.Central && l.Subject == was[i].Subject && (l.Placed == sim.Never) != (was[i].Placed == sim.Never) {
			return false
		}
	}
	return true
}

// close lets nothing stand that no look has called for.
func (p *plan) close() {
	for i := range p.answers {
		p.answers[i].stands = false
	}
	for _, it := range p.items {
		if it.look != nil {
			look := *it.look
			look.saw = false
			it.look = &look
		}
	}
}

// TellLucks sums lucks up as text.
func (h *Hour) TellLucks(m Move, all Lucks) string {
	var p page
	lucks := all.Lucks
	n := len(lucks)
	moved := m.Way != Nothing
	p.row("Under %s", other(n))
	p.say("", "Lines, mix, rates and look times are as you did them; the answer to a leak begins when a look first finds one, with your own delays.%s", h.noAnswer())
	if all.Tried > n {
		p.say("", "Of %d lucks tried, %d are left out: a puncture came out otherwise than yours did.", all.Tried, all.Tried-n)
	}
	if h.Case.Leak.Kind == sim.Placed {
		p.say("", "This case places its leak, so it comes under every luck, and lucks differ little.")
	}
	p.gap()
	const form = "%-40s %16s  %16s"
	head := ""
	if moved {
		head = "other hour"
	}
	row := func(what string, of func(i int) string) {
		b := ""
		if moved {
			b = of(1)
		}
		p.row(form, what, of(0), b)
	}
	p.row(form, "", "as it was done", head)
	row("A line leaked", func(k int) string { return share(count(lucks, func(l *Luck) bool { return l.Leaked[k] }), n) })
	leaked := func(k int) int { return count(lucks, func(l *Luck) bool { return l.Leaked[k] }) }
	row("of these, found or judged", func(k int) string {
		return share(count(lucks, func(l *Luck) bool { return l.Leaked[k] && l.figures(k).Found < sim.Never }), leaked(k))
	})
	quantiles := func(what string, of func(Figures) (float64, bool)) {
		for _, q := range []struct {
			says string
			at   float64
		}{{what + ", median", 0.5}, {"  nine in ten at most", 0.9}} {
			row(q.says, func(k int) string {
				var all []float64
				for i := range lucks {
					if v, ok := of(lucks[i].figures(k)); lucks[i].Leaked[k] && ok {
						all = append(all, v)
					}
				}
				if len(all) == 0 {
					return "none"
				}
				return min1(spread.Quantile(all, q.at))
			})
		}
	}
	quantiles("From first sign to found", func(f Figures) (float64, bool) {
		return max(0, (f.Found-f.Visible).Seconds()/60), f.Found < sim.Never && f.Visible < sim.Never
	})
	quantiles("Arm short of blood if it leaked", func(f Figures) (float64, bool) { return f.Ischaemia, true })
	p.gap()
	p.say("", "%s", Caution)
	return p.String()
}

func (l *Luck) figures(k int) Figures { return [...]Figures{l.Before, l.After}[k] }

// noAnswer says that there is nothing with which to answer a leak.
func (h *Hour) noAnswer() string {
	for _, ep := range h.episodes {
		if ep.round >= 0 && len(ep.followers) > 0 {
			return ""
		}
	}
	return " In this hour no finding was answered, so none is under another luck."
}

func count(lucks []Luck, fits func(*Luck) bool) int {
	n := 0
	for i := range lucks {
		if fits(&lucks[i]) {
			n++
		}
	}
	return n
}

func share(n, of int) string { return fmt.Sprintf("%d of %d", n, of) }

func other(n int) string {
	if n == 1 {
		return "1 other luck"
	}
	return fmt.Sprintf("%d other lucks", n)
}
