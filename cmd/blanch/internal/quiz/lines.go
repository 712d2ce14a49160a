package quiz

import (
	"fmt"

	"blanch/cmd/blanch/internal/session"
)

func told(format string, args ...any) session.Line {
	return session.Line{Kind: session.Told, Text: fmt.Sprintf(format, args...)}
}

func row(text string) session.Line { return session.Line{Kind: session.Row, Text: text} }

func heading(text string) session.Line { return session.Line{Kind: session.Heading, Text: text} }

func fault(format string, args ...any) session.Line {
	return session.Line{Kind: session.Fault, Text: fmt.Sprintf(format, args...)}
}
