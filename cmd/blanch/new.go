package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"github.com/spf13/cobra"

	"blanch/content"
	"blanch/scenarios"
)

func (p *program) newCommand() *cobra.Command {
	dir := "."
	cmd := &cobra.Command{
		Use:   "new case|place|policy|fragment|items NAME",
		Short: "Begin a case, place, policy, fragment or file of items that checks clean",
		Long: `Writes NAME.yaml, a whole case, place, policy, fragment or file of items to write over. It checks clean as it
stands, and a case plays. Beside it goes the JSON Schema that its first line names, when it is not there yet.
A file that exists is never overwritten.`,
		Args:      cobra.ExactArgs(2),
		ValidArgs: kindsOfFile,
		RunE: func(_ *cobra.Command, args []string) error {
			return p.begun(args[0], args[1], dir)
		},
	}
	cmd.Flags().StringVar(&dir, "in", ".", "write into this `folder`, which is made when it is not there")
	return cmd
}

// begun writes a new file and says what to do with it.
func (p *program) begun(kind, name, dir string) error {
	if !slices.Contains(kindsOfFile, kind) {
		return missed("kind of file", kind, kindsOfFile, "there are case, place, policy, fragment and items")
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
	fmt.Fprintf(p.out, "%s\n\n  blanch check %s\n", file, file)
	if kind == "items" {
		fmt.Fprintf(p.out, "  blanch preview items %s\n", file)
	}
	if kind == "case" {
		fmt.Fprintf(p.out, "  blanch preview %s\n  blanch play %s\n  blanch guide\n", file, file)
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
