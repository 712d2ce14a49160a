package sim

import "testing"

// What is made again stands in the old memory and holds nothing of the old.
func TestAgain(t *testing.T) {
	var list []*wear
	first := again(&list, wear{limit: 1, draws: 2})
	list = list[:0]
	if second := again(&list, wear{limit: 3}); second != first || *second != (wear{limit: 3}) || len(list) != 1 {
		t.Errorf("made again it is %+v, of %d", *second, len(list))
	}
	if third := again(&list, wear{limit: 4}); third == first || list[1] != third {
		t.Error("two of a list share their memory")
	}
}

// The sentence is always that of the action, also when a caller changed the
// one said before.
func TestSentenceIsTheActions(t *testing.T) {
	e := newEngine(t, testCase(), 1)
	a, err := ParseAction("set pump-1 to 18 mL/h")
	if err != nil {
		t.Fatal(err)
	}
	for _, change := range []func(){
		func() {},
		func() {},
		func() { a.Args[1].Quantity.Value = 19 },
		func() { a.Args[0].Word = "pump-2" },
		func() { a.By = "second-nurse" },
	} {
		change()
		if got, want := e.sentence(a), a.String(); got != want {
			t.Errorf("%q, not %q", got, want)
		}
	}
	if a.String() != "ask second-nurse to set pump-2 to 19 mL/h" {
		t.Errorf("the changes came to nothing: %s", a)
	}
}

// A second attempt of a whole response needs little new memory: about 60
// allocations for its own sentences, sums and tubing.
func TestResetReuses(t *testing.T) {
	seed := luckySeed(t, 1)
	lines := readScript(t, script("right-basilic-arm"))
	e := newEngine(t, testCase(), seed)
	once := func() {
		if err := e.Reset(seed); err != nil {
			t.Fatal(err)
		}
		for _, l := range lines {
			e.Advance(l.at)
			e.Do(l.act)
		}
		e.Advance(4 * Hour)
	}
	once()
	if n := testing.AllocsPerRun(5, once); n > 120 {
		t.Errorf("%v allocations", n)
	} else {
		t.Log(n)
	}
}
