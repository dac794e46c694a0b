package draft_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/scene/draft"
)

// The faces of an architect's scale rule and the scales of ISO 5455: what a foot or a metre measures on paper is
// arithmetic.
func TestScalesOfPaper(t *testing.T) {
	feet, metric := &job.Job{Units: job.Imperial}, &job.Job{Units: job.Metric}
	const inch = 72.0
	quarter := draft.ScaleFor(feet, 60, inch)
	require.Equal(t, `1/4" = 1'-0"`, quarter.Text(feet))
	require.InDelta(t, 2.5*inch, quarter.Pixels(inch)*(10*ft).Metres(), 1e-9, "ten feet are two and a half inches")
	for fits, want := range map[float64]string{1e4: `1" = 1'-0"`, 180: `3/4" = 1'-0"`, 120: `1/2" = 1'-0"`, 100: `3/8" = 1'-0"`, 45: `3/16" = 1'-0"`, 30: `1/8" = 1'-0"`, 23: `3/32" = 1'-0"`, 12: `1" = 20'-0"`, 0.01: `1" = 100'-0"`} {
		require.Equal(t, want, draft.ScaleFor(feet, fits, inch).Text(feet), fits)
	}
	fifty := draft.ScaleFor(metric, 57, inch)
	require.Equal(t, "1:50", fifty.Text(metric))
	require.InDelta(t, 20*length.Millimetre.In()*inch, fifty.Pixels(inch), 1e-9, "a metre is 20 mm")
	into := draft.Rect{X: 10, Y: 20, W: 300, H: 200}
	v := draft.View{Scale: 61, X: 40, Y: 150}.ToScale(quarter, inch, into)
	require.InDelta(t, quarter.Pixels(inch), v.Scale, 1e-9)
}
