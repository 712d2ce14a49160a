package session_test

import (
	"fmt"
	"time"

	"blanch/cmd/blanch/internal/session"
)

// A face plays an attempt from its briefing to its marks.
func Example() {
	source, err := session.Find("../../testdata/files/small.yaml", "")
	if err != nil {
		fmt.Println(err)
		return
	}
	attempt, err := session.Load(source, 4) // by the luck of seed 4
	if err != nil {
		fmt.Println(err)
		return
	}
	s, err := session.New(attempt, 60) // simulated seconds a real second
	if err != nil {
		fmt.Println(err)
		return
	}
	// s.Record(recorder) keeps it from here on.

	show := func(lines []session.Line) {
		for _, l := range lines {
			if l.Kind == session.Happened {
				fmt.Println(l.At, l.Text)
			}
		}
	}
	show(s.Briefing(""))
	for _, line := range []string{"read the order", "wait 1 min", "stop here", "yes"} {
		show(s.Handle(line))
		for s.Running() {
			show(s.Pass(100 * time.Millisecond)) // simulated time runs with real time
		}
	}
	s.Reflect(0, "I read the order.")
	sheet := s.Finish() // s.Journal() is the hour as it was
	fmt.Println(len(sheet) > 0, s.Over(), s.Unsaved())
	// Output:
	// 0:00:00 You: read the order (until 0:00:30)
	// 0:00:30 Norepinephrine 0.05 mcg/kg/min, keep the mean pressure at 65 mmHg or above.
	// true true <nil>
}
