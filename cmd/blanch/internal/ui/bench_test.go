package ui

import (
	"fmt"
	"runtime"
	"testing"
)

// BenchmarkFrame draws the bedside with an infusion running.
func BenchmarkFrame(b *testing.B) {
	for _, size := range [][2]int{{80, 24}, {200, 60}} {
		b.Run(fmt.Sprintf("%dx%d", size[0], size[1]), func(b *testing.B) {
			d := sit(b, size[0], size[1])
			d.press("Down", "Enter", "End", "Enter").start().say("wait until 0:50")
			b.ReportAllocs()
			for b.Loop() {
				d.draw()
			}
		})
	}
}

// BenchmarkFirstScreen goes from nothing to a drawn bedside: files read and
// checked, rules compiled, engine and screen made.
func BenchmarkFirstScreen(b *testing.B) {
	for b.Loop() {
		sit(b, 80, 24).press("Down", "Enter", "End", "Enter")
	}
}

// BenchmarkMemoryAfterAPlay is what one play to the debrief adds to the live
// heap while it is still open.
func BenchmarkMemoryAfterAPlay(b *testing.B) {
	live := func() float64 {
		var stats runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&stats)
		return float64(stats.HeapAlloc) / 1e6
	}
	added := 0.0
	for b.Loop() {
		before := live()
		d := sit(b, 80, 24)
		d.press("Down", "Enter", "End", "Enter").start().say("wait until 1:25")
		d.press("Esc", "End", "Enter", "Down", "Enter", "Enter")
		added = live() - before
		runtime.KeepAlive(d)
	}
	b.ReportMetric(added, "MB/play")
}
