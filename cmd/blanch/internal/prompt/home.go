package prompt

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"blanch/cmd/blanch/internal/session"
)

// Choice is what was chosen at home.
type Choice struct {
	Case   string // ID of the case to start
	Resume string // path of the recording to resume
}

// Home lists what there is and waits for a choice. ErrLeft is no failure
// here: whoever came has left again.
func (f *Face) Home(cases []session.Listed, open []session.Recorded) (Choice, error) {
	busy := slices.DeleteFunc(slices.Clone(open), func(u session.Recorded) bool { return !u.InUse })
	open = slices.DeleteFunc(slices.Clone(open), func(u session.Recorded) bool { return u.InUse })
	f.put("blanch: rehearse a vasopressor in an arm vein before you run one.", "")
	f.Say("%s %s", session.Caution, session.Skin)
	f.list(cases, open, busy)
	for {
		line, err := f.ask("> ", "")
		if err != nil {
			return Choice{}, err
		}
		words := strings.Fields(strings.ToLower(line))
		switch {
		case len(words) == 0:
			f.list(cases, open, busy)
		case leaves(words[0]):
			return Choice{}, ErrLeft
		case words[0] == "help":
			f.page(renderAll(session.Help(strings.Join(words[1:], " "))))
		case words[0] == "actions":
			f.page(renderAll(session.Actions(strings.Join(words[1:], " "))))
		case words[0] == "resume" || words[0] == "r":
			if path, ok := pick(words[1:], open); ok {
				return Choice{Resume: path}, nil
			}
			f.Say("? there is no such attempt to resume")
		default:
			if id, ok := caseChosen(words[len(words)-1], cases); ok {
				return Choice{Case: id}, nil
			}
			f.Say("? %q is not on this list: type the number of a case, resume, help or quit", line)
		}
	}
}

func (f *Face) list(cases []session.Listed, open, busy []session.Recorded) {
	for i, u := range open {
		if i == 0 {
			f.put("", "Unfinished")
		}
		name := "resume"
		if len(open) > 1 {
			name = fmt.Sprintf("resume %d", i+1)
		}
		f.put(wrap("  "+pad(name, 10), strings.Repeat(" ", 12), fmt.Sprintf("%s, at %s of the case, played %s", u.Title, u.Reached, u.Played))...)
	}
	for i, u := range busy {
		if i == 0 {
			f.put("", "Open in another window or terminal")
		}
		f.put(wrap("  ", "  ", fmt.Sprintf("%s, at %s of the case", u.Title, u.Reached))...)
	}
	f.put("", "Cases")
	for i, c := range cases {
		if c.Broken {
			continue
		}
		f.put(wrap(fmt.Sprintf("  %-4d", i+1), "      ", fmt.Sprintf("%s (%s, %s, about %s, %s)", c.Title, c.Track, c.Level, c.Minutes, c.Status))...)
		f.put(wrap("      ", "      ", c.Summary)...)
	}
	f.put("")
	f.Say("Type a number to read its briefing; nothing starts before you say so. help: how to play. quit: leave.")
	f.Say("Questions by unit of study: blanch quiz. For authors: blanch check FILE, blanch play FILE.")
}

func pick(words []string, open []session.Recorded) (string, bool) {
	n := 1
	if len(words) > 0 {
		n, _ = strconv.Atoi(words[0])
	}
	if n < 1 || n > len(open) {
		return "", false
	}
	return open[n-1].Path, true
}

func caseChosen(word string, cases []session.Listed) (string, bool) {
	for i, c := range cases {
		if !c.Broken && (word == c.ID || word == strconv.Itoa(i+1)) {
			return c.ID, true
		}
	}
	return "", false
}
