package board_test

import (
	"flag"
	"strconv"
	"testing"
)

// draws sets how many cases a slow property is drawn for, unless the command asks for a number.
func draws(t *testing.T, n int) {
	f := flag.Lookup("rapid.checks")
	if f.Value.String() != f.DefValue {
		return
	}
	_ = f.Value.Set(strconv.Itoa(n))
	t.Cleanup(func() { _ = f.Value.Set(f.DefValue) })
}
