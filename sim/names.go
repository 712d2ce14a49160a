package sim

import "slices"

// The names that sentences can use, and what they stand for now.

func (e *Engine) veinIndex(id string) int {
	for i, v := range e.veins {
		if v.ID == id {
			return i
		}
	}
	return -1
}

// lastSite is the latest cannula placed in that vein, also after it was
// pulled; nil when none ever was.
func (e *Engine) lastSite(name string) *site {
	for i := len(e.sites) - 1; i >= 0; i-- {
		if e.sites[i].Subject == name {
			return e.sites[i]
		}
	}
	return nil
}

func (e *Engine) pump(id string) *pumpState {
	for _, p := range e.pumps {
		if p.ID == id {
			return p
		}
	}
	return nil
}

func (e *Engine) bag(id string) *bagState {
	for _, b := range e.bags {
		if b.ID == id {
			return b
		}
	}
	return nil
}

func (e *Engine) person(id string) *personState {
	for _, p := range e.people {
		if p.ID == id {
			return p
		}
	}
	return nil
}

// Vocabulary lists the names that a hole of that kind accepts now.
func (e *Engine) Vocabulary(kind string) []string {
	var out []string
	switch kind {
	case "vein":
		for _, v := range e.veins {
			out = append(out, v.ID)
		}
	case "line":
		for i, s := range e.sites {
			if e.lastSite(s.Subject) == e.sites[i] {
				out = append(out, s.Subject)
			}
		}
	case "pump":
		for _, p := range e.pumps {
			out = append(out, p.ID)
		}
	case "bag":
		for _, b := range e.bags {
			out = append(out, b.ID)
		}
	case "person":
		for _, p := range e.people {
			out = append(out, p.ID)
		}
	case "call":
		for _, o := range e.calls {
			if !o.closed {
				out = append(out, e.c.Calls[o.call].ID)
			}
		}
	case "sum":
		for _, s := range e.sums {
			if s.At == Never {
				out = append(out, s.ID)
			}
		}
	case "drug":
		for _, v := range e.p.Vials {
			if !isAntidote(v.Drug) && !slices.Contains(out, v.Drug) {
				out = append(out, v.Drug)
			}
		}
		for _, p := range e.p.Premixed {
			if !slices.Contains(out, p.Drug) {
				out = append(out, p.Drug)
			}
		}
	}
	return out
}
