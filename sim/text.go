package sim

import (
	"fmt"
	"strings"

	"blanch/sim/quantity"
)

// Text is the entry as one plain sentence, without its time.
func (en Entry) Text() string {
	who := "You"
	if en.Who != "" {
		who = en.Who
	}
	value := ""
	if en.Unit != "" {
		value = quantity.Number(en.Value) + " " + en.Unit
	} else if en.Value != 0 {
		value = quantity.Number(en.Value)
	}
	switch en.Kind {
	case Started:
		return fmt.Sprintf("%s: %s", who, en.act())
	case Done:
		return en.doneText(value)
	case Refused:
		return fmt.Sprintf("Not possible (%s): %s.", en.Said, en.Why)
	case NotDone:
		return fmt.Sprintf("Not done after all (%s): %s.", en.Said, en.Why)
	case LeftOff:
		return fmt.Sprintf("%s left off: %s", who, en.act())
	case Found:
		return foundText(en, value)
	case Reading:
		n := quantity.Number
		return fmt.Sprintf("The monitor shows %s/%s, mean %s, pulse %s.", n(en.Sys), n(en.Dia), value, n(en.Rate))
	case Alarm:
		if en.What == "low pressure" {
			return fmt.Sprintf("Alarm: the mean pressure is low, %s.", value)
		}
		if en.What == "high pressure" {
			return fmt.Sprintf("Alarm: the mean pressure is high, %s.", value)
		}
		return fmt.Sprintf("Alarm on %s: %s.", en.Subject, en.What)
	case Asked:
		return fmt.Sprintf("Sum asked (%s, in %s): %s", en.Subject, en.Unit, en.Word)
	case Answered:
		return fmt.Sprintf("You gave %s as %s.", en.Subject, en.Word)
	case Rang:
		return fmt.Sprintf("Someone wants you (%s): %s", en.Subject, en.Word)
	case Lapsed:
		return fmt.Sprintf("Nobody went (%s): %s", en.Subject, en.Word)
	case Came:
		if en.Word != "" {
			return fmt.Sprintf("%s is at the bed: %q", en.Subject, en.Word)
		}
		return fmt.Sprintf("%s is at the bed.", en.Subject)
	case Replied:
		if value != "" && en.What != "" && en.Act != "call" {
			for _, lead := range []string{"I make that", "I make it"} { // the number belongs into what is said
				if before, after, ok := strings.Cut(en.Word, lead); ok {
					return fmt.Sprintf("%s: %q", en.Subject, before+lead+" "+value+after)
				}
			}
			return fmt.Sprintf("%s: %q: %s.", en.Subject, en.Word, value)
		}
		return fmt.Sprintf("%s: %q", en.Subject, en.Word)
	case Happened:
		if en.What == "pain" {
			return fmt.Sprintf("The patient says: %q", en.Word)
		}
		return en.Word
	case Event:
		return eventText(en)
	case Hidden:
		return hiddenText(en)
	}
	return ""
}

func (en Entry) doneText(value string) string {
	switch {
	case en.What == "cannula" && en.Word == "failed":
		return fmt.Sprintf("The puncture of %s failed.", en.Subject)
	case en.What == "cannula":
		return fmt.Sprintf("The cannula is in %s.", en.Subject)
	case en.Act == "judge":
		return fmt.Sprintf("You judged %s: %s.", en.Subject, en.Word)
	case en.Act == "decide":
		return fmt.Sprintf("You decided to %s.", en.Word)
	case en.Act == "mix":
		return fmt.Sprintf("%s is made up.", en.Subject)
	case en.Act == "premixed":
		return fmt.Sprintf("%s is taken from stock, premixed, %s.", en.Subject, value)
	case en.Act == "draw-up":
		return fmt.Sprintf("%s is drawn up, %s.", en.Subject, value)
	case en.Act == "set":
		return fmt.Sprintf("%s is set to %s.", en.Subject, value)
	case en.Act == "antidote-through":
		return fmt.Sprintf("%s of %s went in through the cannula at %s.", value, en.Word, en.Subject)
	case en.Act == "infiltrate":
		return fmt.Sprintf("%s of %s went in round the edge at %s.", value, en.Word, en.Subject)
	}
	if en.Who != "" {
		return fmt.Sprintf("Done by %s: %s.", en.Who, en.act())
	}
	return fmt.Sprintf("Done: %s.", strings.TrimSuffix(en.Said, "."))
}

// act is the sentence without the words that ask someone else to do it.
func (en Entry) act() string {
	return strings.TrimPrefix(en.Said, "ask "+en.Who+" to ")
}

func foundText(en Entry, value string) string {
	switch en.What {
	case "order", "notes", "by eye and hand":
		return en.Word
	case "at a glance":
		return fmt.Sprintf("At a glance, %s: %s.", en.Subject, en.Word)
	}
	shown := en.Word
	switch {
	case shown == "" && value == "":
		shown = "0"
	case shown == "":
		shown = value
	case value != "":
		shown += ", " + value + " across"
	}
	what := strings.ToUpper(en.What[:1]) + en.What[1:]
	if en.Subject == "" {
		return fmt.Sprintf("%s: %s.", what, strings.TrimSuffix(shown, "."))
	}
	return fmt.Sprintf("%s at %s: %s.", what, en.Subject, shown)
}

func eventText(en Entry) string {
	switch en.What {
	case "the case ends":
		return "The case ends here."
	case "central line":
		return fmt.Sprintf("The central line is %s.", en.Word)
	case "the operator begins":
		return "The operator has come and begins the central line."
	}
	return en.What
}

func hiddenText(en Entry) string {
	switch en.What {
	case "the cannula is blocked", "the vein is inflamed", "the cannula slipped out":
		return fmt.Sprintf("(not shown) At %s %s.", en.Subject, en.What)
	case "leak begins":
		return fmt.Sprintf("(not shown) The infusion in %s began to run beside the vein.", en.Subject)
	case "could be found":
		return fmt.Sprintf("(not shown) A competent look at %s would have found %s from here.", en.Subject, en.Word)
	case "burned by the hot pack":
		return fmt.Sprintf("(not shown) The hot pack burned the skin at %s, which was short of blood.", en.Subject)
	case "first drug in the blood":
		return "(not shown) The drug first reached the blood."
	}
	return en.What
}

func describeChoice(ch *choice, vein string) string {
	return fmt.Sprintf("%d gauge %s mm for %s at %s degrees", ch.cannula.Gauge, quantity.Number(ch.cannula.LengthMM), vein, quantity.Number(ch.angle))
}
