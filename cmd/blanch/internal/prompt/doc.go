// Package prompt is the face a learner types at: one line in, plain lines
// out. On a terminal it has completion and line editing, saves what is being
// typed, and lets the clock run in real time while one may go on typing;
// anywhere else it reads and writes plain lines and every wait jumps to its
// end. Nothing is drawn and nothing depends on colour.
//
// It decides nothing about a case: what is possible, what happened and what
// it is called come from package session as text.
package prompt
