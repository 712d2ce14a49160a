package scenarios

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// Code is what there is to say about one complaint code: its meaning, and an
// example that a program can run. Codes are stable; messages may be reworded.
type Code struct {
	Name   string
	Level  Level
	Means  string // what is wrong, and why it is not let pass
	In     string // kind of file the example stands in, one of [Kinds]
	Fails  string // the lines at fault
	Mended string // the same lines put right

	// At is the stretch of the sound file that both replace; empty when it
	// is Mended itself. "..." in it stands for everything between. A whole
	// file needs no such stretch.
	At    string
	Whole bool
	With  []string // codes that cannot but come with this one
}

// Codes lists every code of this package, of package scoring and of the
// command that checks files, in the order in which a file is read.
func Codes() []Code {
	return slices.Concat(fileCodes, yamlCodes, valueCodes, fieldCodes, caseCodes, walkCodes, ruleCodes, runCodes, cohortCodes, itemCodes, wordingCodes)
}

// CodeNamed is what there is to say about a code.
func CodeNamed(name string) (Code, bool) {
	for _, c := range Codes() {
		if c.Name == name {
			return c, true
		}
	}
	return Code{}, false
}

// Apply puts an example, failing or mended, into the sound file that it is
// about. It reports false when the file has no such place, or more than one.
func (c Code) Apply(sound, example string) (string, bool) {
	if c.Whole {
		return Unfold(example), true
	}
	at := c.At
	if at == "" {
		at = c.Mended
	}
	from, to, wide := strings.Cut(at, "...")
	begin := strings.Index(sound, from)
	if begin < 0 || strings.Count(sound, from) > 1 {
		return "", false
	}
	end := begin + len(from)
	if wide {
		length := strings.Index(sound[end:], to)
		if length < 0 {
			return "", false
		}
		end += length + len(to)
	}
	return sound[:begin] + Unfold(example) + sound[end:], true
}

var shorthand = regexp.MustCompile(`<(\d+) times: ((?:[^<>]|<[^<>]*>)+)>|<U\+([0-9A-F]{4})>|<byte ([0-9A-F]{2})>`)

// Unfold writes out what an example only names, because it is too long to
// print or not safe to: "<300 times: x>", "<U+202E>" and "<byte FF>".
func Unfold(example string) string {
	return shorthand.ReplaceAllStringFunc(example, func(s string) string {
		m := shorthand.FindStringSubmatch(s)
		switch {
		case m[1] != "":
			n, _ := strconv.Atoi(m[1])
			return strings.Repeat(Unfold(m[2]), n)
		case m[3] != "":
			r, _ := strconv.ParseUint(m[3], 16, 32)
			return string(rune(r))
		}
		b, _ := strconv.ParseUint(m[4], 16, 8)
		return string([]byte{byte(b)})
	})
}
