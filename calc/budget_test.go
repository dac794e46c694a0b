package calc_test

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc"
	"seamwright/calc/job"
	"seamwright/planner"
)

// Projects at, and far beyond, what a file may say. Beyond the budgets one is refused with its place before any work is done;
// the figures are arithmetic from the areas, with the largest sheet for sale.
func TestTooLargeIsRefusedPolitely(t *testing.T) {
	const plank = "catalog:\n  - {id: plank, kind: wood, name: Plank, thickness: 18 mm, sizes: [{size: [%s, %s], price: 10}]}\n"
	room := func(id, w, d, more string) string {
		return fmt.Sprintf("  - {id: %s, height: 8', corners: [[0, 0], [%s, 0], [%s, %s], [0, %s]]%s}\n", id, w, w, d, d, more)
	}
	wall := func(product string) string {
		return "rooms:\n" + room("r", "6 m", "5.1 m", ", walls: [{side: 1, lining: [{product: "+product+"}]}]")
	}
	overhead := ", ceiling: {lining: [{product: gyp-12}]}"
	var many strings.Builder
	many.WriteString("defaults: {framing: {spacing: 4 in}}\nrooms:\n")
	for i := range 500 {
		fmt.Fprintf(&many, "  - {id: r%d, height: 8', corners: [[-300 m, -300 m], [300 m, -300 m], [300 m, 300 m], [-300 m, 300 m]]}\n", i)
	}
	for name, c := range map[string]struct{ project, want string }{
		"sheets of 1 nm":         {fmt.Sprintf(plank, "0.000001 mm", "0.000001 mm") + wall("plank"), "r/south: this would take about 1e+19 pieces of plank; the most for one layer of a surface is 1,000"},
		"sheets 1 mm wide":       {fmt.Sprintf(plank, "2.4 m", "1 mm") + wall("plank"), "r/south: this would take about 6,100 pieces of plank"}, // 6 m by 8 ft over 2.4 m by 1 mm: 6,096
		"a room of 600 by 600 m": {"rooms:\n  - {id: r, height: 8', corners: [[-300 m, -300 m], [300 m, -300 m], [300 m, 300 m], [-300 m, 300 m]]" + overhead + "}\n", "r/ceiling: this would take about 60,500 pieces of gyp-12"},
		"sheets of 10 m over members at 4 in": {fmt.Sprintf(plank, "10 m", "10 m") + "defaults: {framing: {spacing: 4 in}}\n" +
			"rooms:\n  - {id: r, height: 8', corners: [[-300 m, 0], [300 m, 0], [300 m, 9 m], [-300 m, 9 m]], walls: [{side: 1, lining: [{product: plank}]}]}\n",
			"r/south: sheets of plank could be parted in about 581,000 ways here"}, // 5,906 members, 98 within a sheet
		"500 rooms of 600 m with studs at 4 in": {many.String(), "with this surface the project has more than 300,000 studs and joists"},
		"screws at 2 in": {"rules: {screws: 2 in}\ndefaults: {framing: {spacing: 12 in}}\nrooms:\n" +
			room("r", "100 m", "52.5 m", overhead) + room("s", "100 m", "52.5 m", overhead) + room("t", "100 m", "52.5 m", overhead) +
			room("u", "100 m", "52.5 m", overhead) + room("v", "100 m", "52.5 m", overhead) + room("w", "100 m", "52.5 m", overhead),
			"w/ceiling: with this surface the project takes about 2,030,000 screws"}, // 31,500 m² over 12 by 2 in
	} {
		t.Run(name, func(t *testing.T) {
			d, err := planner.Parse("f", []byte("seamwright: 1\n"+c.project))
			require.NoError(t, err)
			for effort, plan := range map[string]func() error{
				"full":   func() error { _, err := calc.Plan(context.Background(), d.Job(), nil); return err },
				"prompt": func() error { _, err := calc.Prompt(context.Background(), d.Job(), nil); return err },
			} {
				err := plan()
				var refusal *job.Refusal
				require.True(t, errors.As(err, &refusal), "%s: %v", effort, err)
				require.NotEmpty(t, refusal.Remedy)
				require.Contains(t, err.Error(), c.want)
				placed := d.Placed(err).(planner.Errors)
				require.Positive(t, placed[0].Line)
				require.Positive(t, placed[0].Col)
			}
		})
	}
}
