package scenarios

// cohortCodes are about tables of cohorts.
var cohortCodes = []Code{
	{Name: "unsound-cohort", Level: Error, In: "cohorts",
		Means:  "There is no cohort in the table, or the fields of a cohort do not fit each other: shares that do not make 100 %, a figure outside its own interval, a length of infusions given twice or not at all, a kind of vein that is never so wide, a cannula that cannot reach its vein.",
		Fails:  "    published: 3.4\n    least: 3.5",
		Mended: "    published: 3.4\n    least: 2.5",
	},
}
