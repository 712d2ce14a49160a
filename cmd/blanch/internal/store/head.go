package store

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

// Format is the only version of the file format that this package writes and
// reads.
const Format = 1

// Head is the first line of a recording: all that the attempt began from, so
// that it can be replayed when the files it was started with have changed.
type Head struct {
	Format   int    `json:"format"`   // set by Create
	Revision int    `json:"revision"` // of the engine
	Seed     uint64 `json:"seed,string"`

	// Names and full texts of the files.
	CaseFile   string `json:"case_file"`
	Case       string `json:"case"`
	PlaceFile  string `json:"place_file"`
	Place      string `json:"place"`
	PolicyFile string `json:"policy_file"`
	Policy     string `json:"policy"`

	Fragments []Fragment `json:"fragments,omitempty"` // that the case uses

	// SHA-256 of the texts in lower-case hexadecimal, set by Create.
	CaseDigest   string `json:"case_sha256"`
	PlaceDigest  string `json:"place_sha256"`
	PolicyDigest string `json:"policy_sha256"`

	Mode    string `json:"mode"`    // how the attempt is played; not read here
	Started string `json:"started"` // wall clock by RFC 3339, for information
}

// Fragment is the file of a fragment. Digest is set by Create.
type Fragment struct {
	File   string `json:"file"`
	Text   string `json:"text"`
	Digest string `json:"sha256"`
}

// seal returns h with its format and digests filled in.
func (h Head) seal() Head {
	h.Format = Format
	h.CaseDigest = Digest(h.Case)
	h.PlaceDigest = Digest(h.Place)
	h.PolicyDigest = Digest(h.Policy)
	h.Fragments = slices.Clone(h.Fragments)
	for i := range h.Fragments {
		h.Fragments[i].Digest = Digest(h.Fragments[i].Text)
	}
	return h
}

// check reports a head whose digests are not those of its texts.
func (h Head) check() error {
	type part struct{ name, text, digest string }
	parts := []part{
		{"case", h.Case, h.CaseDigest},
		{"place", h.Place, h.PlaceDigest},
		{"policy", h.Policy, h.PolicyDigest},
	}
	for _, f := range h.Fragments {
		parts = append(parts, part{"fragment", f.Text, f.Digest})
	}
	for _, part := range parts {
		if want := Digest(part.text); part.digest != want {
			return fmt.Errorf("%s digest %q is not that of its text, want %q", part.name, part.digest, want)
		}
	}
	return nil
}

// texts refuses what JSON would not give back as it was.
func (h Head) texts() error {
	texts := []string{h.CaseFile, h.Case, h.PlaceFile, h.Place, h.PolicyFile, h.Policy, h.Mode, h.Started}
	for _, f := range h.Fragments {
		texts = append(texts, f.File, f.Text)
	}
	return validText(texts...)
}

// Digest returns the SHA-256 of a text in lower-case hexadecimal.
func Digest(text string) string {
	sum := sha256.Sum256([]byte(text))
	return hex.EncodeToString(sum[:])
}

func validText(texts ...string) error {
	for _, s := range texts {
		if !utf8.ValidString(s) {
			return errors.New("text " + shorten(s) + " is not valid UTF-8")
		}
	}
	return nil
}

// shorten quotes the beginning of a text for a message.
func shorten(s string) string {
	const most = 40
	if len(s) > most {
		s = strings.ToValidUTF8(s[:most], "") + "..."
	}
	return fmt.Sprintf("%q", s)
}
