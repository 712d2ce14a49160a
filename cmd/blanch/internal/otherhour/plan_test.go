package otherhour

import (
	"slices"
	"strings"
	"testing"

	"blanch/scenarios"
	"blanch/scoring"
	"blanch/sim"
)

// scripted is an hour of the shipped case by a walk-through's acts up to a
// time, and steps of its own from there.
func scripted(t testing.TB, walk string, upTo sim.Time, steps string) *Hour {
	t.Helper()
	h := walked(t, walk)
	var b strings.Builder
	for _, s := range h.Said {
		if s.At < upTo {
			b.WriteString(scoring.Script([]Said{s}))
		}
	}
	parsed, faults := scenarios.ParseSteps("steps", []byte(b.String()+steps))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	r, notes, err := scoring.Play(h.Case, h.Place, h.Seed, parsed)
	if err != nil || len(notes) > 0 {
		t.Fatal(err, notes)
	}
	return hourOf(t, Attempt{Case: h.Case, Place: h.Place, Policy: h.Policy}, r)
}

// begun is when an act first began; Never.
func begun(r *sim.Result, said string) sim.Time {
	for i := range r.Journal {
		if en := &r.Journal[i]; en.Kind == sim.Started && en.Said == said {
			return en.At
		}
	}
	return sim.Never
}

// TestAnotherVein chooses another vein: what was done to the line in the first
// is done to the line in the other, and nothing becomes impossible.
func TestAnotherVein(t *testing.T) {
	h := walked(t, "unchecked")
	m, err := h.ParseMove("31 as choose left-basilic-arm with 20 gauge 47.8 mm at 30 degrees")
	if err != nil {
		t.Fatal(err)
	}
	p := h.Play(m)
	if len(p.Skipped) > 0 {
		t.Errorf("skipped: %v", p.Skipped)
	}
	if begun(p.Result, "move pump-1 to left-basilic-arm primed to the tip") == sim.Never {
		t.Error("the infusion did not go over to the other line")
	}
	for _, en := range p.Result.Journal {
		if en.Subject == "left-cephalic-forearm" {
			t.Errorf("%s %s", en.At.Exact(), en.Text())
		}
	}
}

// TestTwoFindings has a look that finds, and a second one with an answer of
// its own. When a third look finds first, only the first answer comes sooner.
func TestTwoFindings(t *testing.T) {
	h := scripted(t, "unchecked", 116*sim.Minute, `
at 116 min: feel around right-cephalic-forearm
then: stop pump-1
at 125 min: feel around right-cephalic-forearm
then: raise the right arm
`)
	if len(h.episodes) != 2 || len(h.episodes[0].followers) != 1 || len(h.episodes[1].followers) != 1 {
		t.Fatalf("%+v", h.episodes)
	}
	n := slices.IndexFunc(h.Decisions, func(d Decision) bool { return d.Found != "" }) + 1
	m := Move{Way: Also, N: n, At: 105 * sim.Minute}
	for name, r := range map[string]*sim.Result{"here": h.Play(m).Result, "under the same luck, closed": h.under(h.Seed, m)} {
		if at := begun(r, "stop pump-1"); at > 106*sim.Minute {
			t.Errorf("%s: the pump was stopped at %s, want soon after 1:45", name, at.Exact())
		}
		if at := begun(r, "raise the right arm"); at < 125*sim.Minute {
			t.Errorf("%s: the arm was raised at %s, want after the second look at 2:05", name, at.Exact())
		}
	}
}

// TestEpisodeEnds ends what follows from a finding with a pause of two minutes,
// and leaves what answers a call, or waits for the central line, at its own time.
func TestEpisodeEnds(t *testing.T) {
	h := scripted(t, "unchecked", 116*sim.Minute, `
at 116 min: feel around right-cephalic-forearm
then: judge right-cephalic-forearm leaking
then: move pump-1 to left-cephalic-forearm primed to the tip
after 119 s: draw back from right-cephalic-forearm
then: move pump-1 to central
after 121 s: raise the right arm
`)
	if len(h.episodes) != 1 {
		t.Fatalf("%d episodes, want 1", len(h.episodes))
	}
	var got []string
	for _, i := range h.episodes[0].followers {
		got = append(got, h.acts[i].said)
	}
	want := []string{"judge right-cephalic-forearm leaking", "move pump-1 to left-cephalic-forearm primed to the tip", "draw back from right-cephalic-forearm"}
	if !slices.Equal(got, want) {
		t.Errorf("followers: %q, want %q", got, want)
	}
	h = walked(t, "no-second-line")
	for _, i := range h.episodes[0].followers {
		if h.acts[i].action.Name == "decline" {
			t.Error("what answers a call follows because of the leak")
		}
	}
}

// TestAlarmAnswered groups what an alarm led to.
func TestAlarmAnswered(t *testing.T) {
	h := scripted(t, "unchecked", 105*sim.Minute, `
at 6330 s: take the pressure
then: set pump-1 to 20 mL/h
then: read the notes
`)
	i := slices.IndexFunc(h.Decisions, func(d Decision) bool { return d.Kind == Answer })
	if i < 0 {
		t.Fatal("no answer to the alarm at 1:45")
	}
	if d := h.Decisions[i]; len(d.acts) != 2 || d.alarm() != "the mean pressure is low, 59 mmHg" {
		t.Errorf("%d acts because of %q, want 2", len(d.acts), d.alarm())
	}
}

// TestClosesUp leaves out a part of an answer: the rest begins sooner, with
// the learner's own delays between.
func TestClosesUp(t *testing.T) {
	h := walked(t, "no-second-line")
	n := slices.IndexFunc(h.Decisions, func(d Decision) bool { return d.What == "draw back from right-dorsal-hand" }) + 1
	r := h.Play(Move{Way: LeftOut, N: n}).Result
	for _, said := range []string{"insert the cannula under ultrasound", "start pump-1", "raise the right arm"} {
		last := func(r *sim.Result) sim.Time {
			at := sim.Never
			for i := range r.Journal {
				if en := &r.Journal[i]; en.Kind == sim.Started && en.Said == said {
					at = en.At
				}
			}
			return at
		}
		if was, is := last(h.Before.Result), last(r); was-is != sim.Minute {
			t.Errorf("%s: at %s and now at %s, want a minute sooner", said, was.Exact(), is.Exact())
		}
	}
}
