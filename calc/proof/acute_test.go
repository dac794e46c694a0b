package proof

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// under is a room with a ceiling over corners that may run in acutely.
func under(ceiling string, corners ...string) string {
	return fmt.Sprintf("seamwright: 1\nunits: metric\nrooms:\n  - {id: r, height: 2.5 m, corners: [%s], ceiling: {%s}}\n", strings.Join(corners, ", "), ceiling)
}

// star is the corners of a star of so many points round 7 m, 7 m.
func star(points int, outer, inner float64) (corners []string) {
	for i := range 2 * points {
		r := outer
		if i%2 == 1 {
			r = inner
		}
		sin, cos := math.Sincos(math.Pi * float64(i) / float64(points))
		corners = append(corners, fmt.Sprintf("[%.3f m, %.3f m]", 7+r*cos, 7+r*sin))
	}
	return corners
}

// Where an acute corner runs into a ceiling it parts what hangs in one course between two joints: the further part is a
// piece of its own, with the edges that it has.
func TestAcuteCorners(t *testing.T) {
	notch := []string{"[0, 0]", "[8 m, 0]", "[0.5 m, 0.4 m]", "[8 m, 0.8 m]", "[8 m, 5 m]", "[0, 5 m]"}
	ridge := func(points int) string {
		return under("shape: {ridge: {along: x, at: 7 m, height: 5 m}}, lining: [{product: gyp-12.5}]", star(points, 6, 4)...)
	}
	for name, src := range map[string]string{
		"across":                   under("lining: [{product: gyp-12.5, run: across}]", notch...),
		"along":                    under("lining: [{product: gyp-12.5, run: along}]", notch...),
		"two layers":               under("lining: [{product: [gyp-12.5, gyp-12.5], run: across}]", notch...),
		"wood":                     under("lining: [{product: ply-18-metric}]", notch...),
		"60 corners under a ridge": ridge(30),
	} {
		t.Run(name, func(t *testing.T) {
			wrong, _ := boardCovers(t, src)
			require.Empty(t, wrong)
		})
	}
}
