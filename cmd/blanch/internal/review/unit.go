package review

import (
	"fmt"
	"strings"
)

// Unit is a unit of study. They stand in the order of the job, and each is
// studied before the next.
type Unit int

const (
	Line    Unit = 1 + iota // which vein and cannula
	Mix                     // what goes into the bag
	Sums                    // dose and rate
	Watch                   // checks of the arm
	Respond                 // what to do about a leak
	Bridge                  // the way to another line, or off
)

var unitNames = [...]string{"line", "mix", "sums", "watch", "respond", "bridge"}

// Units returns all units in the order of study.
func Units() []Unit { return []Unit{Line, Mix, Sums, Watch, Respond, Bridge} }

// String is the unit's name.
func (u Unit) String() string {
	if !u.known() {
		return fmt.Sprintf("unit %d", int(u))
	}
	return unitNames[u-1]
}

func (u Unit) known() bool { return u >= Line && u <= Bridge }

// ParseUnit reads a unit's name.
func ParseUnit(name string) (Unit, error) {
	for i, n := range unitNames {
		if n == name {
			return Unit(i + 1), nil
		}
	}
	return 0, fmt.Errorf("unit %q is not known, want one of %s", name, strings.Join(unitNames[:], ", "))
}

// MarshalText writes the unit's name.
func (u Unit) MarshalText() ([]byte, error) {
	if !u.known() {
		return nil, fmt.Errorf("%v is not known, want one of %s", u, strings.Join(unitNames[:], ", "))
	}
	return []byte(u.String()), nil
}

// UnmarshalText reads the unit's name.
func (u *Unit) UnmarshalText(text []byte) (err error) {
	*u, err = ParseUnit(string(text))
	return err
}
