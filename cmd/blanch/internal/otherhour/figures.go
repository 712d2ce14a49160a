package otherhour

import (
	"math"
	"slices"
	"strings"

	"blanch/sim"
)

// Figures are what an hour came to in the model.
type Figures struct {
	Visible   sim.Time // when a look could first have found the leak; Never
	Found     sim.Time // when one first did, or the line was rightly judged to leak
	First     string   // the first finding of it, as text
	Stopped   sim.Time // when nothing ran through the leaking line any more
	Antidote  sim.Time // when antidote first went in
	Ischaemia float64  // minutes that the arm was short of blood
	Under     float64  // minutes under the target, in truth, once drug had reached the blood
	Over      float64  // minutes over the upper limit, in truth
	DrugFree  float64  // minutes without drug in between
	NoDrug    float64  // minutes before drug first reached the blood
	Treated   sim.Time // when the site was first treated with a drug, antidote or ointment
	Treatment string   // which: "phentolamine", "nitrate ointment"
	Tissue    []sim.TissueDrug
	Short     bool // the arm was still short of blood at the end
}

// FiguresOf reads them off a run.
func FiguresOf(r *sim.Result) Figures {
	o := r.Outcome
	f := Figures{
		Visible: sim.Never, Found: sim.Never, Stopped: sim.Never, Antidote: sim.Never, Treated: sim.Never,
		Ischaemia: o.IschaemicS / 60, Under: o.UnderS / 60, Over: o.OverS / 60, DrugFree: o.DrugFreeS / 60,
		NoDrug: min(o.FirstDrug, r.Ended).Seconds() / 60, Tissue: r.Tissue, Short: r.Short,
	}
	for _, s := range r.Sights {
		if s.Sign == "leak" {
			f.Visible = min(f.Visible, s.At)
		}
	}
	for i := range r.Journal {
		en := &r.Journal[i]
		switch {
		case wrong(en) && leaking(r, en.Subject, en.At):
			if f.First == "" {
				f.First = strings.TrimSuffix(lower(en.Text()), ".")
			}
			f.Found = min(f.Found, en.At)
		case en.Kind == sim.Done && en.Act == "judge" && en.Word == "leaking" && leaking(r, en.Subject, en.At):
			f.Found = min(f.Found, en.At)
		case en.Kind == sim.Done && (en.Act == "infiltrate" || en.Act == "antidote-through"):
			f.Antidote = min(f.Antidote, en.At)
			f.treat(en.At, antidoteOf(r, en.Word))
		case en.Kind == sim.Done && en.Act == "nitrate":
			f.treat(en.At, "nitrate ointment")
		}
	}
	f.Stopped = stopped(r)
	return f
}

// treat notes the first treatment.
func (f *Figures) treat(at sim.Time, with string) {
	if at < f.Treated {
		f.Treated, f.Treatment = at, with
	}
}

// antidoteOf is the drug that was given; an entry may name its syringe.
func antidoteOf(r *sim.Result, word string) string {
	for _, b := range r.Bags {
		if b.ID == word {
			return b.Drug
		}
	}
	return word
}

// leaking says that the line in a vein had begun to leak by then.
func leaking(r *sim.Result, line string, at sim.Time) bool {
	return slices.ContainsFunc(r.Lines, func(l sim.LineRecord) bool { return l.Subject == line && l.Leaks <= at })
}

// stopped is when the last infusion through a leaking line ended; Never when
// none leaked, or one still ran at the end.
func stopped(r *sim.Result) sim.Time {
	at := sim.Never
	for _, run := range r.Runs {
		if run.MLH <= 0 {
			continue
		}
		for _, l := range r.Lines {
			if l.Subject != run.Subject || l.Leaks == sim.Never || min(run.To, r.Ended) <= l.Leaks || run.From < l.Placed {
				continue
			}
			switch {
			case run.To >= r.Ended:
				return sim.Never
			case at == sim.Never || run.To > at:
				at = run.To
			}
		}
	}
	return at
}

// LeastMin is the least difference, in minutes, that counts as one. The cuff
// of most places reads every five minutes and a single answer to a leak takes
// about as long, so less than that could not be told from a different reading;
// it is also well inside what the assumed numbers of the model move.
const LeastMin = 5.0

// measures are what a better hour has less of, the first that differs decides.
var measures = []struct {
	of   func(Figures) float64
	what string // "the arm is short of blood"
}{
	{func(f Figures) float64 { return f.Ischaemia }, "the arm is short of blood"},
	{func(f Figures) float64 { return f.NoDrug + f.Under }, "the pressure is under the target or no drug has reached the blood"},
	{func(f Figures) float64 { return f.Over }, "the pressure is over the upper limit"},
}

// drops are by how many minutes each measure is less in the other hour.
func drops(before, after Figures) []float64 {
	out := make([]float64, len(measures))
	for i, m := range measures {
		out[i] = m.of(before) - m.of(after)
	}
	return out
}

// nearly forgives the last bits of a difference of minutes.
func nearly(a, b float64) bool { return math.Abs(a-b) < 1.0/60 }
