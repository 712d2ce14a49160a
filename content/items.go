package content

import (
	"fmt"
	"slices"

	"blanch/scenarios"
)

// ItemNames lists the names of the files of items, sorted.
func ItemNames() []string { return ids("items") }

// ItemFile is a file of items as written, and the name of the file.
func ItemFile(name string) (src []byte, file string, err error) {
	return read("items", "file of items", name)
}

// LoadItems loads one file of items.
func LoadItems(name string) (*scenarios.Items, []scenarios.Complaint, error) {
	src, file, err := ItemFile(name)
	if err != nil {
		return nil, nil, err
	}
	items, complaints := scenarios.LoadItems(file, src)
	return items, complaints, nil
}

// Items loads every file of items that comes with the program, in the order
// of [scenarios.Units] and within a unit by name. They were checked before
// they were shipped, so an error is a fault of the program.
func Items() ([]*scenarios.Items, error) {
	var out []*scenarios.Items
	for _, name := range ItemNames() {
		items, complaints, err := LoadItems(name)
		if err != nil {
			return nil, err
		}
		if items == nil {
			return nil, fmt.Errorf("the items %q have faults, the first at %s: %s", name, complaints[0].Pos, complaints[0].Said)
		}
		out = append(out, items)
	}
	slices.SortStableFunc(out, func(a, b *scenarios.Items) int {
		return slices.Index(scenarios.Units, a.Unit) - slices.Index(scenarios.Units, b.Unit)
	})
	return out, nil
}
