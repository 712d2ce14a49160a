package main

import (
	"fmt"
	"io"
	"strings"

	"blanch/scenarios"
)

// mostNamed is how many of the files that were passed over are named.
const mostNamed = 5

// tally counts what was found.
type tally struct {
	Files    int `json:"files"`
	Walks    int `json:"walk_throughs"`
	Faults   int `json:"faults"`
	Warnings int `json:"warnings"`
	Notes    int `json:"notes"`
}

func (c *checker) tally() tally {
	t := tally{Files: len(c.files), Walks: c.walks}
	for _, f := range c.complaints {
		switch f.Level {
		case scenarios.Error:
			t.Faults++
		case scenarios.Warning:
			t.Warnings++
		case scenarios.Note:
			t.Notes++
		}
	}
	return t
}

// report prints what was found. The error is errFaults when it fails.
func (c *checker) report(out io.Writer, how checking) error {
	t := c.tally()
	var err error
	if how.json {
		err = c.reportJSON(out, t, how.watch)
	} else {
		err = c.reportText(out, t)
	}
	if err == nil && (t.Faults > 0 || how.strict && t.Warnings > 0) {
		err = errFaults
	}
	return err
}

// reportText prints every complaint and a line that sums up.
func (c *checker) reportText(out io.Writer, t tally) error {
	for _, f := range c.complaints {
		fmt.Fprintln(out, scenarios.Render(f, c.sources[f.Pos.File]))
	}
	if len(c.complaints) > 0 {
		fmt.Fprintln(out)
	}
	verdict := "no faults"
	if t.Faults > 0 {
		verdict = plural(t.Faults, "fault")
	}
	if t.Warnings > 0 {
		verdict += ", " + plural(t.Warnings, "warning")
	}
	if n := len(c.passedOver); n > 0 {
		were, do := "was", "does"
		if n > 1 {
			were, do = "were", "do"
		}
		names := scenarios.Harmless(strings.Join(c.passedOver[:min(n, mostNamed)], ", "))
		if n > mostNamed {
			names += fmt.Sprintf(" and %d more", n-mostNamed)
		}
		fmt.Fprintf(out, "%s %s passed over: %s %s not begin with format:\n", plural(n, "file"), were, names, do)
	}
	_, err := fmt.Fprintf(out, "%s checked, %s played: %s\n", plural(t.Files, "file"), plural(t.Walks, "walk-through"), verdict)
	return err
}

// place is a place in a file as JSON has it. Lines and columns count from 1;
// columns count characters, and end_column stands behind the last one.
type place struct {
	File   string `json:"file"`
	Line   int    `json:"line"`
	Column int    `json:"column"`
}

// told is a complaint as JSON has it.
type told struct {
	place
	EndColumn int    `json:"end_column"`
	Level     string `json:"level"`
	Code      string `json:"code"`
	Said      string `json:"said"`
	Allowed   string `json:"allowed,omitempty"`
	Meant     string `json:"meant,omitempty"`
	Also      *place `json:"also,omitempty"`
}

// reportJSON prints one document; on one line when it is one of many.
func (c *checker) reportJSON(out io.Writer, t tally, oneLine bool) error {
	report := struct {
		tally
		PassedOver []string `json:"passed_over,omitempty"`
		Complaints []told   `json:"complaints"`
	}{t, c.passedOver, []told{}}
	for _, f := range c.complaints {
		one := told{
			place:     placeOf(f.Pos),
			EndColumn: scenarios.Extent(f, c.sources[f.Pos.File]),
			Level:     f.Level.String(), Code: f.Code, Said: f.Said, Allowed: f.Allowed, Meant: f.Meant,
		}
		if f.Also != nil {
			also := placeOf(*f.Also)
			one.Also = &also
		}
		report.Complaints = append(report.Complaints, one)
	}
	if oneLine {
		return encode(out, report, "")
	}
	return encode(out, report, "  ")
}

func placeOf(p scenarios.Pos) place { return place{p.File, p.Line, p.Column} }
