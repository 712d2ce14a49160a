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
		Ask:   []sim.Question{{ID: "rate"}, {ID: "concentration"}},
		Ends:  4 * sim.Hour,
	}}
	c.Patient.WeightKG = 64
	return c
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
			in = append(in, words[0].placeholder())
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
			_, faults = compileProse(referenceCase(), testPolicy(), text)
		} else {
			_, faults = compile(referenceCase(), testPolicy(), text, false, text.At)
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
	for _, act := range []string{actFeel, actJudge, actDecide, actMoveCuff, actInfiltrate, actThrough, actAnswerCall, actDeclineCall, secondCheckAct["bag"], secondCheckAct["pump"]} {
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
