package proof

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"runtime"
	"sort"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamwright/assets/words"
	"seamwright/calc"
	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/planner"
)

// How many drawn projects are planned, from which number on. Every project holds one or two rooms.
var (
	projects = flag.Int("projects", 300, "drawn projects to plan and hold against their files")
	from     = flag.Uint64("from", 1, "number of the first one")
	show     = flag.Bool("show", false, "print every file that fails")
)

// planned runs a project file through the program.
func planned(src string) ([]byte, error) {
	d, err := planner.Parse("drawn.seam.yaml", []byte(src))
	if err != nil {
		return nil, fmt.Errorf("reading: %w", err)
	}
	p, err := calc.Plan(context.Background(), d.Job(), nil)
	if err != nil {
		return nil, fmt.Errorf("planning: %w", err)
	}
	var b bytes.Buffer
	say := words.In(words.English, words.Units{Imperial: d.Job().Units != job.Metric, Currency: d.Job().Currency})
	err = plan.Write(&b, p, say.Fact)
	return b.Bytes(), err
}

// outcome is what one drawn project showed.
type outcome struct {
	src    string
	plan   []byte
	faults []string
	err    error
	took   time.Duration
}

// try plans a drawn project and holds the plan against its file; of every eighth also against its alternative's own plan.
func try(number uint64) (o outcome) {
	began := time.Now()
	o.src = drawn(number)
	if o.plan, o.err = planned(o.src); o.err != nil {
		return o
	}
	o.took = time.Since(began)
	o.faults = faults([]byte(o.src), o.plan)
	if number%8 == 0 {
		o.faults = append(o.faults, alternative(number, o.plan, planned)...)
	}
	return o
}

// tried are the outcomes of n projects, on all cores.
func tried(n int) []outcome {
	all := make([]outcome, n)
	var next atomic.Int64
	var done sync.WaitGroup
	for range runtime.NumCPU() {
		done.Go(func() {
			for i := next.Add(1) - 1; i < int64(n); i = next.Add(1) - 1 {
				all[i] = try(*from + uint64(i))
			}
		})
	}
	done.Wait()
	return all
}

// coresCompared is how many projects are planned again on a single core: one in so many.
const coresCompared = 8

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
	all := tried(n)
	cores := runtime.GOMAXPROCS(1)
	defer runtime.GOMAXPROCS(cores)
	for i, o := range all {
		number := *from + uint64(i)
		if o.err != nil {
			if strings.Contains(o.err.Error(), "leave nothing of the wall's length") {
				refused++
				continue
			}
			wrong["error"] = append(wrong["error"], number)
			sample["error"] = o.err.Error()
			continue
		}
		if o.took > slowest {
			slowest, slow = o.took, number
		}
		if i%coresCompared == 0 {
			alone, err := planned(o.src)
			require.NoError(t, err)
			if string(alone) != string(o.plan) {
				o.faults = append(o.faults, "bytes: one core and many give different plans")
			}
		}
		seen := map[string]bool{}
		for _, f := range o.faults {
			check, _, _ := strings.Cut(f, ":")
			if !seen[check] {
				wrong[check] = append(wrong[check], number)
				if sample[check] == "" {
					sample[check] = fmt.Sprintf("project %d: %s", number, f)
				}
			}
			seen[check] = true
		}
		if *show && len(o.faults) > 0 {
			t.Logf("%s\n%s\n%s", strings.Join(o.faults, "\n"), o.src, o.plan)
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
