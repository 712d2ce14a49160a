package review

import (
	"encoding/json"
	"testing"
)

func TestNewBank(t *testing.T) {
	bank, err := NewBank([]Question{
		{Name: "d", Unit: Bridge, Level: 1}, {Name: "c", Unit: Line, Level: 2}, {Name: "b", Unit: Line, Level: 1}, {Name: "a", Unit: Line, Level: 1},
	})
	if err != nil {
		t.Fatal(err)
	}
	got := ""
	for _, q := range bank {
		got += q.Name
	}
	if got != "bacd" {
		t.Errorf("got the order %s, want bacd", got)
	}
	_, err = NewBank([]Question{{Unit: Line, Level: 1}, {Name: "a", Unit: 9, Level: 1}, {Name: "b", Unit: Mix}, {Name: "b", Unit: Mix, Level: 1}})
	const want = `question 1: question has no name, want one
question 2: question "a": unit 9 is not known, want one of line, mix, sums, watch, respond, bridge
question 3: question "b": level is 0, want 1 or more
question 4: name "b" is that of question 3 too, want each once`
	if err == nil || err.Error() != want {
		t.Errorf("got error\n%v\nwant\n%s", err, want)
	}
}

func TestUnitText(t *testing.T) {
	for _, u := range Units() {
		b, err := json.Marshal(u)
		var back Unit
		if err != nil || json.Unmarshal(b, &back) != nil || back != u || string(b) != `"`+u.String()+`"` {
			t.Errorf("%v: wrote %s, %v, and read %v", u, b, err, back)
		}
	}
	if _, err := json.Marshal(Unit(0)); err == nil {
		t.Error("an unknown unit was written")
	}
	if _, err := ParseUnit("veins"); err == nil || err.Error() != `unit "veins" is not known, want one of line, mix, sums, watch, respond, bridge` {
		t.Errorf("got %v", err)
	}
}
