package sentence

import (
	"strings"
	"testing"
)

func TestMatchAndWriteRoundTrip(t *testing.T) {
	tpl := MustParse("choose {vein} with {gauge} gauge {length} mm at {angle} degrees")
	for _, line := range []string{
		"choose left-cephalic-forearm with 20 gauge 47.8 mm at 40 degrees",
		"Choose LEFT-cephalic-forearm with 20 gauge 47.8 mm at 40 degrees",
	} {
		args, fits, err := tpl.Match(line)
		if !fits || err != nil {
			t.Fatalf("%q: fits %v, %v", line, fits, err)
		}
		if got, want := tpl.Write(args), "choose left-cephalic-forearm with 20 gauge 47.8 mm at 40 degrees"; got != want {
			t.Errorf("wrote %q, want %q", got, want)
		}
	}
}

func TestMatchSaysWhatIsWrongInAHole(t *testing.T) {
	for _, c := range []struct{ template, line, want string }{
		{"set {pump} to {rate}", "set pump-1 to 13", "unit"},
		{"set {pump} to {rate}", "set pump-1 to 13 mg", "wrong kind of unit"},
		{"set {pump} to {rate}", "set pump-1 to -3 mL/h", ""},
		{"judge {line} {verdict}", "judge left-hand fine", "wanted one of"},
		{"call {person} about {facts} asking for {request}", "call doctor about who, who asking for review", "said twice"},
		{"call {person} about {facts} asking for {request}", "call doctor about who, weather asking for review", "weather"},
		{"choose {vein} with {gauge} gauge {length} mm at {angle} degrees", "choose a with 20 gauge 48 mm at 200 degrees", "5 to 80"},
		{"glance at {line}", "glance at the left hand", "not a name"},
	} {
		_, fits, err := MustParse(c.template).Match(c.line)
		if !fits || err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: fits %v, error %v, want one with %q", c.line, fits, err, c.want)
		}
	}
	if _, fits, _ := MustParse("prime {pump}").Match("stop pump-1"); fits {
		t.Error("another sentence fits")
	}
}

func TestFreeTextKeepsItsCase(t *testing.T) {
	args, fits, err := MustParse("write in the notes: {text}").Match("write in the notes: Leak found 1:35, Dr told; 3 cm")
	if !fits || err != nil || args[0].Word != "Leak found 1:35, Dr told; 3 cm" {
		t.Errorf("%v %v %v", args, fits, err)
	}
	for _, bad := range []string{"\x1b[2J", "\u009b2J", "\u202etac", "\u2066a", "\u200ea", "\x7f"} {
		if _, _, err := MustParse("write in the notes: {text}").Match("write in the notes: " + bad); err == nil {
			t.Errorf("%+q passes", bad)
		}
	}
}

func TestComplete(t *testing.T) {
	names := func(kind string) []string {
		if kind == "line" {
			return []string{"left-hand", "left-forearm", "right-hand"}
		}
		return nil
	}
	tpl := MustParse("feel around {line}")
	check := func(typed string, want ...string) {
		t.Helper()
		got := tpl.Complete(typed, names)
		if strings.Join(got, "|") != strings.Join(want, "|") {
			t.Errorf("%q completes to %q, want %q", typed, got, want)
		}
	}
	check("", "feel around ")
	check("fee", "feel around ")
	check("feel around ", "feel around left-hand", "feel around left-forearm", "feel around right-hand")
	check("feel around left-f", "feel around left-forearm")
	check("feel around up", []string{}...)
	check("stop")
	judge := MustParse("judge {line} {verdict}").Complete("judge left-hand s", names)
	if len(judge) != 1 || judge[0] != "judge left-hand sound" {
		t.Errorf("%q", judge)
	}
	choose := MustParse("choose {vein} with {gauge} gauge {length} mm at {angle} degrees")
	for typed, want := range map[string]string{
		"choose a with 20":               "",
		"choose a with 20 ":              "choose a with 20 gauge ",
		"choose a with 20 gauge 47.8 ":   "choose a with 20 gauge 47.8 mm at ",
		"choose a with 20 gauge 48 mm a": "choose a with 20 gauge 48 mm at ",
	} {
		if got := strings.Join(choose.Complete(typed, names), "|"); got != want {
			t.Errorf("%q completes to %q, want %q", typed, got, want)
		}
	}
	facts := MustParse("call {person} about {facts} asking for {request}").Complete("call doctor about who, pre", func(string) []string { return []string{"doctor"} })
	if len(facts) != 1 || facts[0] != "call doctor about who, pressure" {
		t.Errorf("%q", facts)
	}
}

// Whatever is typed, reading and completing come back without a panic.
func FuzzTemplate(f *testing.F) {
	f.Add("choose x with 20 gauge 48 mm at 40 degrees")
	f.Add("call a about who,, asking for")
	tpls := []Template{
		MustParse("choose {vein} with {gauge} gauge {length} mm at {angle} degrees"),
		MustParse("call {person} about {facts} asking for {request}"),
		MustParse("mix {mass} of {drug} in {volume}, {adding}"),
		MustParse("write in the notes: {text}"),
	}
	f.Fuzz(func(t *testing.T, line string) {
		for _, tpl := range tpls {
			args, fits, err := tpl.Match(Tidy(line))
			if fits && err == nil {
				again, fits, err := tpl.Match(tpl.Write(args))
				if !fits || err != nil || tpl.Write(again) != tpl.Write(args) {
					t.Fatalf("%q wrote %q, which reads back as %q (%v)", line, tpl.Write(args), tpl.Write(again), err)
				}
			}
			tpl.Complete(line, func(string) []string { return []string{"a"} })
		}
	})
}
