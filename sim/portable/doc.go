// Package portable computes exp, log, pow and sin to the same bits on
// every CPU and at every build level.
//
// The standard library's versions are assembly on some machines, and the
// compiler may fuse a product and a sum into one rounding where the machine
// can. Either moves the last bit, and a simulation that compares computed
// values with thresholds turns a last bit into another story. Here every
// function is plain Go over +, -, *, / and exact bit operations, which IEEE
// 754 fixes to the bit, and every product is rounded by an explicit float64
// conversion, which forbids fusing (Go specification, Floating-point
// operators).
//
// The methods are textbook ones: argument reduction with a constant split
// into exact parts, Taylor series short enough for the reduced range, and
// error-free sums and products (Knuth, The Art of Computer Programming,
// vol. 2, 4.2.2; Dekker, Numer. Math. 18, 1971) where a rounding would show.
// Every function is within one unit in the last place of the true value, and
// OneMinusExpOver within two.
package portable

// Pi is the circle constant.
const Pi = 3.14159265358979323846264338327950288419716939937510582097494459
