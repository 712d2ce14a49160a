package sim

import (
	"math"
	"strings"
	"testing"
)

// Premixed vasopressin, 20 units in 100 mL, is 0.2 units/mL (US vasopressin
// label), and norepinephrine 4 mg in 250 mL is 16 mcg/mL (ASHP Injectable Drug
// Information). What comes premixed is as strong as its label.
func TestPremixedBags(t *testing.T) {
	e := changed(t, func(p *Place) {
		p.Vials = p.Vials[:1]
		p.Premixed = []Premixed{{Drug: "vasopressin", MG: 20, ML: 100, Number: 1}, {Drug: "norepinephrine", MG: 4, ML: 250, Number: 2}}
	})
	follow(t, e, `
0:00:00 take a premixed bag of 20 units of vasopressin in 100 mL
0:01:00 take a premixed bag of 4 mg of norepinephrine in 250 mL
0:02:00 take a premixed bag of 4 mg of norepinephrine in 250 mL
0:03:00 mix 24 mg of norepinephrine in 250 mL, adding to the bag
`)
	e.Advance(10 * Minute)
	for i, want := range []float64{0.2, 16, 16} {
		b := e.bags[i]
		if math.Abs(b.Nominal-want) > 1e-12 || b.True != b.Nominal || b.LabelledAt == Never || b.CheckedAt != Never {
			t.Errorf("%s: %v, true %v, labelled %v, checked %v", b.ID, b.Nominal, b.True, b.LabelledAt, b.CheckedAt)
		}
	}
	if len(e.bags) != 4 {
		t.Error("all six vials could not be mixed: the premixed bags were counted with them")
	}
	for said, why := range map[string]string{
		"take a premixed bag of 4 mg of norepinephrine in 250 mL":     "none is left of 4 mg of norepinephrine in 250 mL",
		"take a premixed bag of 8 mg of norepinephrine in 250 mL":     "there is no such premixed bag; there are: 20 units of vasopressin in 100 mL; 4 mg of norepinephrine in 250 mL",
		"take a premixed bag of 20 mg of vasopressin in 100 mL":       "there is no such premixed bag; there are: 20 units of vasopressin in 100 mL; 4 mg of norepinephrine in 250 mL",
		"mix 20 units of vasopressin in 100 mL, adding to the bag":    "there are no vials of vasopressin; it comes premixed",
		"mix 0.004 g of norepinephrine in 250 mL, adding to the bag":  "4 mg of norepinephrine cannot be had: 0 mg are left in stock",
		"mix 4 mg of epinephrine in 250 mL, adding to the bag":        `there is no "epinephrine" in stock; there is: norepinephrine, vasopressin`,
		"take a premixed bag of 20 units of epinephrine in 1000 mL":   "there is no such premixed bag; there are: 20 units of vasopressin in 100 mL; 4 mg of norepinephrine in 250 mL",
		"take a premixed bag of 20 units of vasopressin in 250 mL":    "there is no such premixed bag; there are: 20 units of vasopressin in 100 mL; 4 mg of norepinephrine in 250 mL",
		"draw up 5 mg of phentolamine to 10 mL":                       `there is no "phentolamine" in stock; there is: norepinephrine, vasopressin`,
		"take a premixed bag of 20 units of vasopressin in 100 mL":    "none is left of 20 units of vasopressin in 100 mL",
		"take a premixed bag of 4000 mcg of norepinephrine in 250 mL": "none is left of 4 mg of norepinephrine in 250 mL",
	} {
		if got, _ := at(t, e, 10*Minute, said); got != why {
			t.Errorf("%s: %q, want %q", said, got, why)
		}
	}
	bare := changed(t, func(*Place) {})
	if got, _ := at(t, bare, 0, "take a premixed bag of 4 mg of norepinephrine in 250 mL"); got != "there are no premixed bags here" {
		t.Errorf("without any it says %q", got)
	}
}

func TestPremixedRunsAndIsNotLost(t *testing.T) {
	e := changed(t, func(p *Place) {
		p.Premixed = []Premixed{{Drug: "norepinephrine", MG: 4, ML: 250, Number: 1}}
	})
	follow(t, e, strings.NewReplacer("0:10:00 mix 4 mg of norepinephrine in 250 mL, adding to the bag", "0:10:00 take a premixed bag of 4 mg of norepinephrine in 250 mL",
		"0:14:00 label bag-1\n", "").Replace(setUp))
	e.Advance(2 * Hour)
	b := e.Book().Drugs[0]
	sum := b.InLines + b.InBlood + b.Eliminated + b.InTissue + b.Broken + b.DrawnBack + b.Spilled
	if b.Pumped == 0 || math.Abs(sum-b.Pumped) > 1e-9*b.Pumped {
		t.Errorf("pumped %v, found %v", b.Pumped, sum)
	}
	if r := e.Result(); r.Runs[0].McgMin != 11.6*16/60 {
		t.Errorf("the dose is %v", r.Runs[0].McgMin)
	}
}

// Where a pharmacist makes up bags, nobody else does.
func TestPharmacistMixes(t *testing.T) {
	e := changed(t, func(p *Place) {
		p.Pharmacy = true
		p.People = append(p.People, Person{ID: "ward-pharmacist", Role: Pharmacist, Arrives: 5 * Minute})
	})
	const mix = "mix 4 mg of norepinephrine in 250 mL, adding to the bag"
	for _, who := range []string{"", "ask second-nurse to "} {
		if who != "" {
			at(t, e, e.now, "send for second-nurse")
			e.Advance(3 * Minute)
		}
		if got, _ := at(t, e, e.now, who+mix); got != "a pharmacist makes up the bags here; ask ward-pharmacist to mix it" {
			t.Errorf("%q: %q", who+mix, got)
		}
	}
	at(t, e, e.now, "send for ward-pharmacist")
	e.Advance(10 * Minute)
	if got, _ := at(t, e, e.now, "ask ward-pharmacist to "+mix); got != "" {
		t.Errorf("the pharmacist is refused: %s", got)
	}
	if got, _ := at(t, e, e.now, "ask ward-pharmacist to prime pump-1"); got == "" {
		t.Error("a pharmacist primes a pump")
	}
	e.Advance(15 * Minute)
	if len(e.bags) != 1 || e.bags[0].Nominal != 16 {
		t.Errorf("%d bags", len(e.bags))
	}
}

// What is out of date is told by the kit and cannot be drawn up; a vial of the
// same drug that is in date is taken instead.
func TestOutOfDate(t *testing.T) {
	past := func(p *Place) {
		for i := range p.Vials {
			p.Vials[i].Past = p.Vials[i].Drug == "phentolamine" || p.Vials[i].Drug == "norepinephrine"
		}
	}
	e := changed(t, past)
	for said, why := range map[string]string{
		"draw up 5 mg of phentolamine to 10 mL":                    "the phentolamine in stock is out of date",
		"mix 4 mg of norepinephrine in 250 mL, adding to the bag":  "the norepinephrine in stock is out of date",
		"mix 20 units of vasopressin in 100 mL, adding to the bag": "",
	} {
		if got, _ := at(t, e, e.HandsFree(), said); got != why {
			t.Errorf("%s: %q, want %q", said, got, why)
		}
	}
	fetched := func(e *Engine) string {
		at(t, e, e.HandsFree(), "fetch the extravasation kit")
		en, _ := entry(e, "extravasation kit")
		return en.Word
	}
	if got := fetched(e); got != "complete, but the phentolamine is out of date" {
		t.Errorf("the kit shows %q", got)
	}
	both := changed(t, func(p *Place) {
		past(p)
		p.Vials = append(p.Vials, Vial{Drug: "phentolamine", MG: 5, ML: 1, Number: 1})
	})
	if got := fetched(both); got != "complete and in date" {
		t.Errorf("with a vial in date the kit shows %q", got)
	}
	if got, _ := at(t, both, both.HandsFree(), "draw up 5 mg of phentolamine to 10 mL"); got != "" {
		t.Errorf("the vial in date is refused: %s", got)
	}
	if got, _ := at(t, both, both.HandsFree(), "draw up 5 mg of phentolamine to 10 mL"); got == "" {
		t.Error("more was drawn up than is in date")
	}
	lacks := changed(t, func(p *Place) { p.KitReady, p.KitLacks = false, "the fine needles are missing" })
	if got := fetched(lacks); got != "the fine needles are missing" || lacks.kit {
		t.Errorf("the kit shows %q, ready %v", got, lacks.kit)
	}
}
