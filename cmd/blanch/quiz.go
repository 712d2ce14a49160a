package main

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"time"

	"github.com/spf13/cobra"

	"blanch/cmd/blanch/internal/progress"
	"blanch/cmd/blanch/internal/prompt"
	"blanch/cmd/blanch/internal/quiz"
	"blanch/cmd/blanch/internal/review"
	"blanch/cmd/blanch/internal/session"
	"blanch/cmd/blanch/internal/store"
	"blanch/cmd/blanch/internal/ui"
	"blanch/content"
)

func (p *program) quizCommand(how *faces) *cobra.Command {
	var o quiz.Options
	policy, sheet := "", ""
	c := &cobra.Command{
		Use:   "quiz [UNIT]",
		Short: "Practise by questions, unit by unit, with reviews spaced over days",
		Long: `Asks questions of one unit of study, or of all: line, mix, sums, watch, respond,
bridge. Reviews that are due come first, then new questions of the lowest unit
that is not mastered, up to a day's share. Sums have other numbers each time.
Each answer is kept at once, in reviews.ndjson in the folder of the attempts;
q and Ctrl-C leave, and nothing that was answered is lost.

With --assess it is an assessment: no hints, no explanations before the end, no
second try, and a result sheet at the end. Its questions are drawn by lot. The
sheet is kept in the folder of the attempts, beside reviews.ndjson, or in the
file that --sheet names.

With --questions N it asks up to N, also when the day's share is done.

For training only: every patient, bag and order is invented. Nothing here advises
on a real patient; local policy and licensed practice decide.`,
		Args: cobra.MaximumNArgs(1),
		ValidArgsFunction: func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			var units []string
			for _, u := range review.Units() {
				units = append(units, u.String())
			}
			return units, cobra.ShellCompDirectiveNoFileComp
		},
		RunE: func(cmd *cobra.Command, args []string) (err error) {
			if len(args) > 0 {
				if o.Unit, err = review.ParseUnit(args[0]); err != nil {
					return misused("%w", err)
				}
			}
			if o.Questions < 0 || cmd.Flags().Changed("questions") && o.Questions == 0 {
				return misused("--questions is %d: ask for 1 or more", o.Questions)
			}
			if !cmd.Flags().Changed("seed") {
				o.Seed = uint64(rand.Uint32())
			}
			if o.Policy, err = session.PolicyNamed(policy); err != nil {
				return unreadable(err)
			}
			o.Plain = how.plain
			if cmd.Flags().Changed("sheet") && !o.Assess {
				return misused("--sheet is for the result sheet of an assessment: give --assess as well")
			}
			if o.Assess {
				if o.Keep, err = p.keepSheet(sheet); err != nil {
					return err
				}
			}
			return p.quiz(o, *how)
		},
	}
	c.Flags().StringVar(&policy, "policy", content.Policies()[0], "the `policy` that decides where sources disagree, an ID or the path of a file")
	c.Flags().IntVar(&o.Questions, "questions", 0, "up to `N` questions, also past the day's share of new ones (otherwise that share, or 10 of an assessment)")
	c.Flags().StringVar(&sheet, "sheet", "", "keep the result sheet of an assessment in `FILE`")
	c.Flags().BoolVar(&o.Assess, "assess", false, "an assessment: nothing is explained before its end")
	c.Flags().Uint64Var(&o.Seed, "seed", 0, "draw numbers and orders by this seed")
	c.AddCommand(p.quizProgressCommand())
	return c
}

// quiz sits one sitting, on a screen where there is one.
func (p *program) quiz(o quiz.Options, f faces) error {
	s, err := p.questionsFor(o)
	if err != nil {
		return err
	}
	if p.screened(f) {
		err := p.screen(ui.Opening{Sitting: s}, f)
		if !s.Over() {
			p.say(s.Left())
		}
		return err
	}
	face, err := p.open(o.Plain)
	if err != nil {
		return err
	}
	defer face.Close()
	err = face.Quiz(s)
	if err == nil || errors.Is(err, prompt.ErrLeft) || errors.Is(err, prompt.ErrInterrupted) {
		return err
	}
	return unreadable(fmt.Errorf("the answer was not kept: %w", err))
}

// questionsFor is a sitting on what there is and what this learner has answered.
func (p *program) questionsFor(o quiz.Options) (s *quiz.Sitting, err error) {
	if o.Tasks, o.Progress, err = p.questions(); err != nil {
		return nil, err
	}
	o.Now = time.Now
	return quiz.New(o)
}

// study is how far this learner is.
func (p *program) study() (quiz.Study, error) {
	tasks, kept, err := p.questions()
	if err != nil {
		return quiz.Study{}, err
	}
	return quiz.StudyOf(tasks, kept, time.Now())
}

// practice is a sitting as home begins it: a unit or all of them, the usual
// policy.
func (p *program) practice(unit int) (*quiz.Sitting, error) {
	policy, err := session.PolicyNamed(content.Policies()[0])
	if err != nil {
		return nil, err
	}
	return p.questionsFor(quiz.Options{Unit: review.Unit(unit), Policy: policy, Seed: uint64(rand.Uint32())})
}

// say writes lines as the face of lines does.
func (p *program) say(lines []session.Line) {
	face, err := prompt.Open(p.in, p.out, prompt.Options{Plain: true})
	if err == nil { // plain lines need no terminal, so it is nil
		face.Lines(lines)
		face.Close()
	}
}

// questions are those that there are, and what this learner has answered.
func (p *program) questions() ([]quiz.Task, *progress.Progress, error) {
	tasks, err := quiz.Questions()
	if err != nil {
		return nil, nil, &codeError{exitBroken, err}
	}
	home, err := store.Home()
	if err != nil {
		return nil, nil, unreadable(err)
	}
	kept, err := progress.Open(progress.Path(home))
	return tasks, kept, unreadable(err)
}

func (p *program) quizProgressCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "progress",
		Short: "Show how far each unit of study is, and what is due when",
		Args:  cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			tasks, kept, err := p.questions()
			if err != nil {
				return err
			}
			lines, err := quiz.Standing(tasks, kept, time.Now())
			if err != nil {
				return &codeError{exitBroken, err}
			}
			p.say(lines)
			return nil
		},
	}
}
