package sim

import (
	"math"

	"blanch/sim/luck"
)

// nextReading is when the cuff cycles next.
func (e *Engine) nextReading() Time {
	if len(e.shown) == 0 {
		return 0
	}
	last := e.shown[len(e.shown)-1].At
	return (last/e.p.Cuff + 1) * e.p.Cuff
}

// read shows a pressure: the true one, as a cuff sees it.
func (e *Engine) read(at Time) float64 {
	e.deflate(at)
	noise := float64(cuffNoise * luck.Normal(e.seed, "cuff", "", int(at/Second)))
	does := e.answerAt(at.Seconds())
	mean := e.untreated(at.Seconds()) + does.Rise
	sys, dia := does.Pulse(mean, e.pulse)
	whole := func(v float64) float64 { return math.Floor(v + 0.5) }
	mmHg := whole(mean + noise)
	shown := Shown{at, mmHg, whole(sys + noise), whole(dia + noise), whole(does.Rate(e.heart))}
	e.shown = append(e.shown, shown)
	e.note(Entry{At: at, Kind: Reading, What: "mean pressure", Value: mmHg, Unit: "mmHg", Sys: shown.Sys, Dia: shown.Dia, Rate: shown.Rate})
	if e.low.sounds(at, mmHg, mmHg < e.p.AlarmMmHg, e.low.mmHg-mmHg) && at > 0 {
		e.note(Entry{At: at, Kind: Alarm, What: "low pressure", Value: mmHg, Unit: "mmHg"})
	}
	e.tooHigh(at, mmHg)
	return mmHg
}

// limit is one limit of the monitor: the reading at which its alarm last
// sounded, and when.
type limit struct {
	out  bool
	mmHg float64
	at   Time
}

// A monitor that was silenced sounds again while a pressure stays beyond its
// limit (common practice). After how long, and for how much worse, differs
// between monitors; both are ours.
const (
	alarmAgain = 10 * Minute
	alarmWorse = 5.0 // mmHg
)

// sounds says that a reading sounds the alarm: it crosses the limit, is worse
// by so many mmHg than the one that last did, or is still beyond it after a
// while.
func (l *limit) sounds(at Time, mmHg float64, out bool, worse float64) bool {
	again := out && (!l.out || worse >= alarmWorse || at-l.at >= alarmAgain)
	if again {
		l.mmHg, l.at = mmHg, at
	}
	l.out = out
	return again
}

// tooHigh raises the alarm for a high pressure, and lets a patient who can
// say so feel it.
func (e *Engine) tooHigh(at Time, mmHg float64) {
	if e.high.sounds(at, mmHg, e.p.AlarmOver > 0 && mmHg > e.p.AlarmOver, mmHg-e.high.mmHg) {
		e.note(Entry{At: at, Kind: Alarm, What: "high pressure", Value: mmHg, Unit: "mmHg"})
	}
	if mmHg > poundsOver && e.c.Patient.Tells && !e.pounded {
		e.pounded = true
		e.note(Entry{At: at, Kind: Happened, What: "pain", Word: "My head is bursting, and my heart pounds."})
	}
}

// nextWarning is when a pump next warns that its bag is nearly empty, Never
// when that is after a time.
func (e *Engine) nextWarning(until Time) Time {
	at := Never
	for _, p := range e.pumps {
		if s := p.warnsIn(); e.at+s <= until.Seconds() {
			at = min(at, FromSeconds(e.at+s))
		}
	}
	return at
}

// warnsIn is how many seconds after the present of the physics a pump warns;
// infinite when it will not.
func (p *pumpState) warnsIn() float64 {
	if p.warned || !p.delivers() || p.EmptyWarn <= 0 {
		return math.Inf(1)
	}
	left := p.bag.left / (p.rate / 3600)
	return max(0, left-p.EmptyWarn.Seconds())
}

// settlePress works out when a pump notices that nothing goes through: once
// tubing and set have taken up what they can at the rates it ran at. A pump that
// stops, or comes off the blocked line, begins anew.
func (e *Engine) settlePress(p *pumpState) {
	if !p.running || p.rate <= 0 || p.site == nil || !p.site.blocked() {
		p.presses, p.blockedAlarm = press{}, Never
		return
	}
	now := press{line: p.site.record, rate: p.rate, since: e.at, ml: pressML}
	if was := p.presses; was.rate > 0 && was.line == now.line {
		if was.rate == now.rate {
			return
		}
		now.ml = max(0, was.ml-float64(was.rate/3600*(now.since-was.since)))
	}
	p.presses, p.blockedAlarm = now, FromSeconds(now.since+now.ml/(now.rate/3600))
}

func (e *Engine) warnPumps(at Time) {
	for _, p := range e.pumps {
		if p.blockedAlarm == at {
			e.change(at)
			p.running = false
			e.note(Entry{At: at, Kind: Alarm, Subject: p.ID, What: "line blocked"})
			e.settle(at)
		}
		if s := p.warnsIn(); e.at+s <= at.Seconds() && FromSeconds(e.at+s) == at {
			p.warned = true
			e.note(Entry{At: at, Kind: Alarm, Subject: p.ID, What: "bag nearly empty"})
		}
	}
}
