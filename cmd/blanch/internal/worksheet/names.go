package worksheet

import (
	"slices"

	"blanch/sim/sum"
)

// meant is what another name for a kind stands for.
type meant struct {
	kinds []string
	dose  string // the unit of a dose that is given without one
}

// otherKinds are names that say the kind together with a unit, as sheets of
// several sources can share one table.
var otherKinds = map[string]meant{
	"conc_mcg_mL":              {[]string{"concentration"}, ""},
	"conc_mg_mL":               {[]string{"concentration"}, ""},
	"conc_units_mL":            {[]string{"concentration"}, ""},
	"implied_conc":             {[]string{"implied_concentration"}, ""},
	"dilution_C1V1":            {[]string{"stock_needed", "diluted"}, ""},
	"salt_from_base":           {[]string{"salt"}, ""},
	"base_from_salt":           {[]string{"base"}, ""},
	"rate_mcg_kg_min":          {[]string{"rate"}, "mcg/kg/min"},
	"rate_mcg_min":             {[]string{"rate"}, "mcg/min"},
	"rate_units_min":           {[]string{"rate"}, "units/min"},
	"rate_units_h":             {[]string{"rate"}, "units/h"},
	"rate_mg_h":                {[]string{"rate"}, "mg/h"},
	"rate_mL_kg_min":           {[]string{"rate_per_kg"}, "mcg/kg/min"},
	"dose_mcg_min":             {[]string{"dose"}, ""},
	"dose_mcg_kg_min":          {[]string{"dose"}, ""},
	"dose_units_min":           {[]string{"dose"}, ""},
	"dose_units_h":             {[]string{"dose"}, ""},
	"dose_mcg_min_from_mL_min": {[]string{"dose"}, ""},
	"actual_dose_wrong_conc":   {[]string{"wrong_entry"}, ""},
	"runout_h":                 {[]string{"run_out"}, ""},
	"gtt_min":                  {[]string{"drops"}, ""},
	"gtt_min_dose":             {[]string{"drops"}, ""},
	"dose_volume":              {[]string{"draw_up"}, ""},
	"dose_volume_weight":       {[]string{"draw_up"}, ""},
	"dose_amount":              {[]string{"amount"}, ""},
	"count_vials":              {[]string{"vials"}, ""},
	"convert_mass":             {[]string{"convert"}, ""},
	"convert_rate":             {[]string{"convert"}, ""},
	"convert_lb_kg":            {[]string{"weight"}, ""},
}

// kindsNamed are the kinds that a name can stand for.
func kindsNamed(name string) (kinds []*sum.Kind, dose string) {
	if k, ok := sum.Named(name); ok {
		return []*sum.Kind{k}, ""
	}
	other := otherKinds[name]
	for _, n := range other.kinds {
		k, _ := sum.Named(n)
		kinds = append(kinds, k)
	}
	return kinds, other.dose
}

// otherInput is another name for an input, with its unit where the name says
// that as well.
type otherInput struct{ name, unit string }

// otherInputs leads from a name to what it can stand for; the unit decides.
var otherInputs = map[string][]otherInput{
	"conc":            {{"concentration", ""}},
	"units_per_mL":    {{"concentration", "units/mL"}},
	"gtt_mL":          {{"drop_factor", "gtt/mL"}},
	"hours":           {{"time", "h"}},
	"mg_per_vial":     {{"per_vial", "mg"}},
	"units_per_vial":  {{"per_vial", "units"}},
	"V2":              {{"final_volume", ""}},
	"stock":           {{"stock_volume", ""}, {"stock_amount", ""}},
	"stock_vol":       {{"stock_volume", ""}},
	"have":            {{"in", ""}},
	"dose":            {{"order", ""}},
	"rate":            {{"value", ""}},
	"programmed_conc": {{"told", ""}},
	"true_conc":       {{"concentration", ""}},
	"ordered_conc":    {{"intended", ""}},
	"hung_conc":       {{"programmed", ""}},
}

// inputsNamed are the inputs of a kind that a name can stand for, its own
// first, with the unit that the name says.
func inputsNamed(k *sum.Kind, name string) []otherInput {
	var out []otherInput
	if _, ok := k.Input(name); ok {
		out = append(out, otherInput{name, ""})
	}
	for _, o := range otherInputs[name] {
		if _, ok := k.Input(o.name); ok && !slices.Contains(out, o) {
			out = append(out, o)
		}
	}
	return out
}
