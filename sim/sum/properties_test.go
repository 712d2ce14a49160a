package sum

import (
	"maps"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"blanch/sim/quantity"
)

// For random numbers of each kind every slip's own answer is diagnosed as that
// slip, alone or as one of several; the key is right and never diagnosed; and
// what cannot be told from the key is reported.
func TestEverySlipIsFoundInItsOwnAnswer(t *testing.T) {
	for i, k := range kinds {
		t.Run(k.Name, func(t *testing.T) {
			r := rand.New(rand.NewPCG(uint64(i), 1))
			seen, alone, several, blind := map[string]bool{}, 0, 0, 0
			for range rounds(120, 10_000) {
				s := draw(r, k)
				for _, right := range []quantity.Quantity{s.Answer(), s.Key()} {
					if s.part(answerOf(right)) != 0 {
						continue // what is counted has no parts
					}
					if m := s.MarkAnswer(answerOf(right)); m.Verdict != Right || m.Diagnosis.Slips != nil {
						t.Fatalf("%s: the key, %s, is %s: %s", tell(s), right, m.Verdict, m.Diagnosis.Sentence())
					}
				}
				unseen := map[string]bool{}
				for _, o := range s.Overlaps() {
					for _, slip := range o.Slips {
						if o.Key {
							unseen[slip.clause] = true
						}
					}
				}
				for _, slip := range s.Slips() {
					seen[slip.Name] = true
					m := s.Mark(s.Shown(slip).String())
					if unseen[slip.clause] && s.hidden(slip) {
						blind++
						continue
					}
					if m.Verdict != Wrong {
						t.Fatalf("%s: %q leads to %s, which is %s (%s)", tell(s), slip.Name, s.Shown(slip), m.Verdict, m.Reason)
					}
					if !slices.ContainsFunc(m.Diagnosis.Slips, func(f Slip) bool { return f.clause == slip.clause }) {
						t.Fatalf("%s: %q leads to %s, where it is not found: %s", tell(s), slip.Name, s.Shown(slip), m.Diagnosis.Sentence())
					}
					if len(m.Diagnosis.Slips) == 1 {
						alone++
					} else {
						several++
						if m.Diagnosis.Question == "" {
							t.Fatalf("%s: nothing is asked to tell %s apart", tell(s), m.Diagnosis.Sentence())
						}
					}
				}
			}
			if len(seen) < 3 || alone == 0 {
				t.Errorf("only %d slips were tried, %d found alone", len(seen), alone)
			}
			t.Logf("%d slips by name; %d found alone, %d with others, %d not to be told from the key", len(seen), alone, several, blind)
		})
	}
}

// A tolerance never reaches a wrong way that sets the device otherwise.
func TestNoToleranceLetsASlipPass(t *testing.T) {
	for i, k := range kinds {
		r := rand.New(rand.NewPCG(uint64(i), 2))
		for range rounds(60, 3000) {
			s := *draw(r, k)
			s.Tolerance = 0.5
			for _, slip := range s.slips {
				if !s.hidden(slip) && s.isRight(slip.Value) {
					t.Fatalf("%s: %q, %s, passes beside %s", tell(&s), slip.Name, slip.Value, s.Key())
				}
			}
		}
	}
}

// Both conventions for a pound pass: 205 lb are 93.18 kg by one and 92.99 by
// the other (2.2: OpenStax, Pharmacology for Nurses, 2.4; 2.20462: the exact
// figure).
func TestBothConventionsForPoundsPass(t *testing.T) {
	k, _ := Named("rate")
	s, err := k.New(map[string]quantity.Quantity{
		"dose": quantity.Of(5, "mcg/kg/min"), "weight": quantity.Of(205, "lb"), "amount": quantity.Of(200, "mg"), "volume": quantity.Of(250, "mL"),
	}, quantity.Unit{})
	if err != nil {
		t.Fatal(err)
	}
	for answer, want := range map[string]Verdict{"34.9 mL/h": Right, "34.94 mL/h": Right, "34.8 mL/h": Wrong, "35 mL/h": Wrong} {
		if m := s.Mark(answer); m.Verdict != want {
			t.Errorf("%s is %s, want %s", answer, m.Verdict, want)
		}
	}
	fine, err := s.To(0.01)
	if err != nil {
		t.Fatal(err)
	}
	for answer, want := range map[string]Verdict{"34.94 mL/h": Right, "34.87 mL/h": Right, "34.9 mL/h": Wrong} {
		if m := fine.Mark(answer); m.Verdict != want {
			t.Errorf("to hundredths %s is %s, want %s", answer, m.Verdict, want)
		}
	}
	// Both go wrong in the same way, too: pounds taken for kilograms.
	if m := s.Mark("76.9 mL/h"); len(m.Diagnosis.Slips) != 1 || m.Diagnosis.Slips[0].Name != "pounds and kilograms mixed up" {
		t.Errorf("76.9 mL/h: %s", m.Diagnosis.Sentence())
	}
}

// At 60 kg the forgotten weight and the forgotten 60 come to one number; both
// are told, and so is what to ask.
func TestTheForgottenSixtyMeetsTheForgottenWeightAt60KG(t *testing.T) {
	k, _ := Named("rate")
	s, err := k.New(map[string]quantity.Quantity{
		"dose": quantity.Of(0.1, "mcg/kg/min"), "weight": quantity.Of(60, "kg"), "concentration": quantity.Of(16, "mcg/mL"),
	}, quantity.Unit{})
	if err != nil {
		t.Fatal(err)
	}
	want := "Either you have left out the weight, as if a kilogram were the whole patient, in step 1 (dose of the whole patient), or you have left out the 60 min in 1 h, in step 2 (dose in an hour). " +
		"To tell which, look on your own paper at step 1 (dose of the whole patient): 0.1 mcg/min there means the first, 6 mcg/min the second."
	if got := s.Mark("0.375 mL/h").Diagnosis.Sentence(); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	met := false
	for _, o := range s.Overlaps() {
		var names []string
		for _, slip := range o.Slips {
			names = append(names, slip.Name)
		}
		met = met || slices.Contains(names, "the weight forgotten") && slices.Contains(names, "60 forgotten")
	}
	if !met {
		t.Error("the overlap is not reported")
	}
	// At 70 kg they do not meet.
	s, err = k.New(map[string]quantity.Quantity{
		"dose": quantity.Of(0.1, "mcg/kg/min"), "weight": quantity.Of(70, "kg"), "concentration": quantity.Of(16, "mcg/mL"),
	}, quantity.Unit{})
	if err != nil {
		t.Fatal(err)
	}
	if got := s.Mark("0.375 mL/h").Diagnosis; len(got.Slips) != 1 || got.Slips[0].Name != "the weight forgotten" {
		t.Errorf("at 70 kg: %s", got.Sentence())
	}
}

// thousands is a number with a comma or an exponent, neither of which is ever
// printed.
var thousands = regexp.MustCompile(`[0-9],[0-9]|[0-9][eE][+-]?[0-9]`)

// unsafeIn is the unsafe notation in a text: each number with the word behind
// it is held to the rules.
func unsafeIn(text string) []string {
	found := map[string]bool{}
	words := strings.Fields(text)
	bare := func(w string) string { return strings.TrimLeft(strings.TrimRight(w, "().,:;?"), "(") }
	for i, w := range words {
		w = bare(w)
		if i+1 < len(words) && strings.ContainsAny(w, "0123456789") {
			w += " " + bare(words[i+1])
		}
		for _, says := range quantity.Unsafe(w) {
			found[says] = true
		}
	}
	if thousands.MatchString(text) {
		found["a comma inside a number, or an exponent"] = true
	}
	return slices.Collect(maps.Keys(found))
}

// Nothing that is printed is in unsafe notation (Institute for Safe Medication
// Practices, list of error-prone abbreviations).
func TestNothingPrintedIsUnsafe(t *testing.T) {
	for text, want := range map[string]int{
		"set 5.0 mL/h": 1, "give .5 mg": 1, "10 U/h": 1, "16 \u00b5g/mL": 1, "1,000 mL": 1, "1e6 mcg": 2, "5mg": 1,
		"0.5 mg x 1000 mcg/mg = 500 mcg": 0, "210 mcg/h / (16 mcg/mL) = about 13.13 mL/h": 0, "in step 3.": 0,
	} {
		if got := unsafeIn(text); len(got) != want {
			t.Errorf("%q: found %q, want %d", text, got, want)
		}
	}
	check := func(s *Sum, text string) {
		if found := unsafeIn(text); found != nil {
			t.Fatalf("%s prints %q: %q", tell(s), text, found)
		}
	}
	for i, k := range kinds {
		r := rand.New(rand.NewPCG(uint64(i), 3))
		for range rounds(60, 2000) {
			s := draw(r, k)
			for _, line := range s.Working() {
				check(s, line)
			}
			for _, slip := range s.Slips() {
				m := s.Mark(s.Shown(slip).String())
				check(s, m.Diagnosis.Sentence())
				check(s, m.Diagnosis.Account())
				check(s, m.Reason)
			}
			for _, bad := range []string{"", "3", "2 mmHg", "1,5 mL"} {
				if m := s.Mark(bad); m.Verdict == WrongUnit {
					check(s, m.Reason)
				}
			}
			_, err := k.New(map[string]quantity.Quantity{"nothing": quantity.Of(1, "mL")}, s.Unit)
			check(s, err.Error())
		}
	}
}
