package main

import (
	"strings"

	"blanch/scenarios"
)

// calledAll is what kinds of file are called, as one phrase.
func calledAll(kinds []string, last string) string {
	called := make([]string, len(kinds))
	for i, kind := range kinds {
		called[i] = scenarios.Called(kind)
	}
	end := len(called) - 1
	return strings.Join(called[:end], ", ") + " " + last + " " + called[end]
}

// unknownKind is the error about a word that stands where a kind of file does.
func unknownKind(word string, kinds []string) error {
	return missed("kind of file", word, kinds, "there are "+strings.Join(kinds, ", "))
}
