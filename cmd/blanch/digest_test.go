package main

import (
	"crypto/sha256"
	"encoding/binary"
	"flag"
	"fmt"
	"hash"
	"math"
	"os"
	"reflect"
	"strings"
	"testing"

	"blanch/cmd/blanch/internal/session"
	"blanch/content"
	"blanch/scoring"
	"blanch/sim"
)

var update = flag.Bool("update", false, "write testdata/digests.txt anew")

const digestFile = "testdata/digests.txt"

// moreSeeds are lucks under which every walk-through is played besides its own.
var moreSeeds = []uint64{2, 3}

// TestDigests plays every walk-through of every case that ships and holds
// journal, marks and every bit of every number of the result to a file. The
// file belongs to one engine revision and is the same on every CPU.
func TestDigests(t *testing.T) {
	got := digests(t)
	if *update {
		head := "# Written by go test ./cmd/blanch -run TestDigests -update. A line changes only\n" +
			"# together with sim.Revision, and the commit says why.\n"
		if err := os.WriteFile(digestFile, []byte(head+got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	src, err := os.ReadFile(digestFile)
	if err != nil {
		t.Fatal(err)
	}
	var want strings.Builder
	for line := range strings.Lines(string(src)) {
		if !strings.HasPrefix(line, "#") {
			want.WriteString(line)
		}
	}
	revision, _, _ := strings.Cut(want.String(), "\n")
	if now := fmt.Sprintf("revision %d", sim.Revision); revision != now {
		t.Fatalf("%s is of %q and the engine is of %q: write it anew with -update, and say why", digestFile, revision, now)
	}
	if want.String() != got {
		t.Errorf("the engine or what ships gives other bytes than %s holds: raise sim.Revision, write the file anew with -update, and say why\n%s", digestFile, unlike(want.String(), got))
	}
}

// unlike lists the lines of got that want does not have.
func unlike(want, got string) string {
	had := map[string]bool{}
	for line := range strings.Lines(want) {
		had[line] = true
	}
	var out strings.Builder
	for line := range strings.Lines(got) {
		if !had[line] {
			out.WriteString("now: " + line)
		}
	}
	return out.String()
}

func digests(t *testing.T) string {
	t.Helper()
	var out strings.Builder
	fmt.Fprintf(&out, "revision %d\n", sim.Revision)
	for _, id := range content.Cases() {
		src, err := session.Find(id, "")
		if err != nil {
			t.Fatal(err)
		}
		own, err := session.Load(src, 1)
		if err != nil {
			t.Fatal(err)
		}
		if len(own.Case.Walks) == 0 {
			t.Errorf("%s has no walk-through: nothing holds what it plays", id)
		}
		for _, walk := range own.Case.Walks {
			a := own
			if walk.Policy != "" && walk.Policy != own.Policy.ID {
				other, err := session.Find(id, walk.Policy)
				if err != nil {
					t.Fatal(err)
				}
				if a, err = session.Load(other, 1); err != nil {
					t.Fatal(err)
				}
			}
			for _, seed := range append([]uint64{walk.Seed}, moreSeeds...) {
				r, _, err := scoring.Play(a.Case, a.Place, seed, walk.Steps)
				if err != nil {
					t.Fatal(err)
				}
				h := sha256.New()
				h.Write([]byte(session.Journal(r.Journal)))
				h.Write([]byte(session.Sheet(a, r)))
				numbers(h, reflect.ValueOf(*r))
				fmt.Fprintf(&out, "%s %s seed %d %x\n", id, walk.ID, seed, h.Sum(nil))
			}
		}
	}
	return out.String()
}

// numbers writes the bits of every number of a result. Case and place are
// what went in, and are left out.
func numbers(h hash.Hash, v reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).Type.Kind() != reflect.Pointer {
				numbers(h, v.Field(i))
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			numbers(h, v.Index(i))
		}
	case reflect.Float64:
		bits(h, math.Float64bits(v.Float()))
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		bits(h, uint64(v.Int()))
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		bits(h, v.Uint())
	case reflect.Bool:
		if v.Bool() {
			bits(h, 1)
		} else {
			bits(h, 0)
		}
	case reflect.String:
		h.Write([]byte(v.String()))
	default:
		panic("the result holds a " + v.Kind().String() + ", whose bits are not taken yet")
	}
}

func bits(h hash.Hash, b uint64) {
	h.Write(binary.LittleEndian.AppendUint64(nil, b))
}

// TestDigestTakesEveryBit shows that the last bit of a number, anywhere in a
// result, changes the digest.
func TestDigestTakesEveryBit(t *testing.T) {
	sum := func(r sim.Result) string {
		h := sha256.New()
		numbers(h, reflect.ValueOf(r))
		return string(h.Sum(nil))
	}
	r := sim.Result{Runs: []sim.Run{{MLH: 12.4}}, Outcome: sim.Outcome{TissueML: 1}}
	before := sum(r)
	r.Outcome.TissueML = math.Nextafter(1, 2)
	if sum(r) == before {
		t.Error("the last bit of Outcome.TissueML does not reach the digest")
	}
	r.Outcome.TissueML = 1
	r.Runs[0].MLH = math.Nextafter(12.4, 13)
	if sum(r) == before {
		t.Error("the last bit of Runs[0].MLH does not reach the digest")
	}
}
