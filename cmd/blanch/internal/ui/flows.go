package ui

import (
	"slices"
	"strings"

	"blanch/cmd/blanch/internal/session"
)

// flowsIn are the lines and what they carry, as fully as there is room for.
// What runs comes first to its pump and rate, then to when its site was seen;
// what carries nothing is left out before anything that runs is.
func flowsIn(b session.Board, w, h int) []row {
	if len(b.Flows) == 0 {
		return []row{{"no line", 0, plain}}
	}
	set := make([][]string, len(b.Flows))
	left := h
	give := func(runs bool, form func(session.Flow, int, bool) []string) {
		for i, f := range b.Flows {
			if f.Runs != runs {
				continue
			}
			if rows := form(f, w, len(b.Flows) < 3); len(rows)-len(set[i]) <= left {
				left -= len(rows) - len(set[i])
				set[i] = rows
			}
		}
	}
	give(true, flowShort)
	give(true, flowNamed)
	give(true, flowSeen)
	give(false, flowStill)
	give(true, flowLasts)
	give(true, flowFull)
	give(false, flowFull)
	var out []row
	for i, rows := range set {
		for j, s := range rows {
			st := plain
			if j == 0 && (b.Flows[i].Rate != "" || b.Flows[i].What != "nothing connected") {
				st = strong
			}
			out = append(out, row{s, 0, st})
		}
	}
	return out
}

// flowRate is the pump with its rate, as much as fits.
func flowRate(f session.Flow, w int) string {
	rate := strings.TrimSuffix(f.Rate, ", running")
	mlh, _, _ := strings.Cut(rate, " = ")
	return fit(w, f.Pump+", "+f.Rate, f.Pump+", "+rate, f.Pump+" "+mlh, mlh)
}

// flowShort is one row.
func flowShort(f session.Flow, w int, _ bool) []string {
	rate := strings.TrimSuffix(f.Rate, ", running")
	mlh, _, _ := strings.Cut(rate, " = ")
	return []string{fit(w, f.Name+": "+f.Pump+", "+rate, f.Name+": "+rate, f.Name+": "+mlh)}
}

// flowNamed is two rows: the line with the drug, the pump with its rate.
func flowNamed(f session.Flow, w int, _ bool) []string {
	return []string{fit(w, f.Name+", "+f.Drug, f.Name), "  " + flowRate(f, w-2)}
}

// flowSeen is the same and when the site was last seen.
func flowSeen(f session.Flow, w int, all bool) []string {
	out := flowNamed(f, w, all)
	if f.Looked != "" {
		out = append(out, "  "+fit(w-2, f.Looked, f.Felt))
	}
	return out
}

// flowLasts is the same and for how long the bag lasts.
func flowLasts(f session.Flow, w int, all bool) []string {
	out := flowSeen(f, w, all)
	if f.Empties != "" {
		out = slices.Insert(out, 2, "  "+cut(f.Empties, w-2))
	}
	return out
}

// flowStill is one row of what does not run.
func flowStill(f session.Flow, w int, _ bool) []string { return flowFull(f, w, false)[:1] }

// flowFull is everything that is known of it. What carries nothing is more
// than a row only where there are few lines.
func flowFull(f session.Flow, w int, few bool) []string {
	out := []string{f.Name}
	gauge, _, _ := strings.Cut(f.About, ",")
	if i := slices.IndexFunc([]string{f.About, gauge}, func(more string) bool { return more != "" && width(f.Name+", "+more) <= w }); i >= 0 {
		out[0] += ", " + []string{f.About, gauge}[i]
	}
	if f.Rate == "" && f.What == "nothing connected" {
		out[0] = cut(out[0], w)
		if few {
			out = append(out, "  nothing connected", "  "+f.Looked)
		}
		return out
	}
	for _, s := range []string{f.What, f.Rate, f.Empties, f.Looked} {
		if s == "" {
			continue
		}
		for _, part := range fold(s, w-2) {
			out = append(out, "  "+part)
		}
	}
	return out
}
