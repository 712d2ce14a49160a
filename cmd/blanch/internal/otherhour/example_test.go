package otherhour_test

import (
	"fmt"
	"strings"

	"blanch/cmd/blanch/internal/otherhour"
	"blanch/content"
	"blanch/sim"
)

// One decision of a finished hour is moved.
func Example() {
	c, _, err := content.LoadCase("night-bridge")
	if err != nil {
		fmt.Println(err)
		return
	}
	place, _, err := content.LoadPlace(c.Place)
	if err != nil {
		fmt.Println(err)
		return
	}
	policy, _, err := content.LoadPolicy(c.Policy)
	if err != nil {
		fmt.Println(err)
		return
	}
	h, err := otherhour.New(otherhour.Attempt{
		Case: c, Place: place, Policy: policy, Seed: 3, Ended: c.Ends,
		Said: []otherhour.Said{{At: 0, Text: "read the order"}, {At: 2 * sim.Minute, Text: "send for second-nurse"}},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	m, err := h.ParseMove("1 later by 1 min")
	if err != nil {
		fmt.Println(err)
		return
	}
	text := h.Compare(m, "", h.Play(m)) // with no reason: the learner asked for it
	fmt.Println(len(h.Decisions) > 0, strings.Contains(text, "Moved"), h.Moved(m) != "")
	// Output: true true true
}
