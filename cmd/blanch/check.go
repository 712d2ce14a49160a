package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"blanch/cmd/blanch/internal/session"
	"blanch/content"
	"blanch/scenarios"
	"blanch/scoring"
	"blanch/sim"
)

func (p *program) checkCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "check [PATH...]",
		Short: "Check cases, places and policies, and play their walk-throughs",
		Long: `Checks YAML files and folders of them: every field, every rule, and every walk-through against the
marks it says it earns. Without a path it checks all that comes with the program. Places and
policies that a case names are looked for among the files checked, beside the case, and in the
program's own. Every fault is shown with file:line:column; the exit code is 1 when there is one.`,
		RunE: func(_ *cobra.Command, args []string) error {
			c := &checker{sources: map[string][]byte{}, places: map[string]*sim.Place{}, policies: map[string]*scenarios.Policy{}}
			var err error
			if len(args) == 0 {
				err = c.readContent()
			} else {
				err = c.readPaths(args)
			}
			if err != nil {
				return unreadable(err)
			}
			c.check()
			return c.report(p)
		},
	}
}

// checker collects the files, then the complaints.
type checker struct {
	files      []string // in the order given
	sources    map[string][]byte
	cases      []*scenarios.Case
	places     map[string]*sim.Place
	policies   map[string]*scenarios.Policy
	walks      int
	complaints []scenarios.Complaint
}

func (c *checker) add(file string, src []byte) {
	if _, twice := c.sources[file]; !twice {
		c.files = append(c.files, file)
	}
	c.sources[file] = src
}

func (c *checker) readContent() error {
	for _, shelf := range []struct {
		ids  []string
		read func(string) ([]byte, string, error)
	}{{content.Policies(), content.Policy}, {content.Places(), content.Place}, {content.Cases(), content.Case}} {
		for _, id := range shelf.ids {
			src, file, err := shelf.read(id)
			if err != nil {
				return err
			}
			c.add(file, src)
		}
	}
	return nil
}

func (c *checker) readPaths(paths []string) error {
	for _, path := range paths {
		found := 0
		err := filepath.WalkDir(path, func(file string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() {
				return err
			}
			named := file == path
			if ext := filepath.Ext(file); !named && ext != ".yaml" && ext != ".yml" {
				return nil
			}
			src, err := session.ReadFile(file)
			if err != nil {
				return err
			}
			if !named && scenarios.Kind(src) == "" {
				return nil // some other YAML file in the folder
			}
			found++
			c.add(file, src)
			return nil
		})
		if err != nil {
			return err
		}
		if found == 0 {
			return fmt.Errorf("%s: no case, place or policy in this folder: files end in .yaml and begin with format: 1", path)
		}
	}
	return nil
}

func (c *checker) check() {
	for _, file := range c.files {
		src := c.sources[file]
		switch scenarios.Kind(src) {
		case "place":
			place, faults := scenarios.LoadPlace(file, src)
			c.complaints = append(c.complaints, faults...)
			if place != nil {
				c.places[place.ID] = place
			}
		case "policy":
			policy, faults := scenarios.LoadPolicy(file, src)
			c.complaints = append(c.complaints, faults...)
			if policy != nil {
				c.policies[policy.ID] = policy
			}
		default:
			loaded, faults := scenarios.LoadCase(file, src)
			c.complaints = append(c.complaints, faults...)
			if loaded != nil {
				c.cases = append(c.cases, loaded)
			}
		}
	}
	for _, one := range c.cases {
		c.checkCase(one)
	}
}

// checkCase checks what a case means together with its place and policies.
func (c *checker) checkCase(one *scenarios.Case) {
	top := scenarios.Pos{File: one.File, Line: 1, Column: 1}
	policy, known := c.policy(one.File, one.Policy)
	if !known {
		c.fault(top, "unknown-policy", fmt.Sprintf("there is no policy called %q", one.Policy), content.Policies())
		return
	}
	place, known := c.place(one.File, one.Place)
	if !known {
		c.fault(top, "unknown-place", fmt.Sprintf("there is no place called %q", one.Place), content.Places())
		return
	}
	faults := scoring.Check(one, policy)
	c.complaints = append(c.complaints, faults...)
	if len(faults) > 0 {
		return
	}
	c.walks += len(one.Walks)
	c.complaints = append(c.complaints, scoring.CheckWalks(one, place, func(id string) (*scenarios.Policy, bool) {
		return c.policy(one.File, id)
	})...)
}

func (c *checker) fault(at scenarios.Pos, code, said string, known []string) {
	c.complaints = append(c.complaints, scenarios.Complaint{
		Level: scenarios.Error, Code: code, Pos: at, Said: said, Allowed: "one of: " + strings.Join(known, ", ") + ", or a file beside the case",
	})
}

func (c *checker) policy(beside, id string) (*scenarios.Policy, bool) {
	if p := c.policies[id]; p != nil {
		return p, true
	}
	file, src, ok := nearby(beside, "policies", id, content.Policy)
	if !ok {
		return nil, false
	}
	p, _ := scenarios.LoadPolicy(file, src)
	return p, p != nil
}

func (c *checker) place(beside, id string) (*sim.Place, bool) {
	if p := c.places[id]; p != nil {
		return p, true
	}
	file, src, ok := nearby(beside, "places", id, content.Place)
	if !ok {
		return nil, false
	}
	p, _ := scenarios.LoadPlace(file, src)
	return p, p != nil
}

// nearby finds a file that a case names, beside it or in the library.
func nearby(beside, folder, id string, library func(string) ([]byte, string, error)) (string, []byte, bool) {
	src, file, err := session.Beside(id, filepath.Dir(beside), folder, library)
	return file, src, err == nil
}

// report prints every complaint and a line that sums up.
func (c *checker) report(p *program) error {
	faults, warnings := 0, 0
	for _, f := range c.complaints {
		switch f.Level {
		case scenarios.Error:
			faults++
		case scenarios.Warning:
			warnings++
		}
		src := c.sources[f.Pos.File]
		if src == nil {
			src, _ = os.ReadFile(f.Pos.File)
		}
		fmt.Fprintln(p.out, scenarios.Render(f, src))
	}
	if len(c.complaints) > 0 {
		fmt.Fprintln(p.out)
	}
	verdict := "no faults"
	if faults > 0 {
		verdict = plural(faults, "fault")
	}
	if warnings > 0 {
		verdict += ", " + plural(warnings, "warning")
	}
	fmt.Fprintf(p.out, "%s checked, %s played: %s\n", plural(len(c.files), "file"), plural(c.walks, "walk-through"), verdict)
	if faults > 0 {
		return errFaults
	}
	return nil
}
