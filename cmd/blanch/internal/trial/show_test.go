package trial

import (
	"fmt"
	"os"
	"strconv"
	"testing"
)

func TestShowTmp(t *testing.T) {
	s, err := New(shipped(t, "night-bridge"))
	if err != nil {
		t.Fatal(err)
	}
	seed, _ := strconv.Atoi(os.Getenv("SEED"))
	r, err := s.Show(os.Getenv("KIND"), uint64(seed))
	if err != nil {
		t.Fatal(err)
	}
	for _, en := range r.Journal {
		fmt.Println(en.At.Exact(), en.Text())
	}
	fmt.Println(s.marker.Mark(r).Text(r))
}
