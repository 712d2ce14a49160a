package ui

import "testing"

// A sentence that is typed out is taken as it stands, with the vein it names.
func TestATypedSentenceKeepsItsWords(t *testing.T) {
	d := sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter")
	const said = "choose left-cephalic-forearm with 20 gauge 47.8 mm at 30 degrees"
	d.press("/", said, "Enter").want(said, "Enter does it").press("Esc", "Esc")

	d.press("/", "examine left-cephalic-forearm", "Enter").want("examine left-cephalic-forearm", "Enter does it").press("Esc", "Esc")

	// A part of one goes to the choice that it names.
	d.press("/", "choose left-cephalic-forearm with", "Enter").want("> left-cephalic-forearm").press("Esc", "Esc")
}

// Where the name that was typed cannot stand, that is told: nobody does to the
// usual line what was meant for another.
func TestANameThatCannotStandIsTold(t *testing.T) {
	d := sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter")
	d.press("/", "flush left-cephalic-forearm", "Enter").want("left-cephalic-forearm is none of these.", "> right-dorsal-hand").press("Esc", "Esc")
	for _, name := range []string{"bag-1", "central"} {
		d.press("/", "flush "+name, "Enter").want(name+" is none of these.", "> right-dorsal-hand").press("Esc", "Esc")
	}
}
