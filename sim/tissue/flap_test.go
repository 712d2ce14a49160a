package tissue

import (
	"math"
	"testing"
)

// Half of warm pig skin flaps are lost at 9 h, and the surviving area is seen
// to fall after 6 h ("Critical ischemia times and survival patterns of
// experimental pig flaps", abstract). That this is 5 % lost is assumed.
func TestFlaps(t *testing.T) {
	if lost := FlapLost(9); math.Abs(lost-0.5) > 1e-12 {
		t.Errorf("at 9 h %v are lost", lost)
	}
	if lost := FlapLost(6); lost > 0.06 || lost < 0.04 {
		t.Errorf("at 6 h %v are lost", lost)
	}
	for h := 0.0; h < 24; h++ {
		if FlapLost(h+1) <= FlapLost(h) {
			t.Errorf("an hour more than %v loses no more", h)
		}
	}
}
