package main

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"

	"blanch/cmd/blanch/internal/session"
	"blanch/content"
	"blanch/scenarios"
)

// shelf is the files of one kind that cases name: places, policies or
// fragments. Each is loaded once. What has faults is nil, and its faults are
// among the complaints.
type shelf[T any] struct {
	c            *checker
	kind, folder string
	load         func(file string, src []byte) (*T, []scenarios.Complaint)
	library      func(id string) ([]byte, string, error)
	id           func(*T) string

	files   map[string]*T     // by file
	shipped map[string]*T     // by name, from the library
	given   map[string]string // the file among those checked that gives itself a name
	faulty  map[string]bool   // names of files that were checked and have faults, as far as the file's own name tells
}

func newShelf[T any](c *checker, kind, folder string, load func(string, []byte) (*T, []scenarios.Complaint), library func(string) ([]byte, string, error), id func(*T) string) *shelf[T] {
	return &shelf[T]{
		c: c, kind: kind, folder: folder, load: load, library: library, id: id,
		files: map[string]*T{}, shipped: map[string]*T{}, given: map[string]string{}, faulty: map[string]bool{},
	}
}

// read loads a file and tells its faults.
func (s *shelf[T]) read(file string, src []byte) *T {
	if _, known := s.c.sources[file]; !known {
		s.c.sources[file] = src
	}
	one, faults := s.load(file, src)
	s.c.complaints = append(s.c.complaints, faults...)
	return one
}

// add loads a file that is checked. Of two that give themselves one name the
// first has it.
func (s *shelf[T]) add(file string) {
	one := s.read(file, s.c.sources[file])
	s.files[file] = one
	if one == nil {
		s.faulty[session.FragmentName(file)] = true
		return
	}
	id := s.id(one)
	if first, twice := s.given[id]; twice {
		also := s.c.nameAt(first, s.kind)
		s.c.complaints = append(s.c.complaints, scenarios.Complaint{
			Level: scenarios.Error, Code: "given-twice", Pos: s.c.nameAt(file, s.kind),
			Said: fmt.Sprintf("another %s calls itself %q too, and a case that names it could mean either", s.kind, id), Allowed: "each name once", Also: &also,
		})
		return
	}
	s.given[id] = file
}

// find finds what a case names: among the files checked, beside the case, or
// in the library. It is known but nil when its file has faults. The error is
// a file that is there and cannot be read.
func (s *shelf[T]) find(beside, id string) (one *T, known bool, err error) {
	if file, ok := s.given[id]; ok {
		return s.files[file], true, nil
	}
	dir, shipped := filepath.Dir(beside), false
	for _, file := range session.Nearby(id, dir, s.folder) {
		s.c.look(file)
	}
	src, file, err := session.Beside(id, dir, s.folder, func(id string) ([]byte, string, error) {
		shipped = true
		return s.library(id)
	})
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, s.faulty[id], nil
	case err != nil:
		return nil, false, fmt.Errorf("%s: its %s: %w", beside, s.kind, err)
	case shipped:
		if one, known = s.shipped[id]; !known {
			one = s.read(file, src)
			s.shipped[id] = one
		}
		return one, true, nil
	}
	file = s.c.spell(file)
	if one, known = s.files[file]; !known {
		one = s.read(file, src)
		s.files[file] = one
	}
	if one != nil {
		s.c.sameName(s.kind, file, id, s.id(one))
	}
	return one, true, nil
}

// fragmentsFor finds the fragments that a case uses.
func (c *checker) fragmentsFor(file string, src []byte) (scenarios.Fragments, error) {
	at := scenarios.Fragments{Found: map[string]*scenarios.Fragment{}, Names: content.FragmentNames()}
	for _, id := range scenarios.Uses(src) {
		f, known, err := c.fragments.find(file, id)
		if err != nil {
			return at, err
		}
		if known {
			at.Found[id] = f
		}
	}
	return at, nil
}

// sameName complains about a file that was found by one name and gives
// itself another.
func (c *checker) sameName(what, file, id, inside string) {
	if id == inside {
		return
	}
	fault := scenarios.Complaint{
		Level: scenarios.Error, Code: "wrong-name", Pos: c.nameAt(file, what),
		Said:    fmt.Sprintf("this %s is found as %q, and calls itself %q", what, id, inside),
		Allowed: what + ": " + id + ", or a file of the other name",
	}
	if !slices.Contains(c.complaints, fault) { // told already with another case that names it
		c.complaints = append(c.complaints, fault)
	}
}

// nameAt is where a file gives itself its name.
func (c *checker) nameAt(file, what string) scenarios.Pos {
	for i, line := range strings.Split(string(c.sources[file]), "\n") {
		if strings.HasPrefix(line, what+":") {
			return scenarios.Pos{File: file, Line: i + 1, Column: 1}
		}
	}
	return scenarios.Pos{File: file, Line: 1, Column: 1}
}
