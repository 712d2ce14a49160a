package quiz

import (
	"fmt"
	"strings"

	"blanch/sim/drug"
)

// when says in a sentence under which policies something is so: "where the
// policy asks that the bag is changed within 6 h".
func when(limit, condition string) string {
	condition = strings.Join(strings.Fields(condition), " ")
	of, rest, _ := strings.Cut(condition, " ")
	if _, known := drug.Named(of); !known {
		of, rest = "", condition
	}
	how, value := "", ""
	for _, h := range []string{"at most", "at least", "over", "under", "has no", "has", "is", "unsaid", "otherwise"} {
		if rest == h || strings.HasPrefix(rest, h+" ") {
			how, value = h, strings.TrimSpace(strings.TrimPrefix(rest, h))
			break
		}
	}
	switch {
	case how == "otherwise":
		return "under any other policy"
	case how == "unsaid" && of != "":
		return "where the policy says nothing about " + of
	case how == "unsaid":
		return "where the policy says nothing about it"
	case how == "has" || how == "has no":
		return "where the policy " + holds(limit, value, how == "has")
	case how == "is" && choices[limit][value] != "":
		return "where the policy " + choices[limit][value]
	}
	if limit == "change bag after" && (how == "at most" || how == "under") {
		return "where the policy asks that the bag is changed within " + value
	}
	says, known := amounts[limit]
	if !known {
		return fmt.Sprintf("where the policy's limit for %q is %s", limit, amount(how, value))
	}
	if of != "" {
		says = strings.Replace(says, "DRUG", of, 1)
	}
	return "where the policy " + fmt.Sprintf(says, amount(how, value))
}

// amount is a number as it is held against a limit.
func amount(how, value string) string {
	switch how {
	case "at most":
		return value + " or less"
	case "at least":
		return value + " or more"
	case "over":
		return "more than " + value
	case "under":
		return "less than " + value
	}
	return value
}

// amounts is what a policy does by each limit that is a number.
var amounts = map[string]string{
	"longest run":           "lets such a line run for %s",
	"decide by":             "gives %s to decide what comes next",
	"check early":           "lets %s pass between the first checks of the arm",
	"check later":           "lets %s pass between later checks of the arm",
	"backup by":             "gives %s to find a second line",
	"start by":              "gives %s to start the drug",
	"antidote by":           "gives %s until the antidote is in",
	"change bag after":      "lets a bag hang for %s",
	"shortest cannula":      "sets the shortest cannula at %s",
	"least vein":            "sets the least width of the vein at %s",
	"least share":           "sets the least share of the cannula in the vein at %s",
	"rate step":             "has pumps set by steps of %s",
	"tolerance":             "lets a sum be off by %s",
	"highest concentration": "sets the highest concentration of DRUG at %s",
	"highest dose":          "sets the highest dose of DRUG at %s",
}

// choices is what a policy does by each limit that is a word.
var choices = map[string]map[string]string{
	"dosing weight": {
		"actual": "goes by the actual weight", "ideal": "goes by the ideal weight", "stated": "goes by the weight as it is stated",
	},
	"line shared with": {
		"nothing": "lets nothing else into the line", "flush": "lets a flush and nothing else into the line", "other-vasopressor": "lets another vasopressor into the line",
	},
	"blood return while running": {
		"never":            "says that blood return is never tested while the drug runs",
		"allowed":          "allows a test of blood return while the drug runs",
		"with every check": "asks for a test of blood return with every check",
	},
	"withdraw first": {
		"true": "asks that the drug's volume is taken out of the bag first", "false": "has the drug added to the full bag",
	},
}

// checked is when a second person checks.
var checked = map[string]string{
	"bag": "of the bag", "pump": "of the pump", "set-up": "at the first start", "new-bag": "of each further bag",
	"new-concentration": "of each bag of another strength", "changeover": "when the pump is moved to another line", "handover": "at each handover",
}

// sites are those whose short name is no plain word.
var sites = map[string]string{"fossa": "the crook of the elbow (fossa)", "upper-arm": "the upper arm"}

// holds is what a policy does that has something on a list, or within a range,
// or has it not.
func holds(limit, value string, yes bool) string {
	does := func(verb, what string) string {
		if yes {
			return verb + "s " + what
		}
		return "does not " + verb + " " + what
	}
	switch limit {
	case "sites":
		where, known := sites[value]
		if !known {
			where = "the " + value
		}
		return does("allow", where)
	case "gauges":
		return does("allow", "a "+value+" gauge cannula")
	case "second checks":
		when, known := checked[value]
		if !known {
			when = "at " + value
		}
		return does("ask", "for a second check "+when)
	case "antidote for":
		if value == "leak" && yes {
			return "gives the antidote for any sign of a leak"
		}
		if value == "leak" {
			return "keeps the antidote for some signs of a leak"
		}
		return does("give", "the antidote for "+strings.ReplaceAll(value, "-", " "))
	case "other antidotes":
		return does("name", value+" as another antidote")
	case "antidote dose":
		return does("allow", value+" of the antidote")
	case "antidote volume":
		return does("allow", "the antidote to be made up to "+value)
	case "highest concentration", "highest dose":
		return does("set", "a "+limit+" for "+value)
	}
	return does("name", value+" under "+limit)
}
