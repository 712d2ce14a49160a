package main

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/signal"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"blanch/cmd/blanch/internal/session"
	"blanch/content"
	"blanch/scenarios"
	"blanch/scoring"
	"blanch/sim"
)

// checking is what the flags of check say.
type checking struct{ strict, json, watch bool }

func (p *program) checkCommand() *cobra.Command {
	var how checking
	cmd := &cobra.Command{
		Use:   "check [PATH...]",
		Short: "Check cases, places, policies and items, and play walk-throughs",
		Long: `Checks YAML files and folders of them: every field, every rule, and every walk-through against the
marks it says it earns; of items, that each has a right answer, and what item-writing guides warn of. Without a path it checks all that comes with the program. Places and
policies that a case names are looked for among the files checked, beside the case, and in the
program's own, by their names. Every complaint is shown with file:line:column and a code; "blanch explain CODE"
says what the code means.

An error is a fault. A warning is one only with --strict, and a note never. With --json the
complaints come as one JSON document, each with file, line, column, end_column, level, code, said,
allowed, meant and also (the second place); columns count characters from 1, and end_column stands
behind the last one. With --watch the files are checked again whenever one of them changes, until Ctrl-C,
and simulated learners try each case without a fault a few times, as in "blanch try".

Exit codes: 0 no faults; 1 faults; 2 the command was not understood; 3 a file cannot be read.
Watching ends with 0.`,
		RunE: func(cmd *cobra.Command, args []string) error {
			if how.watch {
				if len(args) == 0 {
					return misused("watch what? name files or folders: blanch check --watch PATH")
				}
				ctx, stop := signal.NotifyContext(cmd.Context(), os.Interrupt)
				defer stop()
				return p.watch(ctx, args, how)
			}
			c, err := check(args)
			if err != nil {
				return unreadable(err)
			}
			return c.report(p.out, how)
		},
	}
	f := cmd.Flags()
	f.BoolVar(&how.strict, "strict", false, "let warnings fail as errors do")
	f.BoolVar(&how.json, "json", false, "print one JSON document, for editors and other programs")
	f.BoolVar(&how.watch, "watch", false, "check again on every change, until Ctrl-C")
	return cmd
}

// checker collects the files, then the complaints.
type checker struct {
	files      []string // in the order given
	sources    map[string][]byte
	cases      []*scenarios.Case
	places     map[string]*sim.Place
	policies   map[string]*scenarios.Policy
	fragments  map[string]*scenarios.Fragment
	walks      int
	complaints []scenarios.Complaint
}

// check reads and checks files and folders, or all that is shipped when
// none is named. The error is for what cannot be read.
func check(paths []string) (*checker, error) {
	c := newChecker()
	err := c.readPaths(paths)
	if len(paths) == 0 {
		err = c.readContent()
	}
	if err != nil {
		return nil, err
	}
	c.check()
	return c, nil
}

func newChecker() *checker {
	return &checker{sources: map[string][]byte{}, places: map[string]*sim.Place{}, policies: map[string]*scenarios.Policy{}, fragments: map[string]*scenarios.Fragment{}}
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
	}{{content.Policies(), content.Policy}, {content.Places(), content.Place}, {content.FragmentNames(), content.Fragment}, {content.Cases(), content.Case}, {content.ItemNames(), content.ItemFile}} {
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
		if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("%s: there is no file or folder of that name; what comes with the program is checked by blanch check alone", path)
		}
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
			return fmt.Errorf("%s: no case, place, policy, fragment or items in this folder: files end in .yaml and begin with format: 1", path)
		}
	}
	return nil
}

func (c *checker) check() {
	var cases []string
	for _, file := range c.files {
		src := c.sources[file]
		c.notWrittenOver(file, src)
		switch scenarios.Kind(src) {
		case "fragment":
			c.loadFragment(file, src)
		case "place":
			c.loadPlace(file, src)
		case "policy":
			c.loadPolicy(file, src)
		case "cohorts":
			_, faults := scenarios.LoadCohorts(file, src)
			c.complaints = append(c.complaints, faults...)
		case "items":
			_, faults := scenarios.LoadItems(file, src)
			c.complaints = append(c.complaints, faults...)
		default:
			cases = append(cases, file)
		}
	}
	for _, file := range cases {
		src := c.sources[file]
		loaded, faults := scenarios.LoadCase(file, src, c.fragmentsFor(file, src))
		c.complaints = append(c.complaints, faults...)
		if loaded != nil {
			c.cases = append(c.cases, loaded)
		}
	}
	for _, one := range c.cases {
		c.checkCase(one)
	}
	c.sort()
}

func (c *checker) loadPlace(file string, src []byte) *sim.Place {
	place, faults := scenarios.LoadPlace(file, src)
	c.complaints = append(c.complaints, faults...)
	if place != nil {
		c.places[place.ID] = place
	}
	return place
}

func (c *checker) loadPolicy(file string, src []byte) *scenarios.Policy {
	policy, faults := scenarios.LoadPolicy(file, src)
	c.complaints = append(c.complaints, faults...)
	if policy != nil {
		c.policies[policy.ID] = policy
	}
	return policy
}

// sort puts the complaints in the order of the files, and within a file in
// the order of its lines. What another complaint is the cause of comes right
// behind it.
func (c *checker) sort() {
	order := map[string]int{}
	for i, file := range c.files {
		order[file] = i - len(c.files) // files that were looked up come last
	}
	stands := func(f scenarios.Complaint) scenarios.Pos {
		if f.Follows.Line > f.Pos.Line && f.Follows.File == f.Pos.File {
			return f.Follows
		}
		return f.Pos
	}
	slices.SortStableFunc(c.complaints, func(a, b scenarios.Complaint) int {
		at, than := stands(a), stands(b)
		return cmp.Or(order[at.File]-order[than.File], strings.Compare(at.File, than.File),
			at.Line-than.Line, at.Column-than.Column)
	})
}

// checkCase checks what a case means together with its place and policies.
func (c *checker) checkCase(one *scenarios.Case) {
	policy, known := c.policy(one.File, one.Policy)
	if !known {
		c.unknown(one, "policy", one.Policy, content.Policies())
		return
	}
	place, known := c.place(one.File, one.Place)
	if !known {
		c.unknown(one, "place", one.Place, content.Places())
		return
	}
	if policy == nil || place == nil {
		return // found, and its faults are told
	}
	faults := slices.Concat(scoring.Check(one, policy), scenarios.CheckPlace(one, place))
	for _, f := range faults {
		if f.Pos.File == one.File || !slices.Contains(c.complaints, f) { // a fragment's fault is told once
			c.complaints = append(c.complaints, f)
		}
	}
	if len(faults) > 0 {
		return
	}
	c.walks += len(one.Walks)
	c.complaints = append(c.complaints, scoring.CheckWalks(one, place, func(id string) (*scenarios.Policy, bool) {
		p, _ := c.policy(one.File, id)
		return p, p != nil
	})...)
}

// unknown complains about the name of a place or a policy.
func (c *checker) unknown(one *scenarios.Case, what, id string, known []string) {
	c.complaints = append(c.complaints, scenarios.Complaint{
		Level: scenarios.Error, Code: "unknown-" + what, Pos: one.Where(what),
		Said:    fmt.Sprintf("there is no %s called %q", what, id),
		Allowed: "one of: " + strings.Join(known, ", ") + ", or a file beside the case",
		Meant:   scenarios.Nearest(id, known),
	})
}
