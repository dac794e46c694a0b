package proof

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"runtime"
	"sort"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamwright/calc"
	"seamwright/planner"
)

// How many drawn projects are planned, from which number on. Every project holds one or two rooms.
var (
	projects = flag.Int("projects", 2000, "drawn projects to plan and hold against their files")
	from     = flag.Uint64("from", 1, "number of the first one")
	show     = flag.Bool("show", false, "print every file that fails")
)

// planned runs a project file through the program, on so many cores.
func planned(src string, cores int) ([]byte, error) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(cores))
	d, err := planner.Parse("drawn.seam.yaml", []byte(src))
	if err != nil {
		return nil, fmt.Errorf("reading: %w", err)
	}
	p, err := calc.Plan(context.Background(), d.Job(), nil)
	if err != nil {
		return nil, fmt.Errorf("planning: %w", err)
	}
	return json.Marshal(p)
}

// TestDrawnProjects plans random rooms and holds every plan against its file. In short runs fewer are drawn.
func TestDrawnProjects(t *testing.T) {
	n := *projects
	if testing.Short() {
		n = min(n, 60)
	}
	began, wrong := time.Now(), map[string][]uint64{}
	sample := map[string]string{}
	refused := 0
	var slowest time.Duration
	var slow uint64
	for number := *from; number < *from+uint64(n); number++ {
		src, start := drawn(number), time.Now()
		one, err := planned(src, 1)
		if err != nil {
			if strings.Contains(err.Error(), "leave nothing of the wall's length") {
				refused++
				continue
			}
			wrong["error"] = append(wrong["error"], number)
			sample["error"] = err.Error()
			continue
		}
		if d := time.Since(start); d > slowest {
			slowest, slow = d, number
		}
		two, err := planned(src, 2)
		require.NoError(t, err)
		found := faults([]byte(src), one)
		if number%8 == 0 {
			found = append(found, alternative(number, one, planned)...)
		}
		if string(one) != string(two) {
			found = append(found, "bytes: one core and two give different plans")
		}
		seen := map[string]bool{}
		for _, f := range found {
			check, _, _ := strings.Cut(f, ":")
			if !seen[check] {
				wrong[check] = append(wrong[check], number)
				if sample[check] == "" {
					sample[check] = fmt.Sprintf("project %d: %s", number, f)
				}
			}
			seen[check] = true
		}
		if *show && len(found) > 0 {
			t.Logf("%s\n%s\n%s", strings.Join(found, "\n"), src, one)
		}
	}
	t.Logf("%d projects in %v, %d refused; the slowest, %d, took %v", n, time.Since(began).Round(time.Second), refused, slow, slowest.Round(time.Millisecond))
	var checks []string
	for c := range wrong {
		checks = append(checks, c)
	}
	sort.Strings(checks)
	for _, c := range checks {
		t.Errorf("%s fails in %d projects, e.g. %v\n\t%s", c, len(wrong[c]), wrong[c][:min(6, len(wrong[c]))], sample[c])
	}
	require.LessOrEqual(t, refused, n/20, "most drawn rooms can be built")
}
