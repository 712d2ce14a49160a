package prompt_test

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"blanch/cmd/blanch/internal/prompt"
	"blanch/cmd/blanch/internal/session"
)

// A case is chosen at home and left again.
func Example() {
	stdin := strings.NewReader("1\n\nread the order\nquit\n")
	face, err := prompt.Open(stdin, io.Discard, prompt.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	defer face.Close()

	choice, err := face.Home(session.Shelf(), nil) // nothing waits to be resumed
	if err != nil {
		fmt.Println(err)
		return
	}
	source, err := session.Find(choice.Case, "")
	if err != nil {
		fmt.Println(err)
		return
	}
	attempt, err := session.Load(source, 7)
	if err != nil {
		fmt.Println(err)
		return
	}
	s, err := session.New(attempt, 0) // anywhere but on a terminal every wait jumps
	if err != nil {
		fmt.Println(err)
		return
	}
	if err := face.Brief(s, "attempt.jsonl"); err != nil {
		fmt.Println(err)
		return
	}
	err = face.Play(s, false, "")
	fmt.Println(errors.Is(err, prompt.ErrLeft), s.Over())
	// Output: true false
}
