package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"blanch/cmd/blanch/internal/prompt"
	"blanch/cmd/blanch/internal/session"
	"blanch/cmd/blanch/internal/store"
)

// keepSheet keeps the result sheet of an assessment as text, in a file of its own
// in the folder of the attempts, or in the one that was named. A file that is
// there already is never written over: that is said before the first question.
func (p *program) keepSheet(path string) (func([]session.Line) (string, error), error) {
	if path == "" {
		home, err := store.Home()
		if err != nil {
			return nil, unreadable(err)
		}
		name := filepath.Join(string(home), "assessment-"+time.Now().UTC().Format("20060102-150405"))
		for n := 1; path == "" || there(path); n++ {
			if path = name + ".txt"; n > 1 {
				path = fmt.Sprintf("%s-%d.txt", name, n)
			}
		}
	}
	path, err := filepath.Abs(path)
	if err != nil {
		return nil, unreadable(err)
	}
	if there(path) {
		return nil, unreadable(fmt.Errorf("%s is there already: name another file for the result sheet", path))
	}
	return func(sheet []session.Line) (string, error) {
		var text bytes.Buffer
		face, err := prompt.Open(strings.NewReader(""), &text, prompt.Options{Plain: true})
		if err != nil {
			return "", err
		}
		face.Lines(sheet)
		face.Close()
		if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
			return "", err
		}
		f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
		if err != nil {
			return "", err
		}
		_, err = f.Write(text.Bytes())
		return path, errors.Join(err, f.Close())
	}, nil
}

func there(path string) bool {
	_, err := os.Lstat(path)
	return !errors.Is(err, fs.ErrNotExist)
}
