package scenarios

import (
	"fmt"
	"regexp"
	"sort"
	"strings"
	"unicode/utf8"
)

// syntaxComplaint words a fault that keeps a file from being YAML at all. The
// library says what it stumbled over, which is often not where the author
// went wrong, so the likely slips are looked for first.
func syntaxComplaint(src *source, err error) Complaint {
	message := syntaxMessage(err)
	line := firstFailing(src, message)
	for _, slip := range slips {
		if slip.message != "" && !strings.Contains(message, slip.message) {
			continue
		}
		if l, column, found := slip.find(src, line); found {
			return Complaint{Level: Error, Code: slip.code, Pos: src.pos(l, column), Said: slip.said, Allowed: slip.allowed}
		}
	}
	l, column, _ := lineStart(src, line)
	return Complaint{
		Level: Error, Code: "syntax", Pos: src.pos(l, column), Said: "this is not readable YAML",
		Allowed: "a key, a colon, a space, a value; nested fields indented with spaces",
	}
}

var lineNumber = regexp.MustCompile(`^yaml: (line \d+: )?`)

// syntaxMessage is the library's message without its line, which is that of
// the group around the fault as often as that of the fault.
func syntaxMessage(err error) string { return lineNumber.ReplaceAllString(err.Error(), "") }

// firstFailing is the first line with which the file up to there fails in
// the same way: there the fault shows.
func firstFailing(src *source, message string) int {
	ends := make([]int, len(src.lines))
	end := 0
	for i, l := range src.lines {
		end += len(l) + 1
		ends[i] = min(end, len(src.text))
	}
	return 1 + sort.Search(len(ends)-1, func(i int) bool {
		err := readable(src.text[:ends[i]])
		return err != nil && syntaxMessage(err) == message
	})
}

// slip is a way to go wrong: what the library then says (empty for
// anything), and where to look for it given the line where it shows.
type slip struct {
	message, code, said, allowed string
	find                         func(src *source, line int) (l, column int, found bool)
}

var slips = []slip{
	{"", "tab-indent", "a tab stands in the indentation", "spaces", tabIndent},
	{
		"exceeded max depth", "too-deep", fmt.Sprintf("values are nested more than %d deep", maxDepth),
		"the fields of the reference, none of which is that deep", lineStart,
	},
	{"unknown anchor", "alias", "an alias stands in the file", "values written out where they are needed", aliasAt},
	{"mapping values are not allowed", "second-colon", `a second ": " on this line makes it unreadable`, `text that holds ": " between quotes, or after "|" on lines of its own`, secondColon},
	{"mapping values are not allowed", "indentation", "this line is indented deeper than the line above it lets it be", "fields of one group under each other", lineStart},
	{"", "bad-start", "a value that begins with this character is not read as text", "the text between quotes", badStart},
	{"did not find expected key", "brace-without-quotes", "text that begins with a brace or bracket is not read as text", "the text between quotes", braceThenText},
	{"", "unclosed-quote", "this quotation mark is not closed on its line", "a quotation mark at both ends", openQuote},
	{"did not find expected ',' or", "question-in-braces", "a question mark stands between braces or brackets without quotes", "the text between quotes", questionMark},
	{"did not find expected ',' or", "unclosed-bracket", "a bracket is not closed, or a comma is missing", "[a, b] or {a: 1, b: 2}; text that holds a comma between quotes", lineStart},
	{"did not find expected key", "indentation", "this line is not indented like those around it", "fields of one group under each other", lineStart},
	{"did not find expected '-'", "indentation", "this line is not indented like the list it stands in", "items of one list under each other", lineStart},
	{"could not find expected ':'", "no-colon", "a key without a colon", "a word, a colon, a space, a value", lineStart},
	{"unknown escape character", "unknown-escape", "a backslash stands before a character that it does not go with", "text between single quotes, where a backslash is only itself", wrongEscape},
}

func lineStart(src *source, line int) (int, int, bool) {
	for line > 1 && strings.TrimSpace(src.line(line)) == "" {
		line--
	}
	text := src.line(line)
	return line, len(text) - len(strings.TrimLeft(text, " ")) + 1, true
}

func tabIndent(src *source, _ int) (int, int, bool) {
	for l, text := range src.lines {
		indent := text[:len(text)-len(strings.TrimLeft(text, " \t"))]
		if i := strings.IndexByte(indent, '\t'); i >= 0 && len(indent) < len(text) {
			return l + 1, i + 1, true
		}
	}
	return 0, 0, false
}

var aliasWord = regexp.MustCompile(`(?:^|[\s\[{,])\*[^\s,\]}]`)

func aliasAt(src *source, _ int) (int, int, bool) {
	for l, text := range src.lines {
		if at := aliasWord.FindStringIndex(text); at != nil {
			return l + 1, column(text, strings.IndexByte(text[at[0]:], '*')+at[0]), true
		}
	}
	return 0, 0, false
}

func secondColon(src *source, line int) (int, int, bool) {
	text := src.line(line)
	i := strings.Index(text, ": ")
	if i < 0 {
		return 0, 0, false
	}
	for j := i + 2; j < len(text); j++ {
		if text[j] == ':' && (j+1 == len(text) || text[j+1] == ' ') {
			return line, column(text, j), true
		}
	}
	return 0, 0, false
}

// value is where the value of "key: value" or "- value" begins, in bytes.
func value(text string) (int, bool) {
	for _, mark := range []string{": ", "- "} {
		if i := strings.Index(text, mark); i >= 0 {
			if rest := strings.TrimLeft(text[i+2:], " "); rest != "" {
				return len(text) - len(rest), true
			}
		}
	}
	return 0, false
}

func badStart(src *source, line int) (int, int, bool) {
	text := src.line(line)
	at, found := value(text)
	if !found || !strings.ContainsRune("!&*@`%", rune(text[at])) {
		return 0, 0, false
	}
	return line, column(text, at), true
}

func braceThenText(src *source, line int) (int, int, bool) {
	text := src.line(line)
	at, found := value(text)
	if !found || text[at] != '{' && text[at] != '[' {
		return 0, 0, false
	}
	after := strings.TrimLeft(text[strings.LastIndexAny(text, "]}")+1:], " ")
	return line, column(text, at), after != "" && after[0] != '#'
}

// openQuote looks upwards from the line where the fault shows for the first
// value with a quotation mark that its line does not close.
func openQuote(src *source, line int) (int, int, bool) {
	for l := 1; l <= line; l++ {
		text := src.line(l)
		at, found := value(text)
		if found && (text[at] == '"' || text[at] == '\'') && !closes(text[at:]) {
			return l, column(text, at), true
		}
	}
	return 0, 0, false
}

// wrongEscape looks for the first backslash that begins no escape of YAML.
func wrongEscape(src *source, line int) (int, int, bool) {
	for ; line > 0; line-- {
		text := src.line(line)
		for i := 0; i+1 < len(text); i++ {
			if text[i] != '\\' {
				continue
			}
			if !strings.ContainsRune("0abt\tnvfre \"'/\\N_LPxuU", rune(text[i+1])) {
				return line, column(text, i), true
			}
			i++
		}
	}
	return 0, 0, false
}

func questionMark(src *source, line int) (int, int, bool) {
	text := src.line(line)
	i := strings.IndexByte(text, '?')
	return line, column(text, max(i, 0)), i >= 0
}

// closes says that quoted text, from its first mark on, ends on its line.
func closes(text string) bool {
	for i := 1; i < len(text); i++ {
		switch {
		case text[0] == '"' && text[i] == '\\':
			i++
		case text[i] != text[0]:
		case text[0] == '\'' && i+1 < len(text) && text[i+1] == '\'':
			i++
		default:
			return true
		}
	}
	return false
}

// column counts the characters before a byte of a line, from 1.
func column(text string, at int) int { return utf8.RuneCountInString(text[:at]) + 1 }
