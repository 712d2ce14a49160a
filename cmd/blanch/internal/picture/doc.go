// Package picture draws small pictures in text: the pressure over time, the
// long section through skin and vein, the site from above, a share, a bag, a
// syringe, the fields of a pump. Plain numbers go in, lines of text come out;
// the package knows no patient, no screen and no colour.
//
// A Pen says which characters may be used:
//
//	lines := picture.ASCII.Section(picture.Section{
//		DiameterMM: 2.9, DepthMM: 5.5, LengthMM: 47.8, AngleDeg: 30,
//		PathMM: 11, InVeinMM: 36.8, OuterMM: 1.1,
//	}, 78, 12)
//
// # Size
//
// Every line is exactly width columns and a picture with a height is exactly
// height lines, whatever the numbers in it. A size below zero counts as zero.
// Where the room is too small for a picture the facts are given in words, and
// where it is too small for a fact the fact is left out whole: a number is
// never cut, since half of a number reads as another number.
//
// # Scale
//
// A terminal cell is taken to be twice as high as it is wide. On that footing
// one scale holds in both directions of Section and Swelling, it is a whole
// number of columns for 1 cm, and the picture shows it as a bar.
//
// # Steadiness
//
// Axes and windows move in fixed steps, so that a number keeps its place from
// one frame to the next while what it measures changes.
package picture
