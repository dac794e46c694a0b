package schedule_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/calc/schedule"
)

// The end of the job in other air is what planning it there gives; nothing is promised in the cold, but setting-type
// compound hardens at 45 °F while paint does not dry for a promise.
func TestOtherAir(t *testing.T) {
	j, b, p := studio()
	schedule.Schedule(j, b, p)
	require.True(t, p.WhatIf[0].Today)
	require.Equal(t, p.Summary.Finish, p.WhatIf[0].Finish)
	require.Equal(t, p.Summary.Days, p.WhatIf[0].Days)
	kinds := map[string]int{}
	for _, w := range p.WhatIf {
		kinds[w.Compound]++
		k := *j
		k.Site.Celsius, k.Site.Humidity = w.Celsius, w.Humidity
		if w.Compound == "setting" {
			k.Figures = map[string]float64{"setting-compound": 90}
		}
		there := &plan.Plan{Surfaces: p.Surfaces}
		schedule.Schedule(&k, b, there)
		if w.Celsius > 10.1 { // rounded to a tenth of a degree; 50 °F is on the border
			require.Equal(t, day(t, there.Summary.Finish), day(t, w.Finish), "%+v", w)
			require.InDelta(t, task(t, there, "dry-1-studio").Hours, w.Coat, 0.2)
		}
	}
	require.Equal(t, kinds["drying"], kinds["setting"])
	require.GreaterOrEqual(t, kinds["drying"], 4)

	j.Site.Celsius = 4
	cold := &plan.Plan{Surfaces: p.Surfaces}
	schedule.Schedule(j, b, cold)
	require.Empty(t, cold.WhatIf[0].Finish)
	promised := 0
	for _, w := range cold.WhatIf {
		if w.Finish != "" {
			promised++
			require.GreaterOrEqual(t, w.Celsius, 10.0)
		}
	}
	require.Positive(t, promised, "warmer rooms have a date")
}

func day(t *testing.T, stamp string) string {
	v, err := time.Parse("2006-01-02T15:04", stamp)
	require.NoError(t, err)
	return v.Format("2006-01-02")
}

// While a coat dries the crew is named at what it does: with a second room there is work, and it lies within the wait.
func TestMeanwhile(t *testing.T) {
	j, b, p := studio()
	schedule.Schedule(j, b, p)
	byID := map[string]plan.Task{}
	for _, k := range p.Schedule {
		byID[k.ID] = k
	}
	for _, k := range p.Schedule {
		if k.Kind != "wait" {
			require.Empty(t, k.Meanwhile)
			continue
		}
		for _, id := range k.Meanwhile {
			require.Less(t, byID[id].Start, k.Finish)
			require.Greater(t, byID[id].Finish, k.Start)
		}
		for _, other := range p.Schedule { // nobody is forgotten
			if other.Kind == "work" && other.Start < k.Finish && other.Finish > k.Start {
				require.Contains(t, k.Meanwhile, other.ID, k.ID)
			}
		}
	}
	j.Figures = map[string]float64{"panel-coats": 2}
	coated := &plan.Plan{Surfaces: p.Surfaces}
	schedule.Schedule(j, b, coated)
	busy := 0
	for _, k := range coated.Schedule {
		if k.Kind == "wait" {
			busy += len(k.Meanwhile)
		}
	}
	require.Positive(t, busy, "panels are coated while compound dries")
}

// Plywood that stays visible: two coats on trestles beginning when the room has been looked at, brought in when it has
// dried, rested, hung last; trim after that. The order is the trade's (common practice, no source).
func TestPlywoodIsHungLast(t *testing.T) {
	j, b, p := studio()
	j.Figures = map[string]float64{"panel-coats": 2}
	schedule.Schedule(j, b, p)
	before := func(a, b string) {
		require.LessOrEqual(t, task(t, p, a).Finish, task(t, p, b).Start, "%s before %s", a, b)
	}
	before("panel-coat-1-studio", "dry-panel-1-studio")
	before("dry-panel-1-studio", "panel-coat-2-studio")
	before("dry-panel-2-studio", "carry-studio")
	before("dry-paint-2-studio", "carry-studio")
	before("rest-studio", "hang-studio/east/course-1")
	require.Less(t, task(t, p, "panel-coat-1-studio").Start, task(t, p, "paint-2-studio").Start, "coated while the room is being finished")
	require.Equal(t, "studio/east", task(t, p, "hang-studio/east/course-1").Surface)
	require.Equal(t, "studio", task(t, p, "rest-studio").Room)
	require.InDelta(t, 0.64*0.5, task(t, p, "panel-coat-1-studio").Hours, 0.005)
}

// Recorded hours stand beside the estimate, and the pace so far gives an outlook.
func TestProgress(t *testing.T) {
	j, b, p := studio()
	schedule.Schedule(j, b, p)
	estimate := task(t, p, "hang-studio/south/course-2").Hours
	first := p.Summary.Finish
	require.Equal(t, first, p.Progress.FirstFinish)
	j.Progress = []job.Done{
		{Task: "look-studio", On: job.Date{Year: 2027, Month: 3, Day: 9}},
		{Task: "hang-studio/south/course-2", On: job.Date{Year: 2027, Month: 3, Day: 9}, Hours: 2 * estimate},
	}
	late := &plan.Plan{Surfaces: p.Surfaces}
	schedule.Schedule(j, b, late)
	g := late.Progress
	require.Equal(t, []int{len(late.Schedule), 2}, []int{g.Tasks, g.Done})
	require.InDelta(t, estimate, g.Estimated, 0.011)
	require.InDelta(t, 2*estimate, g.Actual, 0.011)
	hanging := 0.0 // to come
	for _, k := range late.Schedule {
		if k.Trade == plan.Hang && k.Kind == "work" && !k.Done {
			hanging += k.Hours
		}
	}
	require.Positive(t, hanging)
	require.InDelta(t, g.Left+hanging, g.Outlook, 0.03, "hanging took twice as long so far, of the rest nothing is known yet")
	require.Equal(t, first, g.FirstFinish, "what was planned at first stands")
	require.Greater(t, late.Summary.Finish, first)
	require.Equal(t, "2027-03-09", task(t, late, "look-studio").DoneOn)
	require.InDelta(t, 2*estimate, task(t, late, "hang-studio/south/course-2").Actual, 1e-9)
}
