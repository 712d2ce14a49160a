package main

import (
	"encoding/json"
	"io"
)

// encode writes one JSON document, as it is read: "<" stays "<".
func (p *program) encode(v any) error { return encode(p.out, v, "  ") }

// encode writes a document with an indent, or without one on a single line.
func encode(out io.Writer, v any, indent string) error {
	enc := json.NewEncoder(out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", indent)
	return enc.Encode(v)
}
