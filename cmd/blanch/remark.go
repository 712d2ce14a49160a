package main

import (
	"fmt"
	"strings"

	"blanch/cmd/blanch/internal/session"
	"blanch/cmd/blanch/internal/store"
)

// remark prints the sheet of a recording under another policy, and which
// marks change. The arm has to be the one that was stored.
func (p *program) remark(file string, log store.Log, policy string) error {
	out, err := session.Remark(recordOf(log), policy)
	if err != nil {
		return unreadable(fmt.Errorf("recording %s: %w", file, err))
	}
	before, then := out.Before, out.Then
	if before == then {
		before, then = before+" as recorded", policy
	}
	var b strings.Builder
	b.WriteString(out.Sheet + "\nWhat changes under the other policy\n")
	writeChanges(&b, "  ", out.Changes.Words(before, then))
	fmt.Fprint(p.out, session.Harmless(b.String()))
	if out.Differs != "" {
		fmt.Fprintf(p.err, "the replay differs from what was stored:\n%s", out.Differs)
		return errFaults
	}
	fmt.Fprintln(p.out, "\nThe same journal as stored, byte for byte: only the marks differ.")
	return nil
}
