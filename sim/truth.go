package sim

// Truth is what is so at this moment and nobody at the bed can read: for
// debriefs and for comparing the engine with others.
type Truth struct {
	MeanMmHg   float64
	Perfusion  float64 // of the worst depot, share of normal; 1 without one
	WidthMM    float64 // of the widest swelling
	IschaemicS float64 // so far, as last booked: at the latest a minute ago
}

// Truth reads it; it changes nothing.
func (e *Engine) Truth() Truth {
	t := Truth{MeanMmHg: e.meanAt(e.now.Seconds()), Perfusion: 1, IschaemicS: e.out.IschaemicS}
	for _, s := range e.sites {
		if s.depot == nil {
			continue
		}
		d := e.depotAt(s, e.now.Seconds())
		t.Perfusion = min(t.Perfusion, d.Perfusion())
		t.WidthMM = max(t.WidthMM, d.WidthMM())
	}
	return t
}
