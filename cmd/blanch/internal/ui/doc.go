// Package ui is the face on a whole screen. It shows one attempt through
// package session and passes keys back to it; what is possible, what it is
// called and what came of it is decided there.
//
//	left, err := ui.Run(ui.Opening{Cases: session.Shelf(), Begin: begin}, ui.Options{})
//
// Run returns when whoever sits there leaves, by a key, Ctrl-C, a signal or a
// lost terminal. The terminal is whole again by then, after a panic too, and
// [Left] says which attempt was open.
//
// # How it is built
//
// The screen is one tview primitive, [UI]. On it lies a stack of views, of
// which the top one is drawn and gets the keys; Esc takes it off. Above it a
// head stays in sight while an attempt is played: the time and what the clock
// does, the patient and the order, the pressure, and what runs through which
// line. Below it the last row names the next keys, the way out first.
//
// Everything is drawn by [canvas.text], which is also the one place where text
// is made safe for tview, whose style tags look like [this].
//
// # Threads
//
// The session and the views belong to tview's event loop. One other goroutine
// brings the time and the signals into it; it has ended before the application
// is stopped, since an update queued later would wait for ever.
package ui
