package main

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

func TestEncodeKeepsItsSigns(t *testing.T) {
	var out bytes.Buffer
	p := &program{out: &out}
	if err := p.encode(map[string]string{"said": `a < b & "c"`}); err != nil || out.String() != "{\n  \"said\": \"a < b & \\\"c\\\"\"\n}\n" {
		t.Errorf("%v, %s", err, out.String())
	}
}

// JSON is written in one place, so that no command can escape what others do not.
func TestJSONIsWrittenInOnePlace(t *testing.T) {
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	var writes []string
	for _, file := range files {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if !strings.HasSuffix(file, "_test.go") && (strings.Contains(string(src), "json.NewEncoder") || strings.Contains(string(src), "json.Marshal")) {
			writes = append(writes, file)
		}
	}
	if !slices.Equal(writes, []string{"encode.go"}) {
		t.Errorf("JSON is written in %q", writes)
	}
}
