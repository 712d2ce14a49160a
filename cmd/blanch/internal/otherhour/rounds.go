package otherhour

import (
	"slices"

	"blanch/sim"
	"blanch/sim/sentence"
)

// pause is how long nobody acts before what follows is no longer because of
// what went before. The clock stands while a learner reads and thinks, so time
// that passes was let pass.
const pause = 2 * sim.Minute

// looks are the acts that can find something wrong at a site.
var looks = []string{"glance", "uncover", "feel", "compare", "ask-pain", "refill", "measure", "beyond", "flush", "view-tip"}

// answersTo are the acts by which a learner answers an alarm.
var answersTo = []string{
	"glance", "uncover", "feel", "compare", "ask-pain", "refill", "measure", "beyond", "read-pump", "pressure",
	"set", "start", "stop", "look-over", "fluid", "lay-flat", "less-sedation", "press", "straighten", "call",
}

// round is a run of looks at one line without a pause.
type round struct {
	line    string
	acts    []int
	saw     sim.Time // when it first found something wrong; Never
	judged  bool     // it found nothing, and the line was judged to be leaking
	episode int      // that it opens; -1
}

// episode is what was done because of a finding or an alarm.
type episode struct {
	round     int // that found; -1 for an alarm
	line      string
	alarm     string // as text
	at        sim.Time
	followers []int
}

func (a *act) looks() bool { return slices.Contains(looks, a.action.Name) }

// subject is the word in the act's hole for a line or a vein.
func subject(a sim.Action) string {
	for _, arg := range a.Args {
		if arg.Kind == "line" || arg.Kind == "vein" {
			return arg.Word
		}
	}
	return ""
}

// ofCalls says that an act answers someone who called, which has a time of its
// own.
func ofCalls(a sim.Action) bool { return a.Name == "answer" || a.Name == "decline" }

func (h *Hour) findRounds() {
	for i := range h.acts {
		a := &h.acts[i]
		if !a.looks() || a.refused {
			continue
		}
		line := subject(a.action)
		n := len(h.rounds) - 1
		joins := false
		if n >= 0 {
			r := &h.rounds[n]
			last := r.acts[len(r.acts)-1]
			joins = r.line == line && i-last == 1 && a.At-h.acts[last].ends <= pause
		}
		if !joins {
			h.rounds = append(h.rounds, round{line: line, saw: sim.Never, episode: -1})
			n++
		}
		r := &h.rounds[n]
		r.acts = append(r.acts, i)
		r.saw = min(r.saw, a.saw)
	}
	for n := range h.rounds {
		h.findJudgement(&h.rounds[n])
	}
}

// findJudgement sees whether a round that found nothing was followed at once
// by the judgement, which was right, that its line leaks.
func (h *Hour) findJudgement(r *round) {
	last := r.acts[len(r.acts)-1]
	if r.saw != sim.Never || last+1 == len(h.acts) {
		return
	}
	a := &h.acts[last+1]
	if !a.refused && a.At <= h.acts[last].ends+pause && judgesLeak(a.action) && subject(a.action) == r.line && leaking(h.Before.Result, r.line, h.acts[last].ends) {
		r.judged, r.saw = true, h.acts[last].ends
	}
}

func judgesLeak(a sim.Action) bool {
	return a.Name == "judge" && slices.ContainsFunc(a.Args, func(g sentence.Arg) bool { return g.Kind == "verdict" && g.Word == "leaking" })
}

// findEpisodes goes through the hour in the order of time. An alarm or a
// finding opens an episode unless one is open already; a finding that comes
// of an answer to an alarm opens one of its own.
func (h *Hour) findEpisodes() {
	taken := make([]bool, len(h.acts)) // belongs to the episode of a finding
	for n := range h.rounds {
		r := &h.rounds[n]
		if r.saw == sim.Never || taken[r.acts[0]] {
			continue
		}
		last := r.acts[len(r.acts)-1]
		ep := episode{round: n, line: r.line, at: r.saw}
		busy := h.acts[last].ends
		for i := last + 1; i < len(h.acts); i++ {
			a := &h.acts[i]
			if a.At > busy+pause {
				break
			}
			if a.action.By == "" {
				busy = max(busy, a.ends)
			}
			if a.At < r.saw || ofCalls(a.action) || subject(a.action) == "central" || a.action.Name == "hand-over" {
				continue
			}
			ep.followers = append(ep.followers, i)
			taken[i] = true
		}
		for _, i := range r.acts {
			taken[i] = true
		}
		r.episode = len(h.episodes)
		h.episodes = append(h.episodes, ep)
	}
	h.findAlarms(taken)
}

func (h *Hour) findAlarms(taken []bool) {
	for _, en := range h.Before.Result.Journal {
		if en.Kind != sim.Alarm {
			continue
		}
		ep := episode{round: -1, alarm: en.Text(), at: en.At}
		busy := en.At
		for i := range h.acts {
			a := &h.acts[i]
			if a.At < en.At || ofCalls(a.action) {
				continue
			}
			if a.At > busy+pause || taken[i] || !slices.Contains(answersTo, a.action.Name) {
				break
			}
			ep.followers = append(ep.followers, i)
			taken[i] = true
			busy = max(busy, a.ends)
		}
		if len(ep.followers) > 0 {
			h.episodes = append(h.episodes, ep)
		}
	}
}
