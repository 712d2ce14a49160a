package sum

import (
	"math"
	"math/rand/v2"
	"testing"

	"blanch/sim/dose"
)

// The steps of each kind come to what the same sum gives in one formula: that
// of package dose, by which the engine runs, where it has one. The published
// examples are held by package worksheet, through the kinds themselves.
func TestKeysAgreeWithTheFormulas(t *testing.T) {
	f := func(s *Sum, name, unit string) float64 { return s.given[name].Float(unit) }
	has := func(s *Sum, name string) bool { _, ok := s.given[name]; return ok }
	kg := func(s *Sum) float64 {
		if q := s.given["weight"]; q.Unit.String() == "lb" {
			return q.Value / poundsPerKG
		}
		return f(s, "weight", "kg")
	}
	conc := func(s *Sum) float64 { // in mcg/mL or units/mL
		base := "mcg"
		for _, n := range []string{"amount", "stock_amount", "concentration"} {
			if has(s, n) {
				if m, _, _ := shape(s.given[n].Unit); m == "units" {
					base = m
				}
			}
		}
		switch {
		case has(s, "concentration"):
			return f(s, "concentration", base+"/mL")
		case has(s, "stock_amount"):
			stock := dose.Concentration(f(s, "stock_amount", base), f(s, "stock_volume", "mL"))
			return stock * f(s, "taken", "mL") / f(s, "total", "mL")
		}
		return dose.Mix{AmountMcg: f(s, "amount", base), BagML: f(s, "volume", "mL")}.Nominal()
	}
	perMin := func(s *Sum, name string) float64 {
		m, perKG, _ := shape(s.given[name].Unit)
		if m != "units" {
			m = "mcg"
		}
		if perKG {
			return dose.PerMin(f(s, name, m+"/kg/min"), kg(s))
		}
		return f(s, name, m+"/min")
	}
	formulas := map[string]func(s *Sum) float64{
		"concentration": conc,
		"true_concentration": func(s *Sum) float64 {
			base, _, _ := shape(s.Unit)
			return dose.Mix{AmountMcg: f(s, "amount", base), BagML: f(s, "volume", "mL"), DrugML: f(s, "drug_volume", "mL")}.True()
		},
		"diluted": func(s *Sum) float64 {
			return s.given["stock"].Value * f(s, "stock_volume", "mL") / (f(s, "stock_volume", "mL") + f(s, "diluent", "mL"))
		},
		"stock_needed": func(s *Sum) float64 {
			unit := s.given["stock"].Unit.String()
			return f(s, "target", unit) * f(s, "final_volume", "mL") / s.given["stock"].Value
		},
		"implied_concentration": func(s *Sum) float64 {
			return perMin(s, "dose") / f(s, "rate", "mL/min")
		},
		"salt": func(s *Sum) float64 { return s.given["base"].Value * s.given["salt_ratio"].Value },
		"base": func(s *Sum) float64 { return s.given["salt"].Value / s.given["salt_ratio"].Value },
		"rate": func(s *Sum) float64 { return dose.Rate(perMin(s, "dose"), conc(s)) },
		"rate_per_kg": func(s *Sum) float64 {
			m, _, _ := shape(s.given["dose"].Unit)
			if m != "units" {
				m = "mcg"
			}
			return f(s, "dose", m+"/kg/min") / conc(s)
		},
		"dose": func(s *Sum) float64 {
			d := dose.Dose(f(s, "rate", "mL/h"), conc(s))
			if has(s, "weight") {
				d /= kg(s)
			}
			return d
		},
		"new_rate": func(s *Sum) float64 {
			unit := s.given["dose"].Unit.String()
			return f(s, "rate", "mL/h") * f(s, "new_dose", unit) / f(s, "dose", unit)
		},
		"new_dose": func(s *Sum) float64 {
			return s.given["dose"].Value * f(s, "new_rate", "mL/h") / f(s, "rate", "mL/h")
		},
		"wrong_entry": func(s *Sum) float64 {
			unit := s.given["told"].Unit.String()
			return s.given["programmed"].Value * f(s, "concentration", unit) / f(s, "told", unit)
		},
		"error_factor": func(s *Sum) float64 {
			unit := s.given["intended"].Unit.String()
			return f(s, "programmed", unit) / f(s, "intended", unit)
		},
		"run_out": func(s *Sum) float64 {
			if !has(s, "volume") {
				base, _, _ := shape(s.given["dose"].Unit)
				if base != "units" {
					base = "mcg"
				}
				return f(s, "amount", base) / perMin(s, "dose") / 60
			}
			return dose.RunOutH(f(s, "volume", "mL"), f(s, "rate", "mL/h"))
		},
		"hang_next": func(s *Sum) float64 {
			return dose.RunOutH(f(s, "volume", "mL"), f(s, "rate", "mL/h")) - f(s, "lead", "h")
		},
		"volume_needed": func(s *Sum) float64 { return f(s, "rate", "mL/h") * f(s, "time", "h") },
		"first_drug":    func(s *Sum) float64 { return dose.FirstDrugMin(f(s, "dead_volume", "mL"), f(s, "rate", "mL/h")) },
		"flush":         func(s *Sum) float64 { return f(s, "dead_volume", "mL") * conc(s) },
		"vein_share": func(s *Sum) float64 {
			l := f(s, "length", "mm")
			return (l - f(s, "depth", "mm")/math.Sin(s.given["angle"].Value*math.Pi/180)) / l * 100
		},
		"drops": func(s *Sum) float64 {
			rate := 0.0
			switch {
			case has(s, "rate"):
				rate = f(s, "rate", "mL/h")
			case has(s, "dose"):
				rate = dose.Rate(perMin(s, "dose"), conc(s))
			default:
				rate = f(s, "volume", "mL") * 60 / f(s, "time", "min")
			}
			return rate * s.given["drop_factor"].Value / 60
		},
		"draw_up": func(s *Sum) float64 {
			ordered, perKG, _ := shape(s.given["order"].Unit)
			wanted := s.given["order"].Value
			if perKG {
				wanted *= kg(s)
			}
			return wanted * f(s, "in", "mL") / f(s, "have", ordered)
		},
		"amount": func(s *Sum) float64 { return f(s, "volume", "mL") * conc(s) },
		"vials": func(s *Sum) float64 {
			unit := s.given["per_vial"].Unit.String()
			n := f(s, "total", unit) / s.given["per_vial"].Value
			if near := math.Round(n); math.Abs(n-near) < 1e-9 {
				return near
			}
			return math.Ceil(n)
		},
		"split": func(s *Sum) float64 { return s.given["whole"].Value / s.given["parts"].Value },
		"convert": func(s *Sum) float64 {
			v, _ := s.given["value"].In(s.Unit)
			return v
		},
		"weight": func(s *Sum) float64 {
			if s.Unit.String() == "kg" {
				return s.given["weight"].Value / poundsPerKG
			}
			return dose.LBFromKG(s.given["weight"].Value)
		},
		"round": func(s *Sum) float64 { return s.given["value"].Value },
	}
	for i, k := range kinds {
		formula, ok := formulas[k.Name]
		if !ok {
			t.Errorf("%s has no formula to agree with", k.Name)
			continue
		}
		r := rand.New(rand.NewPCG(uint64(i), 4))
		for range rounds(200, 5000) {
			s := draw(r, k)
			if want := formula(s); math.Abs(s.key-want) > 1e-12*want {
				t.Fatalf("%s is %v by its steps and %v by its formula", tell(s), s.key, want)
			}
		}
	}
}
