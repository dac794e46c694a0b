package calc_test

import (
	"bufio"
	"bytes"
	"os"
	"os/exec"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// deciding are all packages of the calculation: no function of theirs may join a product with the sum behind it, so that
// places, laws, findings, money and dates come out the same on every processor.
var deciding = []string{".", "board", "check", "cut", "fasten", "finish", "internal/simplex", "job", "layout", "length", "memo", "money", "nest", "plan",
	"policy", "price", "reveal", "schedule", "shape", "span", "survey", "worth"}

var (
	function = regexp.MustCompile(`^(\S+) STEXT`)
	fused    = regexp.MustCompile(`\sFN?M(ADD|SUB)[DS]\s`)
)

// A fused multiply-add rounds once where a product and a sum round twice (Go specification, "Floating-point operators"), on
// arm64 and others but not on amd64: what it decides may differ from machine to machine. Compiled for arm64, the deciding
// packages hold none. SEAMWRIGHT_ARM64=1 asks for it, since it compiles the standard library for that processor.
func TestSamePlanOnEveryProcessor(t *testing.T) {
	if os.Getenv("SEAMWRIGHT_ARM64") == "" {
		t.Skip("compiles for arm64 only where SEAMWRIGHT_ARM64 is set")
	}
	args := []string{"build", "-gcflags=-S"}
	for _, p := range deciding {
		args = append(args, "./"+p)
	}
	build := exec.Command("go", args...)
	build.Env = append(os.Environ(), "GOOS=linux", "GOARCH=arm64", "CGO_ENABLED=0")
	listing, err := build.CombinedOutput()
	require.NoError(t, err)
	in, functions, found := "", 0, map[string]bool{}
	lines := bufio.NewScanner(bytes.NewReader(listing))
	lines.Buffer(nil, 1<<24)
	for lines.Scan() {
		if m := function.FindStringSubmatch(lines.Text()); m != nil {
			in = m[1]
			functions++
		} else if fused.MatchString(lines.Text()) {
			found[in] = true
		}
	}
	require.Greater(t, functions, 100, "the listing was read")
	for name := range found {
		t.Errorf("%s joins a product with a sum: write the product as float64(x*y), or count in whole numbers", strings.TrimPrefix(name, "seamwright/calc/"))
	}
}
