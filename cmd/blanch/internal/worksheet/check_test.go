package worksheet

import (
	"encoding/csv"
	"errors"
	"os"
	"strings"
	"testing"

	"blanch/sim/quantity"
	"blanch/sim/sum"
)

const published = "../../../../sim/sum/testdata/published.csv"

// Every published example comes out, through the table as an author would
// check it; each row has its source in its last column but one. What is wrong
// in print differs, computes to what is right, and is diagnosed where a single
// slip explains it.
func TestPublishedTablesComeOut(t *testing.T) {
	src, err := os.ReadFile(published)
	if err != nil {
		t.Fatal(err)
	}
	cells, err := csv.NewReader(strings.NewReader(string(src))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	rows, err := Check(src)
	if err != nil {
		t.Fatal(err)
	}
	column := map[string]int{}
	for i, name := range cells[0] {
		column[name] = i
	}
	slips := map[string][]string{
		"OSX-03":  nil, // the key of another dose and another weight
		"TRAP-01": {"60 forgotten"},
		"TRAP-02": nil, // 100 stands where 360 minutes belong; no slip that is known
		"TRAP-03": {"the volume taken forgotten"},
		"TRAP-04": {"early rounding of weight in kg to a tenth", "early rounding of dose of the whole patient to a whole number", "rounded to whole numbers"},
	}
	agree := 0
	for i, r := range rows {
		cell := cells[i+1]
		if r.ID != cell[column["id"]] || cell[column["source"]] == "" {
			t.Fatalf("row %s stands at %s, or has no source", r.ID, cell[0])
		}
		right := cell[column["right"]]
		if right == "" {
			agree++
			if r.Verdict != Agrees {
				t.Errorf("%s %s: stated %s, %v %s (%s)", r.ID, r.Verdict, r.Stated, r.Fault, r.Diagnosis.Account(), cell[column["source"]])
			}
			continue
		}
		if r.Verdict != Differs || quantity.Number(r.Sum.Answer().Value) != right {
			t.Errorf("%s, wrong in print, %s; computed %s, want %s", r.ID, r.Verdict, r.Sum.Answer(), right)
		}
		var names []string
		for _, s := range r.Diagnosis.Slips {
			names = append(names, s.Name)
		}
		if want, ok := slips[r.ID]; !ok || strings.Join(names, "; ") != strings.Join(want, "; ") {
			t.Errorf("%s is explained by %q, want %q", r.ID, names, want)
		}
		delete(slips, r.ID)
	}
	if agree != 77 || len(slips) != 0 {
		t.Errorf("%d rows agree, want 77; not found: %v", agree, slips)
	}
}

// What cannot be read says where and what would be right.
func TestWhatCannotBeReadSaysWhere(t *testing.T) {
	const head = "id,kind,inputs,answer,unit,rounding\n"
	for _, c := range []struct {
		row          string
		line, column int
		says         string
	}{
		{"a,rates,dose=8 mcg/min; conc_mcg_mL=16,30,mL/h,", 2, 3, `no kind is called "rates": these inputs would do for rate`},
		{"a,rate,dose=8; conc_mcg_mL=16,30,mL/h,", 2, 8, "dose has no unit: write it like dose=8 mcg/min"},
		{"a,rate,dose=8 mcg/min; conc_mcg_mL=16 mcg/mL,30,mL/h,", 2, 24, "unit in its name and another in its value"},
		{"a,rate,dose=8 mcg/min; conc_mL=16,30,mL/h,", 2, 24, "concentration cannot be 16 mL: give it in mcg/mL"},
		{"a,rate,dose=8 mcg/min; strength=16 mcg/mL,30,mL/h,", 2, 24, `rate takes no "strength": it takes dose,`},
		{"a,rate,dose=8 mcg/min; concentration,30,mL/h,", 2, 24, `"concentration" is no input: write it like`},
		{"a,rate,dose=8 mcg/min; dose=9 mcg/min,30,mL/h,", 2, 24, "dose is given twice"},
		{"a,rate,dose=8 mcg/min,30,mL/h,", 2, 8, "rate needs dose, concentration; or"},
		{"a,rate,dose=8 mcg/kg/min; conc_mcg_mL=16,30,mL/h,", 2, 8, "weight is missing"},
		{"a,rate,\"dose=8 mcg/min; conc_mcg_mL=1,6\",30,mL/h,", 2, 25, "comma"},
		{"a,rate,dose=8 mcg/min; conc_mcg_mL=16,\"3,0\",mL/h,", 2, 40, "comma"},
		{"a,rate,dose=8 mcg/min; conc_mcg_mL=16,,mL/h,", 2, 39, "no number"},
		{"a,rate,dose=8 mcg/min; conc_mcg_mL=16,30,mL/hm,", 2, 42, `"hm" is not known`},
		{"a,rate,dose=8 mcg/min; conc_mcg_mL=16,30,mg,", 2, 42, "the answer to rate cannot be in mg"},
		{"a,rate,dose=8 mcg/min; conc_mcg_mL=16,30 mL/min,mL/h,", 2, 39, "the answer is in mL/min and the column unit says mL/h"},
		{"a,rate,dose=8 mcg/min,conc_mcg_mL=16,30,mL/h,", 2, 46, "the row has 7 cells and the first row 6"},
		{"\u00e9\u00e9,rate,dose=8 mcg/min; conc_mcg_mL=16,30,mL/hm,", 2, 43, `"hm" is not known`},
		{"a,convert,value=5000;from=mcg;to=mgs/x,5,,", 2, 31, `unit "x" is not known`},
		{"a,stock_needed,stock_pct=5;target_pct=2;V2_mL=400;find=V2,160,mL,", 2, 51, "find=V2 is not worked out"},
		{"a,salt,base_mg=1;salt=acetate,1,mg,", 2, 18, "salt"},
		{"a,salt,base_mg=1;salt=bitartrate_monohydrate;salt=bitartrate_monohydrate,2,mg,", 2, 46, "salt_ratio is given twice"},
		{"a,convert,value=5 mg; from=g,5000,mcg,", 2, 23, "from says g and value is in mg: write one of them"},
		{"a,convert,value=5; from=mg; from=g,5000,mcg,", 2, 29, "from is given twice"},
		{"a,convert,value=5 mg; to=mcg; to=g,5000,,", 2, 31, "to is given twice"},
		{"a,convert,value=5 mg; to=mcg,0.005,g,", 2, 23, "to says mcg and the answer is in g: write one of them"},
		{"a,rate,dose=8 mcg/min; conc_mcg_mL=16,30,mL/h,exactish", 2, 47, `"exactish" is no rounding: write exact, nominal, or nearest and one of`},
		{"a,rate,dose=8 mcg/min; conc_mcg_mL=16,30,mL/h, nearest (tenth)", 2, 48, `"nearest" is no rounding`},
		{"a,rate,dose=8 mcg/min; conc_mcg_mL=16,30,mL/h,nearest inexact tenth", 2, 47, `"nearest inexact tenth" is no rounding`},
	} {
		rows, err := Check([]byte(head + c.row + "\n"))
		if err != nil || len(rows) != 1 {
			t.Errorf("%s: %v", c.row, err)
			continue
		}
		f := rows[0].Fault
		if rows[0].Verdict != Unreadable || f == nil || f.Line != c.line || f.Column != c.column || !strings.Contains(f.Said, c.says) {
			t.Errorf("%s\n is %s: %v, want %d:%d: ... %s", c.row, rows[0].Verdict, f, c.line, c.column, c.says)
		}
	}
	for _, c := range []struct{ src, says string }{
		{"", "1:1: the file is empty"},
		{"id,kind\n", "the column inputs is missing"},
		{"id;kind;inputs;answer;unit\n", "parted by something else than commas"},
		{"id,id,kind,inputs,answer,unit\n", "the column id stands twice"},
		{head + "a,rate,dose=\"8\",1,mL,\n", "2:13: the row is no CSV"},
		{head + "a,\x1b[2J,b,1,mL,\n", "2:3: the character U+001B does not print"},
		{head + "a,\xff,b,1,mL,\n", "not UTF-8"},
	} {
		if _, err := Check([]byte(c.src)); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q: %v, want it to say %q", c.src, err, c.says)
		}
	}
}

// The unit stands in the value or in the name, and an answer may carry its
// own; rounding and exactness are as stated, and unsafe notation is told.
func TestRowsAreReadAsTheyAreMeant(t *testing.T) {
	const head = "id,kind,inputs,answer,unit,rounding,whatever\n"
	for _, c := range []struct {
		row     string
		verdict Verdict
		says    string // part of what is said or noted
	}{
		{`a,rate,dose=8 mcg/min; amount=4 mg; volume=250 mL,30,mL/h,exact,x`, Agrees, ""},
		{`a,rate,dose_mcg_min=8;conc_mcg_mL=16,30 mL/h,,exact,x`, Agrees, ""},
		{`a,rate,dose_mcg_min=8;conc_mcg_mL=16,0.5,mL/min,exact,x`, Agrees, ""},
		{`a,rate,dose_mcg_min=8;conc_mcg_mL=16,30,,exact,x`, Differs, "the unit is missing"},
		{`a,rate,dose_mcg_min=8;conc_mcg_mL=17,28.2,mL/h,exact,x`, Differs, "stated as exact"},
		{`a,rate,dose_mcg_min=7;conc_mcg_mL=16,26.3,mL/h,exact,x`, Differs, "stated as exact"},
		{`a,rate,dose_mcg_min=7;conc_mcg_mL=16,26.3,mL/h,Exact,x`, Differs, "stated as exact"},
		{`a,rate,dose_mcg_min=7;conc_mcg_mL=16,26.3,mL/h, EXACT (as printed),x`, Differs, "stated as exact"},
		{`a,rate,dose_mcg_min=7;conc_mcg_mL=16,26.3,mL/h,nominal: as the label says,x`, Agrees, ""},
		{`a,rate,dose_mcg_min=7;conc_mcg_mL=16,26,mL/h,Rounded to the nearest whole number,x`, Agrees, ""},
		{`a,convert,value=5 mg;from=mg;to=mcg,5000,mcg,,x`, Agrees, ""},
		{`a,rate,dose_mcg_min=8;conc_mcg_mL=17,28.2,mL/h,nearest tenth,x`, Agrees, ""},
		{`a,rate,dose_mcg_min=8;conc_mcg_mL=17,28.24,mL/h,nearest tenth,x`, Agrees, ""},
		{`a,rate,dose_mcg_min=8;conc_mcg_mL=17,28.21,mL/h,nearest tenth,x`, Differs, ""},
		{`a,rate,dose_mcg_min=8;conc_mcg_mL=17,28,mL/h,,x`, Agrees, ""},
		{`a,rate,dose_mcg_min=8;conc_mcg_mL=17,28,mL/h,nearest tenth,x`, Differs, "rounded to whole numbers"},
		{`a,rate,dose_mcg_min=8;conc_mcg_mL=16,1800,mL/h,,x`, Differs, "30 mL/h x 60: it comes out when one has multiplied by 60 twice"},
		{`a,weight,weight_lb=133,60.33,kg,nearest hundredth,x`, Agrees, "the other convention for pounds"},
		{`a,concentration,amount=4.0 mg; volume=250 mL,16,mcg/mL,,x`, Agrees, "trailing zero"},
		{`a,amount,volume=2.5 mL; conc=20 units/mL,50,U,,x`, Agrees, "U can be read as 0 or 4"},
		{`a,wrong_entry,programmed=5 mcg/kg/min; told=1600 mg/250 mL; concentration=dopamine 400 mg/250 mL,1.25,mcg/kg/min,exact,x`, Agrees, ""},
	} {
		rows, err := Check([]byte(head + c.row + "\n"))
		if err != nil {
			t.Errorf("%s: %v", c.row, err)
			continue
		}
		r := rows[0]
		told := r.Said + " " + r.Diagnosis.Account() + " " + strings.Join(r.Notes, "; ")
		if r.Verdict != c.verdict || !strings.Contains(told, c.says) {
			t.Errorf("%s\n is %s (%v): %s; want %s: %s", c.row, r.Verdict, r.Fault, told, c.verdict, c.says)
		}
	}
}

// With two bad words the first is told, each time.
func TestTheFirstBadWordIsTold(t *testing.T) {
	for range 50 {
		rows, err := Check([]byte("id,kind,inputs,answer,unit\na,convert,value=5;to=xs;from=ys,5,\n"))
		if err != nil || rows[0].Fault == nil || !strings.Contains(rows[0].Fault.Said, "xs") {
			t.Fatalf("%v, %+v", err, rows)
		}
	}
}

// Whatever keeps a kind from being worked is a fault of the row.
func TestAnyErrorIsAFault(t *testing.T) {
	g := given{at: map[string]int{"dose": 4}}
	inputs, unit := field{"aaa;dose=5", 2, 8}, field{"mL", 2, 30}
	for _, c := range []struct {
		err    error
		column int
	}{{errors.New("no"), 8}, {&sum.InputError{Input: "dose", Said: "no"}, 12}, {&sum.InputError{Said: "the answer is no"}, 30}, {&sum.InputError{Said: "no"}, 8}} {
		if f := g.fault(c.err, inputs, unit); f == nil || f.Line != 2 || f.Column != c.column || !strings.HasSuffix(f.Said, "no") {
			t.Errorf("%v: %v, want column %d", c.err, f, c.column)
		}
	}
}

// Every other name leads to a kind and an input that there are.
func TestOtherNamesLeadSomewhere(t *testing.T) {
	for name, m := range otherKinds {
		for _, k := range m.kinds {
			if _, ok := sum.Named(k); !ok {
				t.Errorf("%s leads to no kind: %s", name, k)
			}
		}
	}
	for name, inputs := range otherInputs {
		for _, o := range inputs {
			found := false
			for _, k := range sum.Kinds() {
				found = found || hasInput(k, o.name)
			}
			if !found {
				t.Errorf("%s leads to no input: %s", name, o.name)
			}
		}
	}
}

func FuzzCheck(f *testing.F) {
	f.Add("id,kind,inputs,answer,unit,rounding\na,rate,dose_mcg_min=8;conc_mcg_mL=16,30,mL/h,exact\n")
	f.Add("id,kind,inputs,answer,unit\n\"a\n\",convert,value=1;from=mg;to=mcg,1000,mcg\n")
	f.Fuzz(func(t *testing.T, src string) {
		rows, err := Check([]byte(src))
		if err != nil {
			return
		}
		for _, r := range rows {
			if (r.Verdict == Unreadable) != (r.Fault != nil) || r.Verdict != Unreadable && r.Sum == nil {
				t.Fatalf("%+v", r)
			}
		}
	})
}
