package trial

// Code is what there is to say about one finding of a verdict: what it
// means, why it matters, and what an author usually does about it. Codes are
// stable; messages may be reworded.
type Code struct {
	Name  string
	Level Level // the worst it comes at
	Means string
	Why   string
	Do    string
}

// Codes lists every code that a verdict can give, in the order of a verdict.
func Codes() []Code { return append([]Code(nil), verdictCodes...) }

// CodeNamed is what there is to say about a code.
func CodeNamed(name string) (Code, bool) {
	for _, c := range verdictCodes {
		if c.Name == name {
			return c, true
		}
	}
	return Code{}, false
}

var verdictCodes = []Code{
	{"cannot-be-won", Fault,
		"No simulated expert passes, and no walk-through of the case does.",
		"A learner who does everything right fails all the same, and learns that care is not rewarded.",
		"Look at the rule or the points that the finding names. Play the run it shows; then mend the rule, the pass mark or the times of the case, and write a walk-through that passes."},
	{"nothing-passes", Fault,
		"One who does nothing at all passes.",
		"The pass mark can be had without any care being given.",
		`Let the rules apply only to what was done, with "applies when", or make critical what must happen, such as that the drug ran.`},
	{"unreachable-rule", Fault,
		"A rule applied in no run and no walk-through, or it applied and nobody met it. Where leaks come by luck and few runs leaked it is a caution.",
		"A rule that never applies teaches nothing. One that nobody meets takes points from everybody.",
		`Read the condition aloud and look each fact up with "blanch explain fact". Write a walk-through that meets the rule, or leave the rule out. Where leaks come by luck, try more runs with --runs.`},
	{"both-ace-it", Fault,
		"Expert and hurried novice both pass in nearly every run.",
		"Passing does not say that the learner can do the job.",
		"Find what the novice does wrong in the run that is shown, and write a rule that loses points for it; make it critical when it can hurt."},
	{"no-discrimination", Fault,
		"The points of experts and of hurried novices lie too close together. Cliff's delta is 1 when every expert is above every novice, and 0 when chance decides.",
		"A score that does not part experts from novices measures something else.",
		"Give points to what experts do and hurried novices leave out: proving the line, checking on schedule, answering the leak. Take them from what both do."},
	{"expert-seldom-passes", Caution,
		"The case can be won, but fewer than half of the simulated experts pass.",
		"Either the case asks for something that its words do not tell, or luck decides, or the simulated expert does not know this kind of case.",
		"Play the run that is shown and read which rule was lost. When the words of the case did not tell the expert what to do, mend the words. When the expert is wrong, say so in a walk-through and let the case stand."},
	{"treating-everything-passes", Caution,
		"One who takes every arm for leaking passes.",
		"Needless treatment costs a vein, time and trust, and such a learner has not learned to tell a sound arm from a leaking one.",
		`Use the fragment no-needless-treatment, or write a critical rule with "not wrongly_named".`},
	{"chance-passes", Caution,
		"One who chooses at random, or always takes the worst choice, passes.",
		"What passes by chance shows no skill.",
		"Play the run that is shown. Raise the pass mark, or make critical what a passing run must not lack."},
	{"bad-habit-passes", Note,
		"Learners with one bad habit pass in more than half of the runs.",
		"One slip among many right things may rightly pass; a slip that this case is meant to catch should not.",
		"Ask of each whether the case is about that habit. When it is, write a critical rule; when not, leave it."},
	{"critical-never-failed", Note,
		"Nobody ever failed a critical rule.",
		"It may be so easy that it tells nothing, or the simulated learners do not make that mistake.",
		"Write a walk-through that loses the rule. When none can be written, the rule is not needed."},
	{"always-met", Note,
		"A rule was met whenever it applied.",
		"It adds the same points to everybody and parts nobody from anybody.",
		"Keep it when its text teaches. Else make it stricter, give it fewer points, or leave it out."},
	{"other-policies", Note,
		"A rule that reads the policy applied nowhere under this one.",
		"It may be sound and only wait for a policy that asks for it.",
		"Try the case under a policy that does: blanch try CASE --policy NAME."},
	{"never-possible", Note,
		"Learners tried an action, and it was refused each time.",
		"What a learner sees may suggest something that the place does not have.",
		"See whether the place should have it. Otherwise leave it: a refusal has its reason and teaches too."},
	{"never-taken", Note,
		"An action that a rule or a walk-through names was taken by no simulated learner.",
		"Rules about it were tried by the walk-throughs alone, or by nothing.",
		"See that a walk-through takes it. The simulated learners do not know every action, so often nothing is to be done."},
	{"ending-not-reached", Note,
		"No run came to one of the other endings of the case.",
		"A learner may never read its text, or it comes from a chance that is small.",
		"Try more runs with --runs, or look at the chance that the ending has."},
}
