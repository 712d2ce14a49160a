package scenarios

// wordingCodes are about how items are worded: what item-writing guides warn
// of and a program can see.
var wordingCodes = []Code{
	{Name: "no-question", Level: Error, In: "items",
		Means:  "The lead-in is not a question. With a question, the answer can be thought of before the options are read.",
		Fails:  "    lead-in: What that policy says about the elbow",
		At:     "    lead-in: What does that policy say about the elbow?",
		Mended: "    lead-in: What does that policy say about the elbow?",
	},
	{Name: "unfocused-lead-in", Level: Warning, In: "items",
		Means:  "The lead-in asks which option is true. Such an item is several questions about different things, and none can be answered with the options covered.",
		Fails:  "    lead-in: Which of the following is true?",
		At:     "    lead-in: What does that policy say about the elbow?",
		Mended: "    lead-in: What does that policy say about the elbow?",
	},
	{Name: "negative-lead-in", Level: Warning, In: "items",
		Means:  "The lead-in asks for what does not hold: not, except, never, least likely. It is misread, and it shows what a learner can rule out, not what a learner would do.",
		Fails:  "    lead-in: What does that policy not say about the elbow?",
		At:     "    lead-in: What does that policy say about the elbow?",
		Mended: "    lead-in: What does that policy say about the elbow?",
	},
	{Name: "sum-of-options", Level: Error, In: "items",
		Means:  "An option is about the other options: all of the above, none of these. Whoever sees two right ones has the key, and after shuffling there is no above.",
		Fails:  "      - option: None of the above",
		At:     "      - option: It needs a doctor's signature",
		Mended: "      - option: It needs a doctor's signature",
	},
	{Name: "absolute-option", Level: Warning, In: "items",
		Means:  "An option has always, never, only or the like. Readers who know nothing take it for wrong, and they are right too often.",
		Fails:  "      - option: It always needs a doctor's signature",
		At:     "      - option: It needs a doctor's signature",
		Mended: "      - option: It needs a doctor's signature",
	},
	{Name: "vague-option", Level: Warning, In: "items",
		Means:  "An option has usually, often, rarely or the like. Readers take such words for very different shares.",
		Fails:  "      - option: It often needs a doctor's signature",
		At:     "      - option: It needs a doctor's signature",
		Mended: "      - option: It needs a doctor's signature",
	},
	{Name: "long-key", Level: Warning, In: "items",
		Means:  "The key is the longest option by far: over one and a half times the median. Writers make the right option exact and let the others be short, and readers notice.",
		Fails:  "      - option: It may be used, as long as the joint is watched for movement and the dressing lets it be seen",
		At:     "      - option: It may be used",
		Mended: "      - option: It may be used",
	},
	{Name: "word-only-in-key", Level: Warning, In: "items",
		Means:  "A word of the stem or the lead-in comes back in the key and in no other option, so that the key is found by its sound.",
		Fails:  "      - option: 45 mm under ultrasound",
		At:     "      - option: 45 mm",
		Mended: "      - option: 45 mm",
	},
	{Name: "unordered-numbers", Level: Warning, In: "items",
		Means:  "The options are numbers of one unit and do not stand in their order, so that reading them takes care which has nothing to do with the question.",
		Fails:  "      - option: 52 mm\n        because: 5 mm of 19 mm",
		At:     "      - option: 19 mm\n        because: 5 mm of 19 mm",
		Mended: "      - option: 19 mm\n        because: 5 mm of 19 mm",
	},
	{Name: "article-mismatch", Level: Warning, In: "items",
		Means:  "The lead-in ends in a or an, which fits some of the options alone.",
		Fails:  "    lead-in: Is the cannula to choose then an?",
		At:     "    lead-in: Which length puts about two thirds of itself into the vein?",
		Mended: "    lead-in: Which length puts about two thirds of itself into the vein?",
	},
	{Name: "odd-beginning", Level: Warning, In: "items",
		Means:  "All options but one begin with the same word. The odd one out is taken for the key, or for the filler.",
		Fails:  "      - option: About 19 mm\n        because: 5 mm of 19 mm would lie in the vein; the first movement pulls it out.\n      - option: About 25 mm\n        because: 11 mm of 25 mm would lie in the vein, under half.\n      - option: About 32 mm\n",
		At:     "      - option: 19 mm\n        because: 5 mm of 19 mm would lie in the vein; the first movement pulls it out.\n      - option: 25 mm\n        because: 11 mm of 25 mm would lie in the vein, under half.\n      - option: 32 mm\n",
		Mended: "      - option: 19 mm\n        because: 5 mm of 19 mm would lie in the vein; the first movement pulls it out.\n      - option: 25 mm\n        because: 11 mm of 25 mm would lie in the vein, under half.\n      - option: 32 mm\n",
	},
	{Name: "mixed-full-stops", Level: Warning, In: "items",
		Means:  "Some options end with a full stop and some do not. What was written at another time stands out.",
		Fails:  "      - option: It needs a doctor's signature.",
		At:     "      - option: It needs a doctor's signature",
		Mended: "      - option: It needs a doctor's signature",
	},
	{Name: "key-positions", Level: Warning, In: "items", Whole: true,
		Means:  "The keys of a file with eight items or more stand in one place too often, or hardly ever. Whoever guesses that place wins. Items whose key follows a policy are left out.",
		Fails:  keyPositions("11111122"),
		Mended: keyPositions("12312312"),
	},
}

// keyPositions is a file of eight items, with the place of each one's key.
func keyPositions(places string) string {
	text := "format: 1\nitems: new-items\nunit: line\ntitle: Eight items\nsingle best answer:\n"
	for i, place := range places {
		text += "  item-" + string(rune('a'+i)) + ": {objective: Choose a cannula, level: first, critical: false, sources: [Common practice], stem: A vein is shallow., lead-in: \"Which cannula?\", options: ["
		for j, length := range []string{"30", "45", "60"} {
			key := ""
			if rune('1'+j) == place {
				key = "key: true, "
			}
			text += "{option: " + length + " mm, " + key + "because: It is " + length + " mm long.}, "
		}
		text = text[:len(text)-2] + "]}\n"
	}
	return text
}
