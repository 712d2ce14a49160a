package scoring

import (
	"cmp"
	"slices"

	"blanch/scenarios"
	"blanch/sim"
)

// stretch is a time during which a vasopressor ran through a line.
type stretch struct {
	from, to sim.Time
	entry    int
}

func (s stretch) long() sim.Time { return max(0, s.to-s.from) }

// isPressor says that a run carried a vasopressor.
func (r *record) isPressor(run sim.Run) bool {
	if run.MLH <= 0 {
		return false
	}
	for _, b := range r.Bags {
		if b.ID == run.Bag {
			return b.Nominal > 0 && b.Drug != antidote
		}
	}
	return run.McgMin > 0
}

// until is when a run ended for the line: the end of the case or the pulling
// of the cannula at the latest. A pump may run on into the bed.
func (r *record) until(run sim.Run) sim.Time {
	until := min(run.To, r.Ended)
	if line := r.lineAt(run.Subject, run.From); line >= 0 {
		until = min(until, r.Lines[line].Removed)
	}
	return until
}

// lineAt is the index of the line that this name stood for at that time: the
// last one placed there; -1 when there was none. Failed tries are no lines.
func (r *record) lineAt(subject string, at sim.Time) int {
	for i, l := range slices.Backward(r.Lines) {
		if l.Subject == subject && l.Placed <= at {
			return i
		}
	}
	return -1
}

// lineOf is the line that an entry concerns; what is done at a pump concerns
// the line it feeds, or last fed. -1 when it concerns none.
func (r *record) lineOf(e *sim.Entry) int {
	if line := r.lineAt(e.Subject, e.At); line >= 0 {
		return line
	}
	for _, run := range slices.Backward(r.Runs) {
		if run.Pump == e.Subject && run.From <= e.At {
			return r.lineAt(run.Subject, run.From)
		}
	}
	return -1
}

// pressorThrough lists, in order and until it is asked again, when a
// vasopressor ran through the line.
func (r *record) pressorThrough(line int) []stretch {
	out := r.stretches[:0]
	for _, run := range r.Runs {
		if r.isPressor(run) && r.lineAt(run.Subject, run.From) == line {
			out = append(out, stretch{run.From, r.until(run), run.Entry})
		}
	}
	slices.SortStableFunc(out, func(a, b stretch) int { return cmp.Compare(a.from, b.from) })
	// Two pumps may run through one line at once; time counts only once.
	for i := 1; i < len(out); i++ {
		out[i].from = max(out[i].from, out[i-1].to)
		out[i].to = max(out[i].to, out[i-1].to)
	}
	r.stretches = out
	return out
}

func (r *record) timeThrough(line int) sim.Time {
	var sum sim.Time
	for _, s := range r.pressorThrough(line) {
		sum += s.long()
	}
	return sum
}

// inRole lists the lines of a role.
func (r *record) inRole(role string) []int {
	var out []int
	first := r.firstPressorLine()
	switch role {
	case firstPressor:
		out = []int{first}
	case second:
		out = []int{r.secondPlaced(first)}
	case leaking:
		out = r.leaks()
	default:
		for i, l := range r.Lines {
			if role == central && l.Central || role == pressor && !l.Central && l.Pressor < sim.Never {
				out = append(out, i)
			}
		}
	}
	return slices.DeleteFunc(out, func(line int) bool { return line < 0 })
}

// firstPressorLine is the peripheral line that first carried a vasopressor.
func (r *record) firstPressorLine() int {
	best, at := -1, sim.Never
	for i, l := range r.Lines {
		if !l.Central && l.Pressor < at {
			best, at = i, l.Pressor
		}
	}
	return best
}

// firstOwn is the peripheral line of the learner's that first carried a
// vasopressor; without one, the first that the learner placed. Those that lay
// there when the case opened have no entry.
func (r *record) firstOwn() int {
	best := -1
	sooner := func(a, b sim.LineRecord) bool {
		return a.Pressor < b.Pressor || a.Pressor == b.Pressor && a.Placed < b.Placed
	}
	for i, l := range r.Lines {
		if !l.Central && l.Entry >= 0 && l.Placed < sim.Never && (best < 0 || sooner(l, r.Lines[best])) {
			best = i
		}
	}
	return best
}

// longestServing is the peripheral line that carried a vasopressor longest.
func (r *record) longestServing() int {
	best, most := -1, sim.Time(0)
	for i, l := range r.Lines {
		if l.Central {
			continue
		}
		if long := r.timeThrough(i); long > most {
			best, most = i, long
		}
	}
	return best
}

// secondPlaced is the first line placed besides the first pressor line.
func (r *record) secondPlaced(first int) int {
	best, at := -1, sim.Never
	for i, l := range r.Lines {
		if i != first && l.Placed < at {
			best, at = i, l.Placed
		}
	}
	if first < 0 {
		return -1
	}
	return best
}

// secondLine is the first moment, while a vasopressor ran, at which two
// lines were in place that did not leak.
func (r *record) secondLine() Moment {
	start := r.startTime()
	if !start.Known {
		return Moment{}
	}
	type proved struct {
		line, entry int
		at          sim.Time
	}
	var lines []proved
	for i, l := range r.Lines {
		if l.Placed == sim.Never {
			continue
		}
		if at, entry := r.provedAt(i); at < sim.Never {
			lines = append(lines, proved{i, entry, max(start.at, at)})
		}
	}
	slices.SortStableFunc(lines, func(a, b proved) int { return cmp.Compare(a.at, b.at) })
	for n, second := range lines {
		working := 0
		for _, p := range lines[:n+1] {
			if l := r.Lines[p.line]; second.at < l.Removed && second.at < l.Leaks {
				working++
			}
		}
		if working >= 2 && r.runsFrom(second.at) {
			r.rests(second.entry)
			return momentAt(second.at)
		}
	}
	return Moment{}
}

// provedAt is when a line was first known to work: blood was drawn or a flush
// went in; a central line when it was placed. The line that carried a
// vasopressor first is known by what it carries, any other wants a test. The
// entry shows it.
func (r *record) provedAt(i int) (at sim.Time, entry int) {
	l := r.Lines[i]
	if l.Central {
		return l.Placed, l.Entry
	}
	at, entry = sim.Never, -1
	if i == r.firstPressorLine() {
		at, entry = l.Pressor, r.pressorEntry(i)
	}
	for n := range r.Journal {
		e := &r.Journal[n]
		if e.Kind == sim.Done && (e.Act == actFlush || e.Act == actBloodReturn) && e.At >= l.Placed && e.At < at && r.lineAt(e.Subject, e.At) == i {
			return e.At, n
		}
	}
	return at, entry
}

// pressorEntry is what brought the first vasopressor through a line, -1 for
// none or for what ran when the case opened.
func (r *record) pressorEntry(line int) int {
	for _, run := range r.pressorRuns() {
		if r.lineAt(run.Subject, run.From) == line {
			return run.Entry
		}
	}
	return -1
}

// runsFrom says whether a vasopressor still runs at or after that time.
func (r *record) runsFrom(at sim.Time) bool {
	for _, run := range r.Runs {
		if r.isPressor(run) && r.until(run) > at {
			return true
		}
	}
	return false
}

func (r *record) centralReady() Moment {
	for _, l := range r.Lines {
		if l.Central && l.Placed < sim.Never {
			r.rests(l.Entry)
			return momentAt(l.Placed)
		}
	}
	return Moment{}
}

func (r *record) centralLine() Moment {
	for _, run := range r.Runs {
		if line := r.lineAt(run.Subject, run.From); line >= 0 && r.Lines[line].Central && r.isPressor(run) {
			r.rests(run.Entry)
			return momentAt(run.From)
		}
	}
	return Moment{}
}

// punctures leaves out the cannulae that lay there when the case opened: no
// entry tells of them.
func (r *record) punctures() int {
	n := 0
	for _, l := range r.Lines {
		if !l.Central && l.Entry >= 0 {
			n++
			r.rests(l.Entry)
		}
	}
	return n
}

func (r *record) timePeripheral() Span {
	var sum sim.Time
	for i, l := range r.Lines {
		if !l.Central {
			sum += r.timeThrough(i)
		}
	}
	return spanOf(sum)
}

func (r *record) timeOnPoorLine() Span {
	var sum sim.Time
	for i, l := range r.Lines {
		if l.Central || within(r.policy, l) {
			continue
		}
		if long := r.timeThrough(i); long > 0 {
			sum += long
			r.rests(l.Entry)
		}
	}
	return spanOf(sum)
}

func within(p *scenarios.Policy, l sim.LineRecord) bool {
	return slices.Contains(p.Sites, l.Vein.Site) && slices.Contains(p.Gauges, l.Cannula.Gauge) &&
		l.Cannula.LengthMM >= p.LeastMM && l.Share >= p.LeastShare && l.Vein.DiameterMM >= p.LeastVeinMM
}

// factsOf are the facts of one line; without one nothing is known of it.
func (r *record) factsOf(line int) lineFacts {
	if line < 0 {
		return lineFacts{Length: Length{unknown}, VeinWidth: Length{unknown}, Share: Share{unknown}, Vein: Words{"no line"}, Site: Words{"no line"}}
	}
	l := r.Lines[line]
	r.rests(l.Entry)
	return lineFacts{
		Known:         true,
		Vein:          Words{l.Subject},
		Site:          Words{string(l.Vein.Site)},
		Gauge:         l.Cannula.Gauge,
		Length:        Length{l.Cannula.LengthMM},
		Share:         Share{l.Share},
		Scanned:       l.Scan,
		SiteAllowed:   slices.Contains(r.policy.Sites, l.Vein.Site),
		GaugeAllowed:  slices.Contains(r.policy.Gauges, l.Cannula.Gauge),
		LongEnough:    l.Cannula.LengthMM >= r.policy.LeastMM,
		ShareEnough:   l.Share >= r.policy.LeastShare,
		VeinWidth:     Length{l.Vein.DiameterMM},
		WideEnough:    l.Vein.DiameterMM >= r.policy.LeastVeinMM,
		CuffSameArm:   l.Side == r.cuffArm(l.Pressor),
		Placed:        momentAt(l.Placed),
		PressorFrom:   momentAt(l.Pressor),
		TimeOfPressor: spanOf(r.timeThrough(line)),
	}
}

// cuffArm is the arm that the cuff sat on at that time.
func (r *record) cuffArm(at sim.Time) sim.Side {
	arm := r.Case.CuffArm
	for i := range r.done(actMoveCuff, nil) {
		if e := &r.Journal[i]; e.At <= at {
			arm = sim.Side(e.Subject)
		}
	}
	return arm
}
