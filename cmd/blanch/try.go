package main

import (
	"errors"
	"fmt"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"blanch/cmd/blanch/internal/session"
	"blanch/cmd/blanch/internal/trial"
	"blanch/scoring"
)

// Runs of each kind of learner: usually, and while a file is watched.
const (
	tryRuns   = 100
	mostTries = 100_000
	watchRuns = 20
)

// trying is what the flags of try say.
type trying struct {
	policy, show, script string
	runs                 int
	seed                 uint64
	json                 bool
}

func (p *program) tryCommand() *cobra.Command {
	o := trying{}
	var kinds strings.Builder
	for _, k := range trial.Kinds() {
		fmt.Fprintf(&kinds, "  %-20s%s\n", k.ID, k.Says)
	}
	cmd := &cobra.Command{
		Use:   "try CASE...",
		Short: "Let simulated learners play a case before a real one does",
		Long: `Lets simulated learners of many kinds play a case many times, and says whether it can be won, whether
doing nothing or the wrong thing passes, which rules nobody reaches, and whether it tells an expert
from a hurried novice. Each finding names a run that shows it, and the command that prints that run.
CASE is an ID of the list or the path of a YAML file. The same command gives the same report. With
--json it is one document, and a list of them for several cases.

  blanch try night-bridge                              the report
  blanch try night-bridge --show expert --seed 7       one run: its journal and marks
  blanch try night-bridge --show expert --seed 7 --script-out run.txt
  blanch play night-bridge --script run.txt --seed 7   the same run, to play with

The kinds of learner:

` + kinds.String() + `
They see what a learner sees and nothing else. What they do is assumed: the figures describe the
case and the model, never people or patients.

Exit codes: 0 no faults, cautions or not; 1 the verdict has a fault; 2 the command was not
understood; 3 a file cannot be read or was refused.`,
		Args:              cobra.MinimumNArgs(1),
		ValidArgsFunction: completeCases,
		RunE: func(_ *cobra.Command, args []string) error {
			switch {
			case o.runs < 2 || o.runs > mostTries:
				return misused("--runs %d: too few or too many; 2 to %d runs of each kind", o.runs, mostTries)
			case o.script != "" && o.show == "":
				return misused("--script-out writes the script of one run: say which with --show KIND and --seed N")
			case o.show != "" && o.json:
				return misused("--show prints one run; --json is for the report")
			case o.show != "" && len(args) > 1:
				return misused("--show prints one run: name one case")
			case o.show != "":
				return p.showTry(args[0], o)
			}
			return p.try(args, o)
		},
	}
	f := cmd.Flags()
	f.StringVar(&o.policy, "policy", "", "play and mark under this policy, an `ID or file`, instead of the case's own")
	f.IntVar(&o.runs, "runs", tryRuns, "runs of each kind of learner")
	f.Uint64Var(&o.seed, "seed", 1, "the luck of the first run; each run after it has the next seed")
	f.BoolVar(&o.json, "json", false, "print the report as one JSON document")
	f.StringVar(&o.show, "show", "", "print journal and marks of the run of this `kind` of learner under --seed")
	f.StringVar(&o.script, "script-out", "", "with --show: also write the run as a script into this `file`")
	cmd.RegisterFlagCompletionFunc("show", func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		var out []string
		for _, k := range trial.Kinds() {
			out = append(out, k.ID)
		}
		return out, cobra.ShellCompDirectiveNoFileComp
	})
	return cmd
}

// study readies a case to be tried.
func study(name string, o trying) (*trial.Study, *session.Attempt, error) {
	a, err := load(name, playing{policy: o.policy, seed: o.seed})
	if err != nil {
		return nil, nil, err
	}
	s, err := trial.New(a.Case, a.Place, a.Policy)
	if err != nil {
		return nil, nil, unreadable(err)
	}
	s.Called = asTyped(name)
	if o.policy != "" {
		s.With = " --policy " + asTyped(o.policy)
	}
	return s, a, nil
}

// try prints the report on each case. It fails when any has a fault.
func (p *program) try(names []string, o trying) error {
	var reports []*trial.Report
	faulty := false
	for i, name := range names {
		s, _, err := study(name, o)
		if err != nil {
			return err
		}
		r, err := s.Try(o.runs, o.seed)
		if err != nil {
			return unreadable(err)
		}
		faulty = faulty || r.Faulty()
		reports = append(reports, r)
		if o.json {
			continue
		}
		if i > 0 {
			fmt.Fprintln(p.out)
		}
		if _, err := fmt.Fprint(p.out, r.Text()); err != nil {
			return err
		}
	}
	if o.json {
		var all any = reports
		if len(reports) == 1 {
			all = reports[0]
		}
		if err := p.encode(all); err != nil {
			return err
		}
	}
	if faulty {
		return errFaults
	}
	return nil
}

// showTry prints one run, and writes its script where that is wanted.
func (p *program) showTry(name string, o trying) error {
	if _, ok := trial.KindNamed(o.show); !ok {
		var ids []string
		for _, k := range trial.Kinds() {
			ids = append(ids, k.ID)
		}
		return missed("kind of learner", o.show, ids, "there are "+strings.Join(ids, ", "))
	}
	s, a, err := study(name, o)
	if err != nil {
		return err
	}
	r, err := s.Show(o.show, o.seed)
	if err != nil {
		return unreadable(err)
	}
	if o.script != "" {
		head := fmt.Sprintf("# What %s did in %s. Plays the same with: --seed %d%s\n", o.show, a.Case.ID, o.seed, s.With)
		f, err := os.OpenFile(o.script, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
		if err != nil {
			return unreadable(err)
		}
		_, err = f.WriteString(head + scoring.Script(scoring.Inputs(r)))
		if err = errors.Join(err, f.Close()); err != nil {
			return unreadable(err)
		}
	}
	_, err = fmt.Fprintf(p.out, "%s\n\n%s\n%s", session.Caution, session.Journal(r.Journal), session.Sheet(a, r))
	return err
}
