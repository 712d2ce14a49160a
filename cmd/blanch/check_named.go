package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"blanch/cmd/blanch/internal/session"
	"blanch/content"
	"blanch/scenarios"
	"blanch/sim"
)

// What a case names: its place, its policies, its fragments.

func (c *checker) loadFragment(file string, src []byte) *scenarios.Fragment {
	fragment, faults := scenarios.LoadFragment(file, src)
	c.complaints = append(c.complaints, faults...)
	if fragment != nil {
		c.fragments[fragment.ID] = fragment
	} else {
		c.fragments[session.FragmentName(file)] = nil // known, and its faults are told
	}
	return fragment
}

// fragmentsFor finds the fragments that a case uses: among the files checked,
// beside it, or in the library.
func (c *checker) fragmentsFor(file string, src []byte) scenarios.Fragments {
	at := scenarios.Fragments{Found: map[string]*scenarios.Fragment{}, Names: content.FragmentNames()}
	for _, id := range scenarios.Uses(src) {
		if _, known := c.fragments[id]; !known {
			if file, src, ok := c.nearby(file, "fragments", id, content.Fragment); ok {
				c.sources[file] = src
				f := c.loadFragment(file, src)
				if f != nil {
					c.sameName("fragment", file, id, f.ID)
				}
				c.fragments[id] = f
			}
		}
		if f, known := c.fragments[id]; known {
			at.Found[id] = f
		}
	}
	return at
}

// policy finds a policy by its name. It is known but nil when its file has
// faults, which are then among the complaints.
func (c *checker) policy(beside, id string) (p *scenarios.Policy, known bool) {
	if p := c.policies[id]; p != nil {
		return p, true
	}
	file, src, ok := c.nearby(beside, "policies", id, content.Policy)
	if ok && c.sources[file] == nil {
		c.sources[file] = src
		if p = c.loadPolicy(file, src); p != nil {
			c.sameName("policy", file, id, p.ID)
			c.policies[id] = p
		}
	}
	return p, ok
}

// place finds a place, as policy does.
func (c *checker) place(beside, id string) (p *sim.Place, known bool) {
	if p := c.places[id]; p != nil {
		return p, true
	}
	file, src, ok := c.nearby(beside, "places", id, content.Place)
	if ok && c.sources[file] == nil {
		c.sources[file] = src
		if p = c.loadPlace(file, src); p != nil {
			c.sameName("place", file, id, p.ID)
			c.places[id] = p
		}
	}
	return p, ok
}

// sameName complains about a file that was found by one name and gives
// itself another.
func (c *checker) sameName(what, file, id, inside string) {
	if id == inside {
		return
	}
	at := scenarios.Pos{File: file, Line: 1, Column: 1}
	for i, line := range strings.Split(string(c.sources[file]), "\n") {
		if strings.HasPrefix(line, what+":") {
			at.Line = i + 1
			break
		}
	}
	c.complaints = append(c.complaints, scenarios.Complaint{
		Level: scenarios.Error, Code: "wrong-name", Pos: at,
		Said:    fmt.Sprintf("this %s is found as %q, and calls itself %q", what, id, inside),
		Allowed: what + ": " + id + ", or a file of the other name",
	})
}

// nearby finds a file that a case names, beside it or in the library.
func (c *checker) nearby(beside, folder, id string, library func(string) ([]byte, string, error)) (string, []byte, bool) {
	src, file, err := session.Beside(id, filepath.Dir(beside), folder, library)
	return file, src, err == nil
}
