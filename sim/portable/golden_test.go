package portable_test

import (
	"bufio"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"blanch/sim/portable"
)

// oneArgument is every function of one argument, by the name it has in the
// file of bits.
var oneArgument = map[string]func(float64) float64{
	"exp": portable.Exp, "expm1": portable.Expm1, "log": portable.Log,
	"sin": portable.Sin, "phi": portable.OneMinusExpOver,
}

// testdata/bits.txt was written once. A change that fails here changes what
// every recorded attempt computes: mend the change, not the file. CI runs
// this test on each architecture and build level.
func TestBitsNeverChange(t *testing.T) {
	file, err := os.Open("testdata/bits.txt")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	held := map[string]int{}
	for in := bufio.NewScanner(file); in.Scan(); {
		line := in.Text()
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		f := strings.Fields(line)
		number := func(i int) float64 {
			b, err := strconv.ParseUint(f[i], 16, 64)
			if err != nil {
				t.Fatalf("line %q: %v", line, err)
			}
			return math.Float64frombits(b)
		}
		got := 0.0
		if f[0] == "pow" {
			got = portable.Pow(number(1), number(2))
		} else {
			got = oneArgument[f[0]](number(1))
		}
		held[f[0]]++
		if said := fmt.Sprintf("%016x", math.Float64bits(got)); said != f[len(f)-1] {
			t.Errorf("%s: got %s", line, said)
		}
	}
	for name := range oneArgument {
		if held[name] < 40 {
			t.Errorf("only %d bits of %s are held", held[name], name)
		}
	}
	if held["pow"] < 80 {
		t.Errorf("only %d bits of pow are held", held["pow"])
	}
}
