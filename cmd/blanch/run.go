package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"
	"syscall"

	"github.com/spf13/cobra"

	"blanch/cmd/blanch/internal/prompt"
	"blanch/cmd/blanch/internal/session"
	"blanch/cmd/blanch/internal/store"
	"blanch/cmd/blanch/internal/ui"
)

// Exit codes, as documented by "blanch help exit-codes".
const (
	exitFine        = 0
	exitFaults      = 1
	exitUsage       = 2
	exitUnreadable  = 3
	exitInterrupted = 4
	exitBroken      = 5
)

const exitCodes = `Exit codes:
  0  all is well; an attempt that was left with quit is saved and counts as well,
     and so do a quiz that was left with q, an assessment whatever its result,
     and watching that is ended with Ctrl-C
  1  check found faults (with --strict, warnings too), the verdict of try has a
     fault, a calibration row failed, a row of sums differs or cannot be read, or
     a replay differs from what was stored
  2  the command was not understood
  3  a file cannot be read or written, is in use, was refused with the reasons
     shown, or stands where a new one would be written; of an attempt that could
     not be saved it says from when on
  4  interrupted by Ctrl-C or a signal; the attempt is saved, and the answers of
     a quiz are kept
  5  a fault in blanch itself; the attempt is saved
`

// program is one run of the command with its ends.
type program struct {
	in       io.Reader
	out, err io.Writer
}

// codeError is an error with the exit code it leads to.
type codeError struct {
	code int
	err  error
}

func (e *codeError) Error() string { return e.err.Error() }
func (e *codeError) Unwrap() error { return e.err }

// unreadable marks an error about a file.
func unreadable(err error) error {
	if err == nil {
		return nil
	}
	return &codeError{exitUnreadable, err}
}

// misused is an error about how the command was called.
func misused(format string, args ...any) error {
	return &codeError{exitUsage, fmt.Errorf(format, args...)}
}

// ofTheDisk says that an error came from the system's files, whoever met it.
func ofTheDisk(err error) bool {
	var path *fs.PathError
	var link *os.LinkError
	var call *os.SyscallError
	var number syscall.Errno
	return errors.As(err, &path) || errors.As(err, &link) || errors.As(err, &call) || errors.As(err, &number)
}

// errFaults ends a command whose report has been printed already.
var errFaults = errors.New("faults were found")

func run(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	p := &program{in: stdin, out: stdout, err: stderr}
	root := p.root()
	root.SetArgs(append([]string{}, args...)) // nil would stand for the arguments of the process
	root.SetIn(stdin)
	root.SetOut(stdout)
	root.SetErr(stderr)
	return p.code(root.Execute())
}

// code reports an error and gives the exit code for it.
func (p *program) code(err error) int {
	var with *codeError
	var refused *session.RefusedError
	var broken *ui.PanicError
	switch {
	case err == nil, errors.Is(err, prompt.ErrLeft):
		return exitFine
	case errors.Is(err, errFaults):
		return exitFaults
	case errors.Is(err, prompt.ErrInterrupted), errors.Is(err, ui.ErrInterrupted):
		return exitInterrupted
	case errors.As(err, &broken):
		p.complain(err)
		return exitBroken
	case errors.As(err, &refused):
		fmt.Fprintln(p.err, refused.Report)
		return exitUnreadable
	case errors.Is(err, store.ErrInUse):
		p.complain(err)
		return exitUnreadable
	case errors.As(err, &with):
		p.complain(err)
		if with.code == exitUsage {
			fmt.Fprintln(p.err, "blanch help says how it is used")
		}
		return with.code
	case ofTheDisk(err):
		p.complain(err)
		return exitUnreadable
	}
	p.complain(err)
	return exitBroken
}

// complain tells an error; it may hold what stands in a recording.
func (p *program) complain(err error) {
	fmt.Fprintf(p.err, "blanch: %s\n", session.Harmless(err.Error()))
}

func (p *program) root() *cobra.Command {
	var how faces
	root := &cobra.Command{
		Use:   "blanch",
		Short: "Rehearse a vasopressor in an arm vein before you run one",
		Long: "blanch plays invented patients in simulated time, marks what you decide, and checks cases that\neducators write.\n\n" +
			session.Caution + "\n" + session.Skin + "\n\nAlone it shows the cases and any attempt that waits to be resumed.",
		Args:          cobra.NoArgs,
		SilenceErrors: true,
		SilenceUsage:  true,
		RunE:          func(*cobra.Command, []string) error { return p.home(how) },
	}
	flags := root.PersistentFlags()
	flags.BoolVar(&how.plain, "plain", os.Getenv("BLANCH_PLAIN") != "",
		"plain lines for screen readers; waits jump at once (also BLANCH_PLAIN=1)")
	flags.BoolVar(&how.lines, "lines", os.Getenv("BLANCH_LINES") != "",
		"sentences at a prompt instead of the screen (also BLANCH_LINES=1)")
	flags.BoolVar(&how.ascii, "ascii", os.Getenv("BLANCH_ASCII") != "",
		"draw the screen with ASCII only, as it is anyway where the locale is not UTF-8 (also BLANCH_ASCII=1)")
	flags.BoolVar(&how.noColour, "no-colour", false, "no colour on the screen (also NO_COLOR=1)")
	root.CompletionOptions.HiddenDefaultCmd = true
	root.AddCommand(
		p.casesCommand(), p.playCommand(&how), p.resumeCommand(&how), p.otherHour(p.replayCommand()),
		p.policiesCommand(), p.policyCommand(),
		p.checkCommand(), p.tryCommand(), p.explainCommand(), p.schemaCommand(), p.newCommand(), p.previewCommand(),
		p.guideCommand(), p.actionsCommand(), p.calibrationCommand(), p.assumptionsCommand(), p.sumsCommand(), p.quizCommand(&how),
		&cobra.Command{Use: "exit-codes", Short: "What the exit codes mean", Long: strings.TrimRight(exitCodes, "\n")},
	)
	root.InitDefaultHelpCmd()
	root.InitDefaultCompletionCmd()
	root.SetFlagErrorFunc(func(_ *cobra.Command, err error) error { return misused("%w", err) })
	countArgs(root)
	return root
}

// countArgs lets a wrong number of arguments be a command that was not
// understood, in a command and in those below it.
func countArgs(cmd *cobra.Command) {
	if count := cmd.Args; count != nil {
		cmd.Args = func(cmd *cobra.Command, args []string) error {
			if err := count(cmd, args); err != nil {
				return misused("%w", err)
			}
			return nil
		}
	}
	for _, below := range cmd.Commands() {
		countArgs(below)
	}
}
