package main

import "strings"

// asTyped is a word as a shell takes it, so that a command that is shown can be
// pasted.
func asTyped(word string) string {
	special := func(r rune) bool {
		return r < '0' && !strings.ContainsRune("-./+,%", r) || strings.ContainsRune(";<>?`|&*()[]{}~\\!$\"'", r)
	}
	if word == "" || strings.ContainsFunc(word, special) {
		return "'" + strings.ReplaceAll(word, "'", `'\''`) + "'"
	}
	return word
}
