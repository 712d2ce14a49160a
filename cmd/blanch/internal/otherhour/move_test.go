package otherhour

import (
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"blanch/scenarios"
	"blanch/scoring"
	"blanch/sim"
)

// TestMoves reads every way to move, and refuses what cannot be read with what
// would be right.
func TestMoves(t *testing.T) {
	h := walked(t, "unchecked")
	look := slices.IndexFunc(h.Decisions, func(d Decision) bool { return d.Found != "" })
	d := h.Decisions[look]
	if d.At != 116*sim.Minute || d.Follows() != 14 {
		t.Fatalf("the look that found is at %s with %d that follow", d.At.Exact(), d.Follows())
	}
	for _, test := range []struct {
		text string
		want Move
	}{
		{"34 earlier by 20 min", Move{Way: To, N: 34, At: 96 * sim.Minute}},
		{"34 later by 90 s", Move{Way: To, N: 34, At: 116*sim.Minute + 90*sim.Second}},
		{"34 to 1:10", Move{Way: To, N: 34, At: 70 * sim.Minute}},
		{"34  also at 1:10:30", Move{Way: Also, N: 34, At: 70*sim.Minute + 30*sim.Second}},
		{"34 left out", Move{Way: LeftOut, N: 34}},
	} {
		if got, err := h.ParseMove(test.text); err != nil || !reflect.DeepEqual(got, test.want) {
			t.Errorf("%q: %+v, %v", test.text, got, err)
		}
	}
	if m, err := h.ParseMove(`25 as "set pump-1 to 3 mL/h"`); err != nil || m.Way != As || m.Does.String() != "set pump-1 to 3 mL/h" {
		t.Errorf("another rate: %+v, %v", m, err)
	}
	if m, err := h.ParseMove("add at 1:40: ask how right-cephalic-forearm feels"); err != nil || m.Way != Add || m.At != 100*sim.Minute {
		t.Errorf("an act added: %+v, %v", m, err)
	}
	for text, want := range map[string]string{
		"":                              "does not begin with the number",
		"34":                            "cannot be read",
		"34 sooner":                     `write "3 earlier by 20 min"`,
		"99 left out":                   "numbered from 1 to 52",
		"34 earlier by 3 h":             "cannot be 3 h earlier",
		"34 later by 3 h":               "not before the end of the hour, at 3:20:00",
		"34 to 1.10":                    "hours and minutes such as 1:10",
		"34 to 1:75":                    "hours and minutes such as 1:10",
		"34 earlier by 20":              "such as 20 min",
		"34 earlier by 20 mL":           "not a length of time",
		"34 as set pump-1 to 3 mL/h":    `as in "uncover right-cephalic-forearm"`,
		"34 as feel the arm":            "is not something you can do",
		"add at 1:10 feel around x":     "no colon",
		"add at 1:10: feel the arm":     "is not something you can do",
		"add at 9:10: read the order":   "not before the end",
		"34 also at 3:20":               "not before the end",
		"34 left out please":            "cannot be read",
		"3.5 left out":                  "does not begin with the number",
		"34 later by -5 min":            "length of time",
		"99999999999999999999 left out": "does not begin with the number",
	} {
		if _, err := h.ParseMove(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q in it", text, err, want)
		}
	}
}

// TestMovedByNothing moves each decision to the time at which it was.
func TestMovedByNothing(t *testing.T) {
	for _, id := range []string{"line-at-once", "unchecked", "no-second-line"} {
		h := walked(t, id)
		for _, d := range h.Decisions {
			if got := h.Play(Move{Way: To, N: d.N, At: d.At}); !reflect.DeepEqual(got.Result, h.Before.Result) {
				t.Errorf("%s: %q moved by nothing changes the hour", id, d.What)
			}
		}
	}
}

// TestNotInTheWay moves acts by a second that hold nothing and lead to
// nothing: all else stays at its time.
func TestNotInTheWay(t *testing.T) {
	h := walked(t, "unchecked")
	n := slices.IndexFunc(h.Decisions, func(d Decision) bool { return d.What == "take the pressure" })
	got := h.Play(Move{Way: To, N: n + 1, At: h.Decisions[n].At + 10*sim.Second})
	rest := func(p Played) []sim.Entry {
		return slices.DeleteFunc(slices.Clone(p.Result.Journal), func(en sim.Entry) bool {
			return en.Act == "pressure" || en.Kind == sim.Reading || en.Act == "set" && en.At < 32*sim.Minute
		})
	}
	if len(got.Skipped) > 0 || !reflect.DeepEqual(rest(got), rest(h.Before)) {
		t.Errorf("taking the pressure ten seconds later changes more than that; skipped %v", got.Skipped)
	}
}

// TestEarlierNeverWorse moves the look that found, and the antidote, earlier
// minute by minute: where all else is equal the model's arm is short of blood
// for no longer.
func TestEarlierNeverWorse(t *testing.T) {
	const slightly = 0.02 // min: hands that are busy delay by seconds
	for _, id := range []string{"unchecked", "no-second-line"} {
		h := walked(t, id)
		visible := FiguresOf(h.Before.Result).Visible
		for _, d := range h.Decisions {
			if d.Found == "" && d.Kind != Antidote {
				continue
			}
			last := FiguresOf(h.Before.Result).Ischaemia
			moved := 0
			for at := d.At - sim.Minute; at > visible; at -= sim.Minute {
				p := h.Play(Move{Way: To, N: d.N, At: at})
				if d.Found != "" && !p.saw || len(p.Skipped) > 0 || len(p.Waited) > 0 {
					continue
				}
				now := FiguresOf(p.Result).Ischaemia
				if now > last+slightly {
					t.Errorf("%s: %q at %s: %.2f min short of blood, a minute later %.2f", id, d.What, at.Exact(), now, last)
				}
				last = min(last, now)
				moved++
			}
			if d.Found != "" && moved < 3 {
				t.Errorf("%s: %q was moved only %d times", id, d.What, moved)
			}
		}
	}
}

// randomMove is some move of some decision.
func randomMove(rnd *rand.Rand, h *Hour) Move {
	at := sim.Time(rnd.Int64N(int64(h.Ended) + 1))
	does := h.acts[rnd.IntN(len(h.acts))].action
	if rnd.IntN(8) == 0 {
		return Move{Way: Add, At: at, Does: does, act: rnd.IntN(len(h.acts)+1) - 1}
	}
	d := &h.Decisions[rnd.IntN(len(h.Decisions))]
	switch rnd.IntN(5) {
	case 0:
		return Move{Way: LeftOut, N: d.N}
	case 1:
		return Move{Way: Also, N: d.N, At: at}
	case 2:
		act := d.acts[rnd.IntN(len(d.acts))]
		for _, other := range h.acts {
			if other.action.Name == h.acts[act].action.Name && rnd.IntN(2) == 0 {
				does = other.action
				return Move{Way: As, N: d.N, Does: does, act: act}
			}
		}
		return Move{Way: LeftOut, N: d.N}
	}
	return Move{Way: To, N: d.N, At: at}
}

// TestAnyMove plays random moves of random hours. Every act is done, refused
// or told as not done; what was refused stands in the journal; the other hour
// plays again from its script.
func TestAnyMove(t *testing.T) {
	a := shipped(t)
	for seed := range uint64(60) {
		h := jumbled(t, a, seed)
		if len(h.acts) == 0 {
			continue
		}
		rnd := rand.New(rand.NewPCG(seed, 2))
		for range 20 {
			m := randomMove(rnd, h)
			p := h.Play(m)
			begun, refused := 0, 0
			last := sim.Time(0)
			for _, en := range p.Result.Journal {
				if en.Kind == sim.Hidden {
					continue // located afterwards
				}
				if en.At < last {
					t.Fatalf("seed %d, %s: the journal goes back at %s", seed, h.Moved(m), en.At.Exact())
				}
				last = en.At
				switch en.Kind {
				case sim.Started:
					begun++
				case sim.Refused:
					refused++
				}
			}
			ended, told := 0, 0
			for _, s := range p.Skipped {
				told++
				if s.Why == hadEnded {
					ended++
					continue
				}
				if !slices.ContainsFunc(p.Result.Journal, func(en sim.Entry) bool {
					return en.Kind == sim.Refused && en.At == s.At && en.Said == s.Said && en.Why == s.Why
				}) {
					t.Errorf("seed %d, %s: %q was skipped and does not stand in the journal", seed, h.Moved(m), s.Said)
				}
			}
			if want := len(h.plan(m).items); begun+refused+ended+p.Unanswered != want {
				t.Errorf("seed %d, %s: %d begun, %d refused, %d after the end, %d unanswered, want %d in all", seed, h.Moved(m), begun, refused, ended, p.Unanswered, want)
			}
			text := h.Compare(m, "", p)
			for line := range strings.Lines(text) {
				if n := len([]rune(line)); n > pageWidth+1 && strings.Contains(strings.TrimSpace(line), " ") {
					t.Errorf("%d columns: %s", n, line)
				}
			}
			if told > 0 && !strings.Contains(text, "impossible and skipped") {
				t.Error("skipped acts are not told")
			}
		}
	}
}

// TestScript plays the script of another hour: it is the same hour.
func TestScript(t *testing.T) {
	for _, id := range []string{"unchecked", "sixty-fold"} {
		h := walked(t, id)
		c := h.Choose()
		steps, faults := scenarios.ParseSteps("script", []byte(Script(c.Played.Result, "one\ntwo")))
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		r, _, err := scoring.Play(h.Case, h.Place, h.Seed, steps)
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(r.Journal, c.Played.Result.Journal) {
			t.Errorf("%s: the script plays another hour", id)
		}
	}
}

// FuzzParseMove reads any text as a move of an hour: it is refused with a
// reason, or can be played.
func FuzzParseMove(f *testing.F) {
	for _, seed := range []string{
		"34 earlier by 20 min", "34 later by 90 s", "34 to 1:10", "34 also at 1:10:30", "34 left out",
		`25 as "set pump-1 to 3 mL/h"`, "31 as choose left-basilic-arm with 20 gauge 47.8 mm at 30 degrees",
		"add at 1:40: ask how right-cephalic-forearm feels", "add at 0:00: read the order", "34", "", "0 left out", "-1 to 0:00",
	} {
		f.Add(seed)
	}
	h := walked(f, "unchecked")
	f.Fuzz(func(t *testing.T, text string) {
		m, err := h.ParseMove(text)
		if err != nil {
			if err.Error() == "" {
				t.Error("refused without a reason")
			}
			return
		}
		if got := h.Compare(m, "", h.Play(m)); !strings.Contains(got, "Moved") {
			t.Errorf("%q is not told", text)
		}
	})
}
