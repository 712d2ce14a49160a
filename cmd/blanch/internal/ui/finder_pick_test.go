package ui

import "testing"

// A sentence that is typed out is taken as it stands, with the vein it names.
func TestATypedSentenceKeepsItsWords(t *testing.T) {
	d := sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter")
	const said = "choose left-cephalic-forearm with 20 gauge 47.8 mm at 30 degrees"
	d.press("/", said, "Enter").want(said, "Enter does it").press("Esc", "Esc")

	d.press("/", "examine left-cephalic-forearm", "Enter").want("examine left-cephalic-forearm", "Enter does it").press("Esc", "Esc")

	// A part of one keeps the gaps that are typed, and asks for the next.
	d.press("/", "choose left-cephalic-forearm with", "Enter").want("choose left-cephalic-forearm with <gauge>").press("Esc", "Esc", "Esc")
	d.press("/", "set pump-2 to 19", "Enter").want("set pump-2 to <rate>", "> 19").press(" mL/h", "Enter").want("set pump-2 to 19 mL/h").press("Esc")
	d.want("> 19 mL/h").press("Esc").want("> pump-2").press("Esc").want("Any step: set pump-2 to 19").press("Esc")
}

// Units are written with a slash, also where a slash opened the finder.
func TestASlashThatIsTypedIsALetter(t *testing.T) {
	d := sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter")
	d.press("/", "set pump-1 to 19 mL/h").want("Any step: set pump-1 to 19 mL/h").press("Enter").want("set pump-1 to 19 mL/h", "What it does").press("Esc", "Esc")
	d.press("Down", "Down", "Enter", "/").want("Any step:") // before anything is typed it leaves the step
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
