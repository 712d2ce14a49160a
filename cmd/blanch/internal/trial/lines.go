package trial

import (
	"math"

	"blanch/sim"
	"blanch/sim/vein"
)

// Choosing, placing and proving lines.

// within says that a line is one the policy accepts, as far as can be known.
func (l *learner) within(k *line) bool {
	if k.central {
		return true
	}
	share := k.share == 0 || k.share >= l.p.policy.LeastShare
	return l.p.siteAllowed(k.site) && l.p.sizeAllowed(k.cannula) && share
}

// usable is the best line for the infusion besides one, -1 when there is
// none: central, then within the policy, then proved. A line that another
// infusion has, or that carried another drug, is none where the policy keeps
// drugs apart.
func (l *learner) usable(besides int) int {
	best, rank := -1, 0
	for i := range l.lines {
		k := &l.lines[i]
		if i == besides || !k.in || k.spoilt || l.elsewhere(i) {
			continue
		}
		if k.carried != "" && k.carried != l.order.Drug && !l.p.shares() {
			continue
		}
		r := 1
		switch {
		case l.vice("central-only", "") && !k.central:
			continue
		case l.vice("poor-line", "") == l.within(k) && !k.central:
			r += 0
		default:
			r += 2
		}
		if k.central {
			r += 8
		}
		if k.proved {
			r++
		}
		if !l.badArms[k.side] {
			r++
		}
		if !k.central && !l.drugElsewhere(k.side) && len(l.infusions) > 1 {
			r++ // an arm for each drug
		}
		if r > rank {
			best, rank = i, r
		}
	}
	return best
}

// spares counts lines besides the one in use that are proved and sound.
func (l *learner) spares(within bool) (n int) {
	for i := range l.lines {
		k := &l.lines[i]
		if !l.inUse(i) && k.in && !k.spoilt && k.proved && (!within || l.within(k)) && (k.carried == "" || k.carried == l.order.Drug || l.p.shares()) {
			n++
		}
	}
	return n
}

// prove tests a line before anything runs through it.
func (l *learner) prove(i int) turn {
	id := l.lines[i].id
	if l.lines[i].central {
		return passed
	}
	if t := l.onceOn("prove", "blood-return", id); t != passed {
		return t
	}
	return l.once("prove", id, act("flush", word("line", id), measured("volume", 10, unitML)))
}

// plan is where a new line would go, and with what.
type plan struct {
	vein   int
	size   vein.Cannula
	angle  float64
	scan   bool // under ultrasound
	scores float64
}

// place works towards one more line: it scans, chooses and inserts. It has
// passed when no vein is left to try, or, where the line must be worth a
// puncture, none that promises a good one.
func (l *learner) place(worth bool) turn {
	if !l.will("place", "") {
		return passed
	}
	if l.hand == "" && l.p.scanner && l.will("scan", "") {
		if v := l.toScan(); v >= 0 && l.does(act("scan", word("vein", l.p.veins[v].id))) {
			return acted
		}
	}
	best := l.plan(worth)
	if best.vein < 0 {
		return passed
	}
	v := l.p.veins[best.vein]
	if l.hand == "" && !l.measured[best.vein].examined && l.will("examine", v.id) {
		l.measured[best.vein].examined = true
		if l.does(act("examine", word("vein", v.id))) {
			return acted
		}
	}
	if l.hand != v.id {
		choose := act("choose", word("vein", v.id), plain("gauge", float64(best.size.Gauge)), plain("length", best.size.LengthMM), plain("angle", best.angle))
		if !l.does(choose) {
			l.measured[best.vein].failed += 2
			return passed
		}
		l.hand = v.id
		return acted
	}
	how := "by feel"
	if best.scan {
		how = "under ultrasound"
	}
	failed := l.measured[best.vein].failed
	l.hand = ""
	if !l.does(act("insert", word("how", how))) {
		l.measured[best.vein].failed++
		return passed
	}
	if l.measured[best.vein].failed > failed {
		return acted
	}
	k := line{id: v.id, side: v.side, site: v.site, cannula: best.size, in: true, since: sim.Never, felt: l.now(), looked: l.now()}
	if m := l.measured[best.vein]; m.scanned {
		k.share = vein.Lie(vein.Vein{Site: v.site, DiameterMM: m.width, DepthMM: m.deep, StraightMM: m.long}, best.size, best.angle).Share
	}
	l.lines = append(l.lines, k)
	return acted
}

// scansAtMost is how many veins a learner measures before choosing.
const scansAtMost = 3

// toScan is a vein worth measuring, -1 for none.
func (l *learner) toScan() int {
	n, best := 0, -1
	for i, v := range l.p.veins {
		m := &l.measured[i]
		switch {
		case m.scanned:
			if m.failed == 0 && !l.taken(v.id) {
				n++
			}
		case l.taken(v.id) || l.badArms[v.side] || !l.p.siteAllowed(v.site):
		case best < 0 || l.p.veins[best].site != vein.Forearm && v.site == vein.Forearm:
			best = i
		}
	}
	if n >= scansAtMost || n > 0 && l.now() < l.p.policy.StartBy && l.began == sim.Never {
		return -1
	}
	return best
}

// taken says that a vein has a cannula or had one that went wrong.
func (l *learner) taken(id string) bool {
	for i := range l.lines {
		if l.lines[i].id == id && (l.lines[i].in || l.lines[i].spoilt) {
			return true
		}
	}
	return false
}

// mostRatio is how much of the width of a vein a cannula may fill where the
// line can wait for a better one (0.45 is often named; from memory).
const mostRatio = 0.45

// angles are those that a cannula is usually placed at.
var angles = []float64{30, 25, 35, 20, 40, 45, 15}

// plan weighs every vein and cannula by what is known of them.
func (l *learner) plan(worth bool) plan {
	best := plan{vein: -1, scores: -100}
	poor := l.vice("poor-line", "")
	for i, v := range l.p.veins {
		m := &l.measured[i]
		if l.taken(v.id) || m.failed >= 3 {
			continue
		}
		base := -2.5 * float64(m.failed)
		if l.p.siteAllowed(v.site) {
			base += 8
		}
		if l.badArms[v.side] {
			base -= 12
		}
		if l.leaking >= 0 && v.side == l.lines[l.leaking].side {
			base--
		}
		for _, c := range l.p.cannulae {
			for _, angle := range angles {
				s := base
				if l.p.sizeAllowed(c) {
					s += 4
				}
				scan := l.p.scanner && l.will("scan", "")
				if m.scanned {
					g := vein.Lie(vein.Vein{Site: v.site, DiameterMM: m.width, DepthMM: m.deep, StraightMM: m.long}, c, angle)
					if worth && !poor && (g.Share < l.p.policy.LeastShare || g.Ratio > mostRatio) {
						continue
					}
					if g.Share >= l.p.policy.LeastShare {
						s += 4
					}
					s += 2*g.Share - 0.01*math.Abs(angle-30) - 4*max(0, g.Ratio-0.33) - max(0, 3-m.width) - 0.1*max(0, m.deep-6)
				} else {
					s += c.LengthMM/100 - 0.03*float64(c.Gauge)
					if v.site == vein.UpperArm {
						s -= 2 // deep, and not felt
					}
				}
				if poor {
					s = -s
				}
				if s > best.scores+1e-9 {
					best = plan{i, c, angle, scan, s}
				}
				if !m.scanned {
					break
				}
			}
		}
	}
	return best
}

// settleIn makes a line fit to stay: dressed, labelled, in sight, the cuff on
// the other arm.
func (l *learner) settleIn(i int) turn {
	k := &l.lines[i]
	if k.central {
		return passed
	}
	if t := l.settleCuff(i); t != passed {
		return t
	}
	for _, name := range []string{"secure", "trace", "expose"} {
		if t := l.onceOn("settle", name, k.id); t != passed {
			return t
		}
	}
	return passed
}

// betterLines replaces a line that the policy does not accept, and keeps a
// second one ready.
func (l *learner) betterLines() turn {
	if !l.running || l.on < 0 || l.lines[l.on].central || l.ready && l.number == 0 {
		return passed
	}
	if !l.within(&l.lines[l.on]) && l.will("replace-poor", "") && !l.vice("poor-line", "") {
		if t := l.betterPlace(); t != passed {
			return t
		}
	}
	if l.number > 0 {
		return passed // one line to spare is enough
	}
	wants := l.spares(false) == 0 && l.will("backup", "") ||
		l.spares(true) == 0 && l.will("good-backup", "")
	if !wants {
		return passed
	}
	if t := l.proveSpare(); t != passed {
		return t
	}
	return l.place(true)
}

// betterPlace finds or makes a line within the policy and moves to it.
func (l *learner) betterPlace() turn {
	if i := l.usable(l.on); i >= 0 && l.within(&l.lines[i]) {
		if t := l.prove(i); t != passed {
			return t
		}
		if t := l.baseline(i); t != passed {
			return t
		}
		return l.moveTo(i)
	}
	return l.place(true)
}

// proveSpare proves a line that lies there unproved.
func (l *learner) proveSpare() turn {
	for i := range l.lines {
		if k := &l.lines[i]; !l.inUse(i) && k.in && !k.spoilt && !k.proved {
			if t := l.prove(i); t != passed {
				return t
			}
		}
	}
	return passed
}
