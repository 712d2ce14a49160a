// Package otherhour plays a finished attempt again with one decision moved.
//
// An [Hour] is an attempt with what was read out of it: its acts, and the
// decisions they make up. A decision is an act with those that follow because
// of it. A [Move] says what is done otherwise with one of them, and
// [Hour.Play] plays the hour with it. [Hour.Compare] sets both side by side.
//
// What follows a decision shifts with it; all else stays at its time. What a
// look found leads to the answer only where some look finds it: the loop is
// closed. What became impossible stands in the journal as refused, and is
// told. With nothing moved the journal and the result are those of the
// attempt, byte for byte.
//
// [Hour.Choose] tries the moves that the marks and the policy suggest and
// picks one, always the same. [Hour.Lucks] plays the hour under other seeds.
//
// All of it is a function of case, place, policy, seed and timed acts. It
// describes the teaching model and never a real arm.
package otherhour
