package main

import (
	"bytes"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"blanch/sim/quantity"
)

// quizzed runs the quiz on fresh progress with a file of answers.
func quizzed(t *testing.T, answers string, args ...string) string {
	t.Helper()
	t.Setenv("BLANCH_HOME", t.TempDir())
	t.Setenv("BLANCH_PLAIN", "")
	var out, errs bytes.Buffer
	if code := run(append([]string{"quiz"}, args...), strings.NewReader(answers), &out, &errs); code != exitFine {
		t.Fatalf("exit code %d: %s", code, errs.String())
	}
	return out.String()
}

// The first sum of a seed has the same numbers each time: whoever passes is shown
// the answer, and whoever gives it then is right. Sixty times as much is what
// comes of 60 min/h taken twice.
func TestQuizAnswersRightAndSixtyFold(t *testing.T) {
	args := []string{"sums", "--seed", "3"} // a rate of whole tenths, so that sixty times it is the slip to the digit
	shown := regexp.MustCompile(`set the pump: (?:.* to 0\.1: )?([0-9.]+) mL/h\n`).FindStringSubmatch(quizzed(t, "pass\nq\n", args...))
	if shown == nil {
		t.Fatal("the first sum is no longer a rate")
	}
	rate, err := strconv.ParseFloat(shown[1], 64)
	if err != nil {
		t.Fatal(err)
	}
	right := quizzed(t, fmt.Sprintf("\n\n%s mL/h\nq\n", shown[1]), args...)
	for _, want := range []string{"\nRight.\n", "It comes again in 2 days.", "1 answer is kept in your progress, 1 of them right."} {
		if !strings.Contains(right, want) {
			t.Errorf("no %q in:\n%s", want, right)
		}
	}
	slip := quizzed(t, fmt.Sprintf("\n\n%s mL/h\nq\n", quantity.Number(quantity.Round(rate*60, 0.1))), args...)
	folded := strings.Join(strings.Fields(slip), " ")
	for _, want := range []string{"Not right. This question is critical", "Your number is 60 times too large: you have multiplied by 60 twice, in step ", "You left the path here, which leads to ", "other numbers; n goes on"} {
		if !strings.Contains(folded, want) {
			t.Errorf("no %q in:\n%s", want, slip)
		}
	}
}
