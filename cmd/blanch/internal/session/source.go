package session

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"blanch/content"
	"blanch/scenarios"
	"blanch/scoring"
	"blanch/sim"
)

// Source is the text of the files an attempt begins from.
type Source struct {
	CaseFile, PlaceFile, PolicyFile string
	Case, Place, Policy             []byte
	Fragments                       []Text // that the case uses and that were found
}

// Text is a file that was read.
type Text struct {
	File string
	Src  []byte
}

// text is the source of a file by its name.
func (s Source) text(file string) []byte {
	switch file {
	case s.PlaceFile:
		return s.Place
	case s.PolicyFile:
		return s.Policy
	}
	for _, f := range s.Fragments {
		if f.File == file {
			return f.Src
		}
	}
	return s.Case
}

// FragmentName is what cases call the fragment of a file.
func FragmentName(file string) string {
	return strings.TrimSuffix(filepath.Base(file), filepath.Ext(file))
}

// LoadCase loads the case with the fragments that it uses.
func (s Source) LoadCase() (*scenarios.Case, []scenarios.Complaint) {
	at := scenarios.Fragments{Found: map[string]*scenarios.Fragment{}, Names: content.FragmentNames()}
	var faults []scenarios.Complaint
	for _, f := range s.Fragments {
		loaded, more := scenarios.LoadFragment(f.File, f.Src)
		faults = append(faults, more...)
		at.Found[FragmentName(f.File)] = loaded
	}
	c, more := scenarios.LoadCase(s.CaseFile, s.Case, at)
	return c, append(faults, more...)
}

// Attempt is a case ready to be played: loaded, and its rules compiled.
type Attempt struct {
	Source Source
	Seed   uint64
	Case   *scenarios.Case
	Place  *sim.Place
	Policy *scenarios.Policy
	marker *scoring.Marker
}

// RefusedError is a file that was read and has faults.
type RefusedError struct {
	Report string // every fault with its place, as an author reads it
}

func (e *RefusedError) Error() string { return e.Report }

// refused reports what made a file unusable, and leaves out what did not.
func refused(faults []scenarios.Complaint, text func(file string) []byte) error {
	faults = slices.DeleteFunc(faults, func(f scenarios.Complaint) bool { return f.Level != scenarios.Error })
	return &RefusedError{Report(faults, text)}
}

// mostBytes bounds what is read of one file; the loader's own cap is lower.
const mostBytes = 4 << 20

// ReadFile reads a file that somebody wrote, at most a bounded part of it.
func ReadFile(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, mostBytes))
}

// Find reads the files of a case: caseName is an ID of the library or a path,
// policyName too, or empty for the policy the case names. What a case of a
// path names is looked for beside it before the library.
func Find(caseName, policyName string) (Source, error) {
	var s Source
	src, file, err := find(caseName, "", "cases", content.Case)
	if err != nil {
		return s, err
	}
	s.Case, s.CaseFile = src, file
	beside := ""
	if isPath(caseName) {
		beside = filepath.Dir(caseName)
	}
	for _, name := range scenarios.Uses(src) {
		text, at, err := Beside(name, beside, "fragments", content.Fragment)
		switch {
		case err == nil:
			s.Fragments = append(s.Fragments, Text{at, text})
		case !errors.Is(err, fs.ErrNotExist): // what is not there is a fault of the case, with its place
			return s, fmt.Errorf("%s: its fragment: %w", file, err)
		}
	}
	c, faults := s.LoadCase()
	if c == nil {
		return s, refused(faults, s.text)
	}
	if s.Place, s.PlaceFile, err = find(c.Place, beside, "places", content.Place); err != nil {
		return s, fmt.Errorf("%s: its place: %w", file, err)
	}
	if policyName == "" {
		policyName = c.Policy
	}
	if s.Policy, s.PolicyFile, err = find(policyName, beside, "policies", content.Policy); err != nil {
		return s, fmt.Errorf("%s: its policy: %w", file, err)
	}
	return s, nil
}

// isPath tells a path from an ID.
func isPath(name string) bool {
	return strings.ContainsAny(name, `/\`) || strings.HasSuffix(name, ".yaml") || strings.HasSuffix(name, ".yml")
}

// find reads a file by path, or by ID beside another file or in the library.
func find(name, beside, folder string, library func(string) ([]byte, string, error)) ([]byte, string, error) {
	if isPath(name) {
		src, err := ReadFile(name)
		return src, name, err
	}
	return Beside(name, beside, folder, library)
}

// Nearby lists the files that a name can stand for beside a case: in its
// folder, in a folder there or next to it, the first that is there.
func Nearby(name, beside, folder string) []string {
	var files []string
	for _, dir := range []string{beside, filepath.Join(beside, folder), filepath.Join(beside, "..", folder)} {
		files = append(files, filepath.Join(dir, name+".yaml"))
	}
	return files
}

// notThere is the error about a name that no file answers to. It is
// [fs.ErrNotExist], so that a file that is there and cannot be read is told
// from it.
type notThere struct{ error }

func (notThere) Is(target error) bool { return target == fs.ErrNotExist }

// Beside reads the file of a place, policy or fragment by its ID: beside a case
// as [Nearby] says, or in the library. An empty beside is only the library.
func Beside(name, beside, folder string, library func(string) ([]byte, string, error)) ([]byte, string, error) {
	if beside != "" {
		for _, path := range Nearby(name, beside, folder) {
			src, err := ReadFile(path)
			if err == nil {
				return src, path, nil
			}
			if !errors.Is(err, fs.ErrNotExist) {
				return nil, "", err
			}
		}
	}
	src, file, err := library(name)
	if err != nil {
		return nil, "", notThere{err}
	}
	return src, file, nil
}

// Load loads what [Find] found and compiles the rules. The error is a
// *RefusedError when a file has faults.
func Load(s Source, seed uint64) (*Attempt, error) {
	a := &Attempt{Source: s, Seed: seed}
	var faults, more []scenarios.Complaint
	a.Case, faults = s.LoadCase()
	a.Place, more = scenarios.LoadPlace(s.PlaceFile, s.Place)
	faults = append(faults, more...)
	a.Policy, more = scenarios.LoadPolicy(s.PolicyFile, s.Policy)
	faults = append(faults, more...)
	if a.Case != nil && a.Place != nil && a.Policy != nil {
		a.marker, more = scoring.Compile(a.Case, a.Policy)
		faults = append(faults, more...)
	}
	if a.marker == nil {
		return nil, refused(faults, s.text)
	}
	return a, nil
}

// Report renders complaints, one after the other. Text gives the source of a
// file.
func Report(faults []scenarios.Complaint, text func(file string) []byte) string {
	said := make([]string, len(faults))
	for i, f := range faults {
		said[i] = scenarios.Render(f, text(f.Pos.File))
	}
	return strings.Join(said, "\n")
}
