package picture

// A Pen is the set of characters that a picture may use. The zero Pen is ASCII.
type Pen int

const (
	ASCII Pen = iota // bytes below 128 only
	Rich             // also a few characters of one column in every locale
)

// Of the line-drawing characters only those that Unicode's EastAsianWidth.txt
// calls neutral are used. The solid box lines and the blocks are "ambiguous":
// some terminals give them two columns, and then nothing lines up.
type glyphs struct {
	target rune   // the dashes of a target line
	spaced bool   // every second column of a target line stays empty
	slope  []rune // a shallow line through a cell, from its top to its bottom
}

func (p Pen) glyphs() glyphs {
	if p == Rich {
		return glyphs{target: '╌', slope: []rune("⎺⎻⎼⎽")}
	}
	return glyphs{target: '-', spaced: true, slope: []rune("`-.")}
}
