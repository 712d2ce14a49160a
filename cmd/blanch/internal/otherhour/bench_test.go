package otherhour

import "testing"

// BenchmarkChoose reads a recorded hour, plays every candidate and picks one.
func BenchmarkChoose(b *testing.B) {
	h := walked(b, "unchecked")
	b.Run("read", func(b *testing.B) {
		for b.Loop() {
			if _, err := New(h.Attempt); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("choose", func(b *testing.B) {
		tried := 0
		for b.Loop() {
			tried = h.Choose().Tried
		}
		b.ReportMetric(float64(tried), "candidates")
	})
}

// BenchmarkLucks plays both hours under other seeds.
func BenchmarkLucks(b *testing.B) {
	h := walked(b, "unchecked")
	c := h.Choose()
	const n = 50
	played := 0
	for b.Loop() {
		played += h.Lucks(c.Best.Move, n).Tried
	}
	b.ReportMetric(float64(played)/b.Elapsed().Seconds(), "lucks/s")
}
