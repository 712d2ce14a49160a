package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"blanch/content"
	"blanch/scenarios"
)

func (p *program) newCommand() *cobra.Command {
	dir, kinds := ".", content.Scaffolds()
	cmd := &cobra.Command{
		Use:   "new " + strings.Join(kinds, "|") + " NAME",
		Short: "Begin a " + calledAll(kinds, "or") + " that checks clean",
		Long: `Writes NAME.yaml, a whole ` + calledAll(kinds, "or") + ` to write over. It checks clean as it
stands, and a case plays. Beside it goes the JSON Schema that its first line names, when it is not there yet.
A file that exists is never overwritten.`,
		Args:      cobra.ExactArgs(2),
		ValidArgs: kinds,
		RunE: func(_ *cobra.Command, args []string) error {
			return p.begun(args[0], args[1], dir)
		},
	}
	cmd.Flags().StringVar(&dir, "in", ".", "write into this `folder`, which is made when it is not there")
	return cmd
}

// begun writes a new file and says what to do with it.
func (p *program) begun(kind, name, dir string) error {
	if kinds := content.Scaffolds(); !slices.Contains(kinds, kind) {
		return unknownKind(kind, kinds)
	}
	if !scenarios.IsName(name) {
		return misused("%q cannot name a %s: use small letters, digits and hyphens, beginning with a letter", name, kind)
	}
	text, err := content.Scaffold(kind, name)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return unreadable(err)
	}
	file := filepath.Join(dir, name+".yaml")
	if err := writeNew(file, []byte(text)); err != nil {
		if errors.Is(err, fs.ErrExist) {
			return unreadable(fmt.Errorf("%s exists already: choose another name, or another folder with --in", file))
		}
		return unreadable(err)
	}
	schema, err := scenarios.Schema(kind)
	if err != nil {
		return err
	}
	beside := filepath.Join(dir, kind+".schema.json")
	if err := writeNew(beside, schema); err != nil && !errors.Is(err, fs.ErrExist) {
		return unreadable(err)
	}
	typed := asTyped(file)
	fmt.Fprintf(p.out, "%s\n\n  blanch check %s\n", file, typed)
	if kind == "items" {
		fmt.Fprintf(p.out, "  blanch preview items %s\n", typed)
	}
	if kind == "case" {
		fmt.Fprintf(p.out, "  blanch preview %s\n  blanch play %s\n  blanch guide\n", typed, typed)
	}
	return nil
}

// writeNew writes a file that must not exist yet.
func writeNew(file string, text []byte) error {
	f, err := os.OpenFile(file, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	_, err = f.Write(text)
	return errors.Join(err, f.Close())
}
