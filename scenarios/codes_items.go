package scenarios

// itemCodes are about items: that they have a right answer.
var itemCodes = []Code{
	{Name: "no-items", Level: Error, In: "items", Whole: true,
		Means:  "The file holds no items.",
		Fails:  "format: 1\nitems: new-items\nunit: line\ntitle: Still empty\n",
		Mended: "format: 1\nitems: new-items\nunit: line\ntitle: Still empty\nordering:\n  one: {objective: Put steps in order, level: first, critical: false, sources: [Common practice], stem: A line leaks., lead-in: \"In what order?\", steps: {a: Stop., b: Draw back., c: Tell.}, because: Harm stops first.}\n",
	},
	{Name: "option-count", Level: Error, In: "items",
		Means:  "An item has fewer than three options or more than five. With two one guesses; a sixth is hardly ever one that anybody would choose.",
		At:     "      - option: It needs a doctor's signature\n        because: No policy here ties a site to a signature. Sites are on the list, or they are not.\n",
		Fails:  "",
		Mended: "      - option: It needs a doctor's signature\n        because: No policy here ties a site to a signature. Sites are on the list, or they are not.\n",
	},
	{Name: "duplicate-option", Level: Error, In: "items",
		Means:  "Two options, or two steps, say the same. Capitals, spaces and commas make no difference.",
		Fails:  "      - option: 25 mm\n        because: 5 mm of 19 mm",
		At:     "      - option: 19 mm\n        because: 5 mm of 19 mm",
		Mended: "      - option: 19 mm\n        because: 5 mm of 19 mm",
	},
	{Name: "one-key", Level: Error, In: "items",
		Means:  "An item without a policy that decides has no key, or more than one. One option is the best.",
		Fails:  "        key: false",
		Mended: "        key: true",
	},
	{Name: "one-view", Level: Error, In: "items",
		Means: "Where the key follows the policy, sources disagree, and learners are shown what each of them holds. At least two views are needed, and one alone is no disagreement.",
		At:    "      - {holds: The antecubital vein is preferred., by: US norepinephrine label}\n",
		Fails: "", Mended: "      - {holds: The antecubital vein is preferred., by: US norepinephrine label}\n",
	},
	{Name: "bad-condition", Level: Error, In: "items",
		Means:  "What stands under right when is not a condition on the limit that decides. A list or a range has a value or has none; a time or a length is, is at most, is over, at least or under a value.",
		Fails:  "        right when: at most fossa",
		At:     "        right when: has fossa",
		Mended: "        right when: has fossa",
	},
	{Name: "unsettled-key", Level: Error, In: "items",
		Means:  "Under some value of the limit that decides, no option of the item is right, or more than one. The values are tried: each that the conditions name, one under and one over it, each set of words, and a limit left unsaid. It is also a fault to name a limit and give a key that does not follow it, or conditions and no limit, or to leave an ordering with too few steps under some value.",
		Fails:  "        right when: has forearm",
		At:     "        right when: has no fossa",
		Mended: "        right when: otherwise",
	},
	{Name: "step-count", Level: Error, In: "items",
		Means:  "An ordering has fewer than three steps or more than eight. Two are a single best answer; more than eight are several items.",
		At:     "      draw-back: Draw back what comes through the cannula\n      mark: Mark the edge of the pale skin\n      tell: Call the prescriber about the arm and the antidote\n    may swap:\n      - [mark, tell]\n",
		Fails:  "      tell: Call the prescriber about the arm and the antidote\n",
		Mended: "      draw-back: Draw back what comes through the cannula\n      mark: Mark the edge of the pale skin\n      tell: Call the prescriber about the arm and the antidote\n    may swap:\n      - [mark, tell]\n",
	},
	{Name: "unknown-step", Level: Error, In: "items",
		Means:  "A pair that may swap names a step that the item does not have.",
		Fails:  "      - [mrak, tell]",
		Mended: "      - [mark, tell]",
	},
	{Name: "bad-swap", Level: Error, In: "items",
		Means:  "This is no pair of steps, or a pair that can never swap because a step has to stay between them.",
		Fails:  "      - [stop, tell]",
		At:     "      - [mark, tell]",
		Mended: "      - [mark, tell]",
	},
	{Name: "nothing-to-order", Level: Error, In: "items",
		Means:  "Every two steps of an ordering may swap, so every answer is right.",
		Fails:  "      - [mark, tell]\n      - [mark, stop]\n      - [mark, draw-back]\n      - [tell, stop]\n      - [tell, draw-back]\n      - [stop, draw-back]",
		At:     "      - [mark, tell]",
		Mended: "      - [mark, tell]",
	},
	{Name: "panel-votes", Level: Error, In: "items",
		Means:  "A script concordance has not five counts of votes, or nobody voted.",
		At:     concordanceAt,
		Fails:  concordanceAt + concordanceOf("[0, 1, 4, 8]"),
		Mended: concordanceAt + concordanceOf("[0, 1, 4, 8, 2]"),
	},
	{Name: "small-panel", Level: Warning, In: "items",
		Means:  "Fewer than ten people voted. Credit is a share of the votes, and so few make it a matter of chance.",
		At:     concordanceAt,
		Fails:  concordanceAt + concordanceOf("[0, 1, 2, 4, 1]"),
		Mended: concordanceAt + concordanceOf("[0, 1, 4, 8, 2]"),
	},
	{Name: "unanimous-panel", Level: Warning, In: "items",
		Means:  "The whole panel chose one point of the scale. There is no uncertainty to judge, so it is a question with a right answer.",
		At:     concordanceAt,
		Fails:  concordanceAt + concordanceOf("[0, 0, 0, 15, 0]"),
		Mended: concordanceAt + concordanceOf("[0, 1, 4, 8, 2]"),
	},
	{Name: "unsafe-notation", Level: Error, In: "items",
		Means:  "A text holds notation that has been misread with harm: a zero after the point, a decimal without a zero before it, a Greek letter for micro, U or IU, cc, a number that touches its unit, a thousand without its comma (Joint Commission, Do Not Use list; ISMP, error-prone abbreviations).",
		Fails:  "a forearm vein of 3.0 mm are found",
		At:     "a forearm vein of 3 mm are found",
		Mended: "a forearm vein of 3 mm are found",
	},
}

// The examples about panels add an item to the end of the file.
const concordanceAt = "      call makes no difference to the arm.\n"

func concordanceOf(votes string) string {
	return `
script concordance:
  quiet-pump:
    objective: Weigh a silent alarm
    level: advanced
    critical: false
    sources: [Votes that were asked of a panel on paper]
    vignette: Norepinephrine runs through a forearm line. The pressure sags.
    hypothesis: The line leaks.
    information: The pressure alarm of the pump is silent.
    panel: Intensive care nurses of two units, asked on paper, each alone.
    votes: ` + votes + `
    because: Most leaks are silent.
`
}
