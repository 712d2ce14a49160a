package sim

import "blanch/sim/vein"

// Place is what the unit has. The engine reads it; a case names it.
type Place struct {
	ID         string
	Name       string
	Pumps      []Pump
	TubingML   float64 // dead volume of an infusion set from bag to connector
	ExtensML   float64 // dead volume of the extension on a peripheral cannula
	Cannulae   []vein.Cannula
	BagsML     []float64 // diluent bags in stock
	Vials      []Vial
	Premixed   []Premixed
	Pharmacy   bool   // a pharmacist alone makes up bags
	KitAt      string // where the extravasation kit is
	KitWalk    Time   // there and back
	KitReady   bool   // complete and in date
	KitLacks   string // what is found missing when it is not ready; empty for the antidote
	Nitrate    bool   // nitroglycerin ointment in stock
	Ultrasound bool
	Cuff       Time    // the cuff cycles this often
	AlarmMmHg  float64 // the monitor alarms under this shown mean pressure
	AlarmOver  float64 // and over this; 0 for no such alarm
	People     []Person
	Central    Central
}

// Pump is a volumetric pump.
type Pump struct {
	ID        string      // "pump-1"
	StepMLH   float64     // resolution of the rate
	MostMLH   float64     // cannot be set higher
	EmptyWarn Time        // warns this long before the bag is empty
	Library   []DrugLimit // empty for a pump that takes anything
}

// Vial is a drug in stock.
type Vial struct {
	Drug   string
	MG     float64 // per vial, norepinephrine as base; in units for vasopressin
	ML     float64 // per vial
	Number int
	Past   bool // out of date
}

// Premixed is a bag that comes with the drug in it.
type Premixed struct {
	Drug   string
	MG     float64 // per bag, in units for vasopressin
	ML     float64 // as labelled, which is what it holds
	Number int
}

// Person is someone who can be reached.
type Person struct {
	ID      string // "second-nurse"
	Role    Role
	Arrives Time     // from being asked to standing at the bed
	Grants  []string // requests this person can grant
	Needs   []string // facts they must hear before granting anything
}

// Role is what a person is trained and allowed to do.
type Role string

// Roles.
const (
	Nurse     Role = "nurse"
	Doctor    Role = "doctor"
	Operator  Role = "operator" // places central lines
	Surgeon   Role = "surgeon"
	Colleague Role = "colleague"
	// Pharmacist makes up bags; in some places nobody else does.
	Pharmacist Role = "pharmacist"
)

// Central says how central access comes about.
type Central struct {
	DeadML      float64 // of the lumen the infusion will use
	Lead        Time    // from being granted to skin
	Takes       Time    // from skin to a usable lumen
	DelayChance float64 // 0 to 1
	Delay       Time    // added when it is drawn
}
