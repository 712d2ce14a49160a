package quiz_test

import (
	"fmt"
	"os"
	"path/filepath"
	"time"

	"blanch/cmd/blanch/internal/progress"
	"blanch/cmd/blanch/internal/quiz"
	"blanch/cmd/blanch/internal/session"
	"blanch/content"
)

// A face shows what is asked, reads a line and hands it on, to the end of the
// sitting.
func Example() {
	dir, err := os.MkdirTemp("", "blanch-quiz")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(dir)
	kept, err := progress.Open(filepath.Join(dir, "reviews.ndjson"))
	if err != nil {
		fmt.Println(err)
		return
	}
	policy, err := session.PolicyNamed(content.Policies()[0])
	if err != nil {
		fmt.Println(err)
		return
	}
	tasks, err := quiz.Questions()
	if err != nil {
		fmt.Println(err)
		return
	}
	s, err := quiz.New(quiz.Options{Tasks: tasks, Progress: kept, Policy: policy, Seed: 7, Questions: 2, Assess: true, Now: time.Now})
	if err != nil {
		fmt.Println(err)
		return
	}
	show := func([]session.Line) {}
	show(s.Opening())
	answers := 0
	for !s.Over() && answers < 10 {
		show(s.Ask())
		said, err := s.Answer("pass") // as it would be typed
		if err != nil {
			fmt.Println(err)
			return
		}
		show(said)
		answers++
	}
	show(s.Closing())
	fmt.Println(answers, s.Over(), kept.Faults())
	// Output: 2 true []
}
