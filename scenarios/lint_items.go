package scenarios

import (
	"fmt"
	"maps"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// What can be seen mechanically of the flaws that item-writing guides list:
// National Board of Medical Examiners, Constructing Written Test Questions
// for the Basic and Clinical Sciences; Haladyna, Downing and Rodriguez 2002,
// Appl Meas Educ 15:309. Whether an option is plausible, no program sees.
var (
	negatives  = regexp.MustCompile(`(?i)\b(not|except|never|unless|cannot|isn't|aren't|doesn't|don't|least likely|least often|incorrect|false)\b`)
	unfocused  = regexp.MustCompile(`(?i)^(which|what) (one )?(of (the following|these|the options) )?(statements? )?(is|are|holds?) (true|correct|right)\b`)
	aboveWords = regexp.MustCompile(`(?i)^(all|none|both|any|neither|some) of (the|these)( (above|below|options|others))?[.]?$|\b(all|none) of the above\b`)
	absolutes  = regexp.MustCompile(`(?i)\b(always|never|only|invariably|completely|entirely|totally|impossible|certainly|guarantees?|guaranteed)\b`)
	vagueOften = regexp.MustCompile(`(?i)\b(usually|often|sometimes|occasionally|rarely|frequently|seldom|generally|commonly)\b`)
	leadNumber = regexp.MustCompile(`^([0-9][0-9,]*(?:\.[0-9]+)?) ?([^\s,;.]*)`)
	endArticle = regexp.MustCompile(`(?i)\b(an?)\s*[?:.]?$`)
)

// longKey is how far the key may be over the median length of the options,
// and shortest is the length under which length gives nothing away.
const (
	longKey  = 1.5
	shortest = 25
)

// lintSingle warns of flaws by which an item gives its key away, or cannot be
// answered with the options covered.
func (r *reader) lintSingle(path string, s *SingleBest) {
	r.lintLeadIn(join(path, "lead-in"), s.LeadIn)
	if !r.sound(join(path, "options")) || len(s.Options) < 3 || len(s.Options) > 5 {
		return
	}
	warn := func(option int, code, said, allowed string) {
		r.at(fmt.Sprintf("%s/options/%d/option", path, option+1), Warning, code, said, allowed)
	}
	for i, o := range s.Options {
		if aboveWords.MatchString(o.Says) {
			r.at(fmt.Sprintf("%s/options/%d/option", path, i+1), Error, "sum-of-options", "this option is about the other options", "an answer of its own, or one option fewer")
		}
		if m := absolutes.FindString(o.Says); m != "" {
			warn(i, "absolute-option", fmt.Sprintf("this option has the word %s, which marks it as wrong", quoted(m)), "what is true of the situation, without it")
		}
		if m := vagueOften.FindString(o.Says); m != "" {
			warn(i, "vague-option", fmt.Sprintf("this option has the word %s, which readers take for different shares", quoted(m)), "a number, or the option without it")
		}
	}
	r.lintLength(s, warn)
	r.lintRepeated(s, warn)
	r.lintNumbers(s, warn)
	r.lintArticle(s, warn)
	r.lintBeginnings(s, warn)
	r.lintStops(s, warn)
}

// lintLeadIn wants a question that can be answered with the options covered.
func (r *reader) lintLeadIn(at, text string) {
	if !r.sound(at) {
		return
	}
	if !strings.HasSuffix(text, "?") {
		r.at(at, Error, "no-question", "the lead-in is not a question", "a question that can be answered with the options covered, ending with a question mark")
	}
	if m := negatives.FindString(text); m != "" {
		r.at(at, Warning, "negative-lead-in", fmt.Sprintf("the lead-in asks for what does not hold: %s", quoted(m)), "a question for what does hold")
	}
	if unfocused.MatchString(text) {
		r.at(at, Warning, "unfocused-lead-in", "the lead-in asks which option is true, so it cannot be answered with the options covered", "a question about the situation: what to do, what explains it, which value")
	}
}

type warner func(option int, code, said, allowed string)

// lintLength warns where an option that can be the key is the longest by far.
func (r *reader) lintLength(s *SingleBest, warn warner) {
	lengths := make([]int, len(s.Options))
	for i, o := range s.Options {
		lengths[i] = utf8.RuneCountInString(o.Says)
	}
	sorted := slices.Sorted(slices.Values(lengths))
	median := float64(sorted[(len(sorted)-1)/2]+sorted[len(sorted)/2]) / 2
	for i := range s.Options {
		if s.CanBeRight(i) && lengths[i] == sorted[len(sorted)-1] && lengths[i] > shortest && float64(lengths[i]) > longKey*median {
			warn(i, "long-key", fmt.Sprintf("the key has %d characters, and the median of the options is %s", lengths[i], strconv.FormatFloat(median, 'f', -1, 64)), "options of about one length; what the key explains may go under because")
		}
	}
}

// lintRepeated warns of a word of the stem that comes back in the key and in
// no other option.
func (r *reader) lintRepeated(s *SingleBest, warn warner) {
	key := -1
	for i := range s.Options {
		if s.CanBeRight(i) {
			if key >= 0 {
				return // the key is not one and the same
			}
			key = i
		}
	}
	if key < 0 {
		return
	}
	clue := ""
	stem := contentWords(s.Stem + " " + s.LeadIn)
	others := map[string]string{}
	for i, o := range s.Options {
		if i != key {
			maps.Copy(others, contentWords(o.Says))
		}
	}
	for word, w := range contentWords(s.Options[key].Says) {
		_, known := stem[word]
		_, elsewhere := others[word]
		if known && !elsewhere && (clue == "" || w < clue) {
			clue = w
		}
	}
	if clue != "" {
		warn(key, "word-only-in-key", fmt.Sprintf("%s stands in the stem and in the key, and in no other option", quoted(clue)), "another word, or the same word in another option too")
	}
}

// plainWords say too little to be a clue.
var plainWords = strings.Fields("about above after again against before being below between beside could does during each first from have into itself more most much other over should such than that their them then there these they this those through under until what when where which while whose with without would your line patient")

// contentWords are the words of a text that could be a clue, by what is left
// of them without the commonest endings.
func contentWords(text string) map[string]string {
	out := map[string]string{}
	for _, w := range strings.FieldsFunc(strings.ToLower(text), func(c rune) bool { return !unicode.IsLetter(c) && c != '-' }) {
		if len(w) < 5 || slices.Contains(plainWords, w) {
			continue
		}
		root := w
		for _, end := range []string{"ing", "es", "ed", "s"} {
			if cut, ok := strings.CutSuffix(w, end); ok && len(cut) >= 4 {
				root = cut
				break
			}
		}
		out[root] = w
	}
	return out
}

// lintNumbers wants options that begin with numbers of one unit in ascending
// or descending order.
func (r *reader) lintNumbers(s *SingleBest, warn warner) {
	var values []float64
	unit := ""
	for i, o := range s.Options {
		m := leadNumber.FindStringSubmatch(o.Says)
		if m == nil || i > 0 && m[2] != unit {
			return
		}
		unit = m[2]
		v, err := strconv.ParseFloat(strings.ReplaceAll(m[1], ",", ""), 64)
		if err != nil {
			return
		}
		values = append(values, v)
	}
	up, down := true, true
	for i := 1; i < len(values); i++ {
		up, down = up && values[i-1] <= values[i], down && values[i-1] >= values[i]
	}
	if !up && !down {
		warn(0, "unordered-numbers", "the options are numbers, and not in their order", "the smallest first")
	}
}

// lintArticle warns where the lead-in ends in an article that fits some of
// the options alone.
func (r *reader) lintArticle(s *SingleBest, warn warner) {
	m := endArticle.FindStringSubmatch(s.LeadIn)
	if m == nil {
		return
	}
	for i, o := range s.Options {
		first, _ := utf8.DecodeRuneInString(strings.ToLower(o.Says))
		if vowel := strings.ContainsRune("aeiou", first); vowel != strings.EqualFold(m[1], "an") {
			warn(i, "article-mismatch", fmt.Sprintf("the lead-in ends in %s, which does not fit this option", quoted(m[1])), "the article in each option")
			return
		}
	}
}

// lintBeginnings warns where all options but one begin alike: the odd one out
// is taken for the key, or for the filler.
func (r *reader) lintBeginnings(s *SingleBest, warn warner) {
	if len(s.Options) < 4 {
		return
	}
	first := make([]string, len(s.Options))
	count := map[string]int{}
	for i, o := range s.Options {
		first[i], _, _ = strings.Cut(strings.ToLower(o.Says), " ")
		count[first[i]]++
	}
	for i, w := range first {
		if count[w] == 1 && len(count) == 2 {
			warn(i, "odd-beginning", "all options but this one begin with the same word", "options that all begin alike, or all differently")
			return
		}
	}
}

// lintStops warns where some options end with a full stop and some do not.
func (r *reader) lintStops(s *SingleBest, warn warner) {
	stops := func(o Option) bool { return strings.HasSuffix(o.Says, ".") }
	for i, o := range s.Options {
		if stops(o) != stops(s.Options[0]) {
			warn(i, "mixed-full-stops", "some options end with a full stop, and some do not", "a full stop after every option or after none")
			return
		}
	}
}

// LeastForPositions is the number of items from which the places of their
// keys are looked at.
const LeastForPositions = 8

// lintPositions warns where the keys of a file stand in one place too often.
// Items whose key follows a policy are left out.
func (r *reader) lintPositions(f *Items) {
	counts, wanted := make([]int, 5), make([]float64, 5)
	n := 0
	for i := range f.Singles {
		s := &f.Singles[i]
		if key := s.Key(nil); key >= 0 && len(s.Options) >= 3 && len(s.Options) <= 5 {
			n++
			counts[key]++
			for j := range s.Options {
				wanted[j] += 1 / float64(len(s.Options))
			}
		}
	}
	if n < LeastForPositions {
		return
	}
	for i, c := range counts {
		if over := float64(c) - wanted[i]; math.Abs(over) > 1+wanted[i]/2 {
			r.at(singles, Warning, "key-positions", fmt.Sprintf("of %d keys %d stand in place %d; about %.0f are to be expected", n, c, i+1, wanted[i]), "keys spread over all places")
			return
		}
	}
}

// bare is a text without what does not make it another: case, spaces, stops.
func bare(text string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(text), func(c rune) bool {
		return unicode.IsSpace(c) || c == ',' || c == ';' || c == '\u00a0'
	}), " ")
}
