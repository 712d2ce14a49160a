package scoring

import (
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"blanch/scenarios"
	"blanch/sim"
	"blanch/sim/quantity"
)

// The case and policy against which the examples of the reference compile.
func referenceCase() *scenarios.Case {
	c := &scenarios.Case{Case: sim.Case{
		ID:    "reference",
		Order: sim.Order{Drug: "norepinephrine", TargetMmHg: 65, CeilMmHg: 80, Start: quantity.Of(0.05, "mcg/kg/min"), Most: quantity.Of(0.25, "mcg/kg/min")},
		Calls: []sim.CallOn{{ID: "bed-4"}},
		Ask:   []sim.Question{{ID: "rate"}, {ID: "rate-again"}, {ID: "concentration"}},
		Ends:  4 * sim.Hour,
	}}
	c.Patient.WeightKG = 64
	return c
}

// fitting is a case that the example of a fact fits: one about vasopressin for
// amounts in units.
func fitting(f Fact) *scenarios.Case {
	c := referenceCase()
	if strings.HasPrefix(f.Name, "units_") {
		c.Order.Drug, c.Order.Start, c.Order.Most = "vasopressin", quantity.Of(0.03, "units/min"), quantity.Of(0.04, "units/min")
	}
	return c
}

// Amounts of a drug are read and written in its own unit.
func TestVasopressinIsInUnits(t *testing.T) {
	c := fitting(Fact{Name: "units_per_min"})
	r := &record{Result: &sim.Result{Case: &c.Case}, policy: testPolicy()}
	if got := r.perMinute(c.Order.Most).String(); got != "0.04 units/min" {
		t.Errorf("got %s", got)
	}
	text := exactText(`highest_dose <= mcg_per_min(15)`)
	if _, faults := compile(c, testPolicy(), text, false, text.At); len(faults) != 1 || faults[0].Code != "wrong-unit" || faults[0].Allowed != "units_per_min" {
		t.Errorf("got %+v, want the unit refused", faults)
	}
}

func TestTableAndEnvironmentAreOne(t *testing.T) {
	inTable := map[string]bool{}
	for _, f := range facts {
		if inTable[f.Name] {
			t.Errorf("%s stands twice in the table", f.Name)
		}
		inTable[f.Name] = true
		kind, ok := leafKinds[f.Name]
		if !ok {
			t.Errorf("%s is in the table, not in the environment", f.Name)
			continue
		}
		if got, want := f.Signature, signatureOf(f, kind); got != want {
			t.Errorf("signature %q, and the environment says %q", got, want)
		}
		if f.Says == "" || f.Example == "" || f.Group == "" || f.fill == nil {
			t.Errorf("%s lacks a description, an example, a group or its reading", f.Name)
		}
	}
	for name := range leafKinds {
		if !inTable[name] {
			t.Errorf("%s is in the environment, not in the table", name)
		}
	}
}

// signatureOf writes what the environment says of a fact.
func signatureOf(f Fact, kind reflect.Type) string {
	if kind.Kind() != reflect.Func {
		return f.Name + " -> " + kindNames[kind]
	}
	var in []string
	words := f.args
	for i := range kind.NumIn() {
		if kind.In(i) == stringKind {
			in = append(in, words[0].standIn())
			words = words[1:]
			continue
		}
		in = append(in, kindNames[kind.In(i)])
	}
	if len(words) > 0 {
		return "more argument sets than arguments"
	}
	return fmt.Sprintf("%s(%s) -> %s", f.Name, strings.Join(in, ", "), kindNames[kind.Out(0)])
}

func TestEveryExampleCompilesAndUsesItsFact(t *testing.T) {
	for _, f := range facts {
		text := scenarios.Text{Source: f.Example}
		var faults []scenarios.Complaint
		if strings.Contains(f.Example, "{") {
			_, faults = compileProse(fitting(f), testPolicy(), text)
		} else {
			_, faults = compile(fitting(f), testPolicy(), text, false, text.At)
		}
		for _, c := range faults {
			t.Errorf("%s: example %q: %s", f.Name, f.Example, c.Said)
		}
		if name := regexp.MustCompile(`\b` + regexp.QuoteMeta(f.Name) + `\b`); !name.MatchString(f.Example) {
			t.Errorf("%s: the example %q does not show it", f.Name, f.Example)
		}
	}
}

func TestActionsBehindFactsAreInTheTable(t *testing.T) {
	names := acts.names(referenceCase())
	for _, act := range []string{actFeel, actJudge, actDecide, actMoveCuff, actInfiltrate, actThrough, actAnswerCall, actDeclineCall, actFlush, actBloodReturn, actHang, actWrite, secondCheckAct["bag"], secondCheckAct["pump"]} {
		if !slices.Contains(names, act) {
			t.Errorf("no action is called %q; there are: %s", act, strings.Join(names, ", "))
		}
	}
}

func TestOutcomeIsOutOfReachOfRules(t *testing.T) {
	for _, f := range outcomeTable {
		text := scenarios.Text{Source: f.Name + ".known"}
		_, faults := compile(referenceCase(), testPolicy(), text, false, text.At)
		if len(faults) == 0 {
			t.Errorf("a rule can read %s", f.Name)
		}
		text.Source = f.Name
		_, faults = compile(referenceCase(), testPolicy(), text, false, text.At)
		if len(faults) != 1 || faults[0].Code != "outcome-in-rule" {
			t.Errorf("%s in a rule: %v", f.Name, faults)
		}
	}
	for name, kind := range leafKinds {
		if f := factByName[name]; !f.TextOnly && strings.Contains(strings.ToLower(kind.String()), "outcome") {
			t.Errorf("%s hands out the outcome", name)
		}
	}
}

// Every limit of a policy can be read by rules; what is not a limit is named
// here.
func TestEveryPolicyFieldIsAFact(t *testing.T) {
	as := map[string][]string{
		"MostMcgML": {"most_concentration"}, "MostMcgMin": {"most_dose"},
		"AntidoteMG": {"least_antidote_mg", "most_antidote_mg"}, "AntidoteML": {"least_antidote_ml", "most_antidote_ml"},
		"LeastMM": {"least_mm"}, "RateStepMLH": {"rate_step_mlh"}, "LeastVeinMM": {"least_vein_mm"},
		"SharedWith": {"may_share"}, "BloodReturn": {"wants_blood_return", "allows_blood_return"},
		"OtherAntidotes": {"other_antidotes"}, "Scale": {"scale", "wants_scale"}, "CallFor": {"central_dose", "call_for_central"},
		"ID": nil, "Note": nil, "Because": nil, "Sources": nil, "Source": nil, "File": nil,
	}
	upper := regexp.MustCompile(`([a-z])([A-Z])`)
	policy := reflect.TypeFor[scenarios.Policy]()
	for i := range policy.NumField() {
		field := policy.Field(i).Name
		names, listed := as[field]
		if !listed {
			names = []string{strings.ToLower(upper.ReplaceAllString(field, "${1}_${2}"))}
		}
		for _, name := range names {
			if _, ok := factByName["policy."+name]; !ok {
				t.Errorf("no fact policy.%s for the field %s", name, field)
			}
		}
	}
}
