package main

import (
	"errors"
	"os"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"blanch": func() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) },
	})
}

// TestScripts runs the real command by the scripts of testdata/script.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script",
		Setup: func(e *testscript.Env) error {
			e.Setenv("BLANCH_HOME", e.WorkDir+"/attempts")
			e.Setenv("BLANCH_PLAIN", "")
			return errors.Join(
				os.CopyFS(e.WorkDir+"/files", os.DirFS("testdata/files")),
				os.CopyFS(e.WorkDir+"/try", os.DirFS("testdata/try")))
		},
		Cmds:          scriptCommands,
		UpdateScripts: os.Getenv("UPDATE_SCRIPTS") != "",
	})
}
