package line

import "testing"

// First fluid at 1 mL/h after 6.8 to 57.2 min, and after 0.3 to 1.1 min once
// 2 mL were purged (Neff 2001, Paediatr Anaesth 11:561); faster is sooner.
func TestStartUp(t *testing.T) {
	if m := StartUpMin(1, false); m < 6.8 || m > 57.2 {
		t.Errorf("unpurged: %v min", m)
	}
	if m := StartUpMin(1, true); m < 0.3 || m > 1.1 {
		t.Errorf("purged: %v min", m)
	}
	if StartUpMin(5, false) >= StartUpMin(1, false) {
		t.Error("a faster pump starts no sooner")
	}
}

// 6 of 20 leaks at 100 mL/h or more went without an alarm (Hee 2002, Paediatr
// Anaesth 12:780); that pumps do not notice at lower flows is assumed.
func TestLeakNoticed(t *testing.T) {
	if s := 1 - LeakNoticed(100); s < 0.15 || s > 0.52 {
		t.Errorf("silent in %v", s)
	}
	if LeakNoticed(20) != 0 {
		t.Error("a leak at 20 mL/h is noticed")
	}
	for _, s := range Symbols() {
		if s.Value < s.Low || s.Value > s.High || s.Why == "" {
			t.Errorf("symbol %+v", s)
		}
	}
}
