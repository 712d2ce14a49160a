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
		Short: "Check cases and all other kinds of file, and play walk-throughs",
		Long: `Checks YAML files and folders of them: every field, every rule, and every walk-through against the
marks it says it earns; of items, that each has a right answer, and what item-writing guides warn of.
A file is a ` + calledAll(scenarios.Kinds(), "or") + `. Without a path all that comes
with the program is checked. The place, the policies and the fragments that a case names are looked for among
the files checked, beside the case, and in the program's own, by their names. Every complaint is shown
with file:line:column and a code; "blanch explain CODE" says what the code means.

In a folder, a YAML file that does not begin with format: is passed over, and this is told. A file whose first
line names one of our schemas is checked all the same.

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
	passedOver []string // in folders: YAML files that are none of ours
	sources    map[string][]byte
	spelt      map[string]string // by full path, as a file was first named
	looked     map[string]stamp  // of each file that a case may have meant, from before it was read
	cases      []*scenarios.Case
	places     *shelf[sim.Place]
	policies   *shelf[scenarios.Policy]
	fragments  *shelf[scenarios.Fragment]
	walks      int
	complaints []scenarios.Complaint
}

// check reads and checks files and folders, or all that is shipped when
// none is named. The error is for what cannot be read; the checker is then of
// use only for what it looked at.
func check(paths []string) (*checker, error) {
	c := newChecker()
	err := c.readPaths(paths)
	if len(paths) == 0 {
		err = c.readContent()
	}
	if err == nil {
		err = c.check()
	}
	return c, err
}

func newChecker() *checker {
	c := &checker{sources: map[string][]byte{}, spelt: map[string]string{}, looked: map[string]stamp{}}
	c.places = newShelf(c, "place", "places", scenarios.LoadPlace, content.Place, func(p *sim.Place) string { return p.ID })
	c.policies = newShelf(c, "policy", "policies", scenarios.LoadPolicy, content.Policy, func(p *scenarios.Policy) string { return p.ID })
	c.fragments = newShelf(c, "fragment", "fragments", scenarios.LoadFragment, content.Fragment, func(f *scenarios.Fragment) string { return f.ID })
	return c
}

// spell gives a file the one name that it goes by here, however it was named.
func (c *checker) spell(file string) string {
	file = filepath.Clean(file)
	full, err := filepath.Abs(file)
	if err != nil {
		full = file
	}
	if first, named := c.spelt[full]; named {
		return first
	}
	c.spelt[full] = file
	return file
}

func (c *checker) add(file string, src []byte) {
	file = c.spell(file)
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
				c.passedOver = append(c.passedOver, c.spell(file))
				return nil
			}
			found++
			c.add(file, src)
			return nil
		})
		if err != nil {
			return err
		}
		if found == 0 {
			return fmt.Errorf("%s: no %s in this folder: files end in .yaml and begin with format: 1", path, calledAll(scenarios.Kinds(), "or"))
		}
	}
	return nil
}

// check loads and checks the files. The error is a file that a case names and
// that cannot be read.
func (c *checker) check() error {
	var cases []string
	for _, file := range c.files {
		src := c.sources[file]
		c.notWrittenOver(file, src)
		switch scenarios.Kind(src) {
		case "fragment":
			c.fragments.add(file)
		case "place":
			c.places.add(file)
		case "policy":
			c.policies.add(file)
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
		at, err := c.fragmentsFor(file, src)
		if err != nil {
			return err
		}
		loaded, faults := scenarios.LoadCase(file, src, at)
		c.complaints = append(c.complaints, faults...)
		if loaded != nil {
			c.cases = append(c.cases, loaded)
		}
	}
	for _, one := range c.cases {
		if err := c.checkCase(one); err != nil {
			return err
		}
	}
	c.sort()
	return nil
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
func (c *checker) checkCase(one *scenarios.Case) error {
	policy, known, err := c.policies.find(one.File, one.Policy)
	if err != nil {
		return err
	}
	if !known {
		c.unknown(one, "policy", one.Policy, content.Policies())
		return nil
	}
	place, known, err := c.places.find(one.File, one.Place)
	if err != nil {
		return err
	}
	if !known {
		c.unknown(one, "place", one.Place, content.Places())
		return nil
	}
	if policy == nil || place == nil {
		return nil // found, and its faults are told
	}
	faults := slices.Concat(scoring.Check(one, policy), scenarios.CheckPlace(one, place))
	for _, f := range faults {
		if f.Pos.File == one.File || !slices.Contains(c.complaints, f) { // a fragment's fault is told once
			c.complaints = append(c.complaints, f)
		}
	}
	if len(faults) > 0 {
		return nil
	}
	played := *one
	played.Walks = nil
	under := map[string]*scenarios.Policy{}
	for _, walk := range one.Walks {
		id := cmp.Or(walk.Policy, one.Policy)
		policy, known, err := c.policies.find(one.File, id)
		if err != nil {
			return err
		}
		if known && policy == nil {
			continue // found, and its faults are told
		}
		under[id] = policy
		played.Walks = append(played.Walks, walk)
	}
	c.walks += len(played.Walks)
	c.complaints = append(c.complaints, scoring.CheckWalks(&played, place, func(id string) (*scenarios.Policy, bool) {
		return under[id], under[id] != nil
	})...)
	return nil
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
