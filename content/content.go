// Package content holds the cases, places, policies, fragments and items that come with the
// program, embedded as the files their authors wrote. It reads them with the
// same strict loader as anybody's files:
//
//	for _, id := range content.Cases() {
//		c, complaints, err := content.LoadCase(id)
//	}
//
// An unknown ID is an error; a file that is not sound is complaints, and
// then the loaded value is nil.
package content

import (
	"embed"
	"fmt"
	"io/fs"
	"strings"

	"blanch/scenarios"
	"blanch/sim"
)

//go:embed cases/*.yaml fragments/*.yaml items/*.yaml places/*.yaml policies/*.yaml calibration/*.csv calibration/*.yaml
var files embed.FS

// Cases lists the IDs of the cases, sorted.
func Cases() []string { return ids("cases") }

// Places lists the IDs of the places, sorted.
func Places() []string { return ids("places") }

// Policies lists the IDs of the policies, sorted.
func Policies() []string { return ids("policies") }

// FragmentNames lists the IDs of the fragments, sorted.
func FragmentNames() []string { return ids("fragments") }

// Case is a case as written, and the name of its file.
func Case(id string) (src []byte, file string, err error) { return read("cases", "case", id) }

// Place is a place as written, and the name of its file.
func Place(id string) (src []byte, file string, err error) { return read("places", "place", id) }

// Policy is a policy as written, and the name of its file.
func Policy(id string) (src []byte, file string, err error) { return read("policies", "policy", id) }

// Fragment is a fragment as written, and the name of its file.
func Fragment(id string) (src []byte, file string, err error) {
	return read("fragments", "fragment", id)
}

// LoadCase loads a case with the fragments that it uses.
func LoadCase(id string) (*scenarios.Case, []scenarios.Complaint, error) {
	src, file, err := Case(id)
	if err != nil {
		return nil, nil, err
	}
	at := scenarios.Fragments{Found: map[string]*scenarios.Fragment{}, Names: FragmentNames()}
	var complaints []scenarios.Complaint
	for _, name := range scenarios.Uses(src) {
		if text, file, err := Fragment(name); err == nil {
			f, faults := scenarios.LoadFragment(file, text)
			at.Found[name] = f
			complaints = append(complaints, faults...)
		}
	}
	c, more := scenarios.LoadCase(file, src, at)
	return c, append(complaints, more...), nil
}

// LoadPlace loads a place, for tests of other packages: a session loads what
// it read, and keeps the text.
func LoadPlace(id string) (*sim.Place, []scenarios.Complaint, error) {
	src, file, err := Place(id)
	if err != nil {
		return nil, nil, err
	}
	p, complaints := scenarios.LoadPlace(file, src)
	return p, complaints, nil
}

// LoadPolicy loads a policy, for tests as LoadPlace does.
func LoadPolicy(id string) (*scenarios.Policy, []scenarios.Complaint, error) {
	src, file, err := Policy(id)
	if err != nil {
		return nil, nil, err
	}
	p, complaints := scenarios.LoadPolicy(file, src)
	return p, complaints, nil
}

// Calibration is a file of the folder of published targets: targets.csv, the
// table that the calibration simulates; assumptions.csv, how far outcomes
// move over what is assumed; cohorts.yaml, two worked cohorts.
func Calibration(name string) ([]byte, error) { return files.ReadFile("calibration/" + name) }

// ids lists a folder; reading an embedded folder cannot fail.
func ids(folder string) []string {
	names, _ := fs.Glob(files, folder+"/*.yaml")
	for i, name := range names {
		names[i] = strings.TrimSuffix(strings.TrimPrefix(name, folder+"/"), ".yaml")
	}
	return names
}

func read(folder, kind, id string) ([]byte, string, error) {
	file := folder + "/" + id + ".yaml"
	src, err := files.ReadFile(file)
	if err != nil {
		known := ids(folder)
		if near := scenarios.Nearest(id, known); near != "" {
			return nil, "", fmt.Errorf("no %s is called %q: did you mean %q?", kind, id, near)
		}
		return nil, "", fmt.Errorf("no %s is called %q: there are %s", kind, id, strings.Join(known, ", "))
	}
	return src, file, nil
}
