package session

import (
	"fmt"
	"slices"
	"strings"

	"blanch/content"
	"blanch/scenarios"
	"blanch/sim/quantity"
)

// Listed is a case as it stands in the list.
type Listed struct {
	ID, Title, Track, Level, Status, Summary string
	Minutes                                  string // "20 min"
	Broken                                   bool   // the file has faults
}

// levels from the first that a learner should play to the last.
var levels = []string{"first", "middle", "advanced"}

// Shelf lists the cases that come with the program, by level and then by name.
func Shelf() []Listed {
	var out []Listed
	for _, id := range content.Cases() {
		c, _, err := content.LoadCase(id)
		if err != nil || c == nil {
			out = append(out, Listed{ID: id, Broken: true})
			continue
		}
		out = append(out, listed(c))
	}
	slices.SortStableFunc(out, func(a, b Listed) int { return slices.Index(levels, a.Level) - slices.Index(levels, b.Level) })
	return out
}

func listed(c *scenarios.Case) Listed {
	return Listed{
		ID: c.ID, Title: c.Title, Track: c.Track, Level: c.Level, Status: c.Status,
		Summary: oneLine(c.Summary), Minutes: quantity.Number(quantity.Round(c.Minutes, 1)) + " min",
	}
}

// Title names the case.
func (s *Session) Title() string { return s.a.Case.Title }

// Briefing is what a learner is told before the clock starts. Where is where
// the recording lies, empty for none.
func (s *Session) Briefing(where string) []Line {
	return append(s.brief(where, "The word policy shows its limits."), heading("How to play"),
		told("Type what you do: read the order. Tab completes a sentence; what lists what can be done now; now shows how things stand; help lists the rest. The clock stands while you think. An action or a wait makes it run, and Enter alone holds it."),
		told("The case lasts until %s of its clock, or until you hand over, or until you say: stop here.", s.a.Case.Ends.Clock()))
}

// ScreenBriefing is the same for a screen, which is played by keys.
func (s *Session) ScreenBriefing(where string) []Line {
	return append(s.brief(where, "The papers (p) show its limits."), heading("How to play"),
		told("Everything can be done by keyboard; ? says how, on every screen. The clock stands while you read, choose or type. What you do takes its time and makes the clock run; Space lets it run on, w waits. Calls and alarms slow it."),
		told("The case lasts until %s of its clock, or until you hand over, or until you stop it (Esc at the bedside).", s.a.Case.Ends.Clock()))
}

// brief is what is the same for every face.
func (s *Session) brief(where, limits string) []Line {
	c, p := s.a.Case, s.a.Policy
	lines := []Line{
		heading(c.Title),
		told("For a %s; about %s; %s.", c.Track, listed(c).Minutes, c.Status),
		told("%s %s", Caution, Skin),
	}
	for _, par := range paragraphs(c.Briefing) {
		lines = append(lines, told("%s", par))
	}
	if len(c.Objectives) > 0 {
		lines = append(lines, heading("You practise to"))
		for _, o := range c.Objectives {
			lines = append(lines, told("- %s", oneLine(o.Text)))
		}
	}
	if c.NotShown != "" {
		lines = append(lines, heading("Not simulated"), told("%s", oneLine(c.NotShown)))
	}
	lines = append(lines, heading("How it is marked"),
		told("This is practice. Rules of the case judge what you decide and do, never luck, under this policy: %s. %s You see the marks at the end, with what each rests on; %s Critical items are not made up for by points elsewhere.",
			p.Title, limits, passMark(c)))
	if where != "" {
		lines = append(lines, told("Nobody sees the result but you. The recording lies in %s.", where))
	} else {
		lines = append(lines, told("Nobody sees the result but you. Nothing is recorded."))
	}
	return lines
}

func passMark(c *scenarios.Case) string {
	share := quantity.Number(quantity.Round(c.PassPoints*100, 1))
	return fmt.Sprintf("to pass you need %s %% of the points that apply.", share)
}

// paragraphs cuts a text at its blank lines.
func paragraphs(text string) []string {
	var out []string
	for _, par := range strings.Split(text, "\n\n") {
		if par = oneLine(par); par != "" {
			out = append(out, par)
		}
	}
	return out
}

// Seed is the seed of the attempt's luck.
func (s *Session) Seed() uint64 { return s.a.Seed }

// Teaching is what the case has to say afterwards.
func (s *Session) Teaching() []Line {
	var lines []Line
	for _, par := range paragraphs(s.a.Case.Teaching) {
		lines = append(lines, told("%s", par))
	}
	if len(s.a.Case.Sources) > 0 {
		lines = append(lines, heading("Sources"))
		for _, src := range s.a.Case.Sources {
			lines = append(lines, told("- %s", oneLine(src)))
		}
	}
	return lines
}
