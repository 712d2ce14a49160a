package tissue

import (
	"math"
	"testing"
)

// Half of warm pig skin flaps are lost at 9 h, and the surviving area begins
// to fall after 6 h (pig skin flap CIT50 study, abstract).
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
