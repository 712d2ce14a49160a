package prompt

import "time"

// draftEvery is how often what is being typed is saved: each save waits for
// the disk.
const draftEvery = time.Second

// drafting saves what is being typed on one line.
type drafting struct {
	keep  func(text string) // nil for nothing
	last  time.Time         // of the last save
	typed bool              // something has been typed since
}

// beat saves when it is time to.
func (d *drafting) beat(now time.Time, text string) {
	if d.typed && now.Sub(d.last) >= draftEvery {
		d.save(text)
		d.last = now
	}
}

// save saves at once what has been typed.
func (d *drafting) save(text string) {
	if d.typed && d.keep != nil {
		d.keep(text)
	}
	d.typed = false
}

// leave saves what stands on a line that is left: nothing more may be heard of
// the last keys.
func (d *drafting) leave(text string) {
	d.typed = d.typed || text != ""
	d.save(text)
}
