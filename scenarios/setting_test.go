package scenarios

import (
	"bytes"
	"os"
	"testing"

	"blanch/sim/vein"
)

// A case that names a setting has its hazards, and keeps other ends of its
// own.
func TestSettingOfACase(t *testing.T) {
	src, err := os.ReadFile("testdata/short-case.yaml")
	if err != nil {
		t.Fatal(err)
	}
	want, _ := vein.SettingNamed("strict")
	set := bytes.Replace(src, []byte("leak: {fate: never}"), []byte("leak: {fate: by hazard, setting: strict}"), 1)
	c, complaints := LoadCase("short.yaml", set, Fragments{})
	if c == nil {
		t.Fatal(complaints)
	}
	if c.Leak.PerHour != want.Base.Leak || c.Wear.Occlusion != want.Base.Occlusion || c.Wear.Leak != 0 {
		t.Errorf("leak %v per hour, other ends %+v, want %+v", c.Leak.PerHour, c.Wear, want.Base)
	}
	own := append(append([]byte(nil), set...), "\nother ends: {occlusion: 0.5 per hour}\n"...)
	if c, complaints = LoadCase("short.yaml", own, Fragments{}); c == nil || c.Wear != (vein.Ends{Occlusion: 0.5}) {
		t.Errorf("other ends of the case's own: %v", complaints)
	}
}
