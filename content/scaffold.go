package content

import (
	"embed"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"blanch/scenarios"
)

//go:embed scaffold/*.yaml
var scaffolds embed.FS

//go:embed guide/writing-a-case.md
var guide string

// Scaffolds lists the kinds of file that can be begun from a scaffold.
func Scaffolds() []string {
	return slices.DeleteFunc(scenarios.Kinds(), func(kind string) bool {
		_, err := fs.Stat(scaffolds, "scaffold/"+kind+".yaml")
		return err != nil
	})
}

// Scaffold is a file to write over, of one of the kinds of [Scaffolds] and of
// that name, which checks clean and, when it is a case, plays.
func Scaffold(kind, name string) (string, error) {
	src, err := scaffolds.ReadFile("scaffold/" + kind + ".yaml")
	if err != nil {
		return "", fmt.Errorf("there is no scaffold of a %s: there are %s", kind, strings.Join(Scaffolds(), ", "))
	}
	lines := strings.Split(string(src), "\n")
	for i, line := range lines {
		if strings.HasPrefix(line, kind+": ") {
			lines[i] = kind + ": " + name
			break
		}
	}
	return strings.Replace(strings.Join(lines, "\n"), "uses: [leak-told]", "uses: ["+name+"]", 1), nil
}

// ToWriteOver is the words of the scaffolds that say of themselves that
// they are to be written over.
func ToWriteOver() []string {
	return []string{
		"A case that is still to be named",
		"Still to be set, by two educators, item by item.",
		"The author's own teaching; sources are still to be named",
		"A place to write over",
		"A policy to write over",
		"Items that are still to be named",
	}
}

// Guide tells an author how a case is written, in Markdown.
func Guide() string { return guide }
