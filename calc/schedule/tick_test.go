package schedule_test

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/calc/schedule"
)

func march(day int) job.Date { return job.Date{Year: 2027, Month: 3, Day: day} }

// again plans the studio with what has been ticked off.
func again(t *testing.T, done ...job.Done) (*job.Job, *plan.Plan) {
	t.Helper()
	j, b, p := studio()
	j.Progress = done
	schedule.Schedule(j, b, p)
	return j, p
}

// The first coat is done on Tuesday and dries from Tuesday evening, though something else is ticked on Friday: by Friday it
// is long dry, and the second coat can go on the next workday.
func TestWaitBeginsWhenItsWorkIsDone(t *testing.T) {
	ids := []string{"look-studio", "mark-studio", "level-studio", "stock-studio", "hang-studio/south/course-1", "hang-studio/south/course-2", "screws-studio", "inspect-studio", "floor-studio", "fill-studio"}
	var done []job.Done
	for _, id := range ids {
		done = append(done, job.Done{Task: id, On: march(1)})
	}
	done = append(done, job.Done{Task: "coat-1-studio", On: march(2)}) // a Tuesday
	_, early := again(t, done...)
	dry := task(t, early, "dry-1-studio")
	require.Equal(t, "2027-03-02T14:00", dry.Start)
	_, late := again(t, append(done, job.Done{Task: "panel-coat-1-studio", On: march(5)}, job.Done{Task: "trim-studio", On: march(5)}, job.Done{Task: "covers-studio", On: march(5)})...)
	require.Equal(t, dry.Start, task(t, late, "dry-1-studio").Start)
	require.Equal(t, dry.Finish, task(t, late, "dry-1-studio").Finish)
	_, late = again(t, append(done, job.Done{Task: "carry-studio", On: march(5)})...)
	require.Equal(t, dry.Finish, task(t, late, "dry-1-studio").Finish)
	require.Equal(t, "2027-03-08T08:00", task(t, late, "smooth-1-studio").Start, "dry over Friday: sanded on Monday morning, not a day later")
}

// An inspection that nobody has ticked off has not been, however long ago it could be asked for.
func TestInspectionWaitsForItsTick(t *testing.T) {
	_, p := again(t, job.Done{Task: "screws-studio", On: march(1)}, job.Done{Task: "carry-studio", On: march(10)})
	require.GreaterOrEqual(t, task(t, p, "inspect-studio").Finish, "2027-03-10T14:00")
}

// A tick without a day is asked for one, and one of a task that the sequence lacks is not lost in silence.
func TestTicksAreAskedAbout(t *testing.T) {
	j, p := again(t, job.Done{Task: "look-studio"}, job.Done{Task: "mark-studio", On: march(3)}, job.Done{Task: "hang-attic-course-1", On: march(3)})
	found := schedule.Checks(j, p)
	require.Len(t, found, 2)
	require.Equal(t, "tick-date", found[0].Rule)
	require.Contains(t, said(found[0].Says), "look-studio")
	require.NotContains(t, said(found[0].Says), "mark-studio")
	require.Equal(t, "tick-lost", found[1].Rule)
	require.Contains(t, said(found[1].Says), "hang-attic-course-1")
	require.True(t, task(t, p, "look-studio").Done)
	require.Empty(t, task(t, p, "look-studio").DoneOn)
	_, only := again(t, job.Done{Task: "look-studio"})
	_, none := again(t)
	require.LessOrEqual(t, only.Summary.Finish, none.Summary.Finish, "a day that is not known moves nothing back")
}

// Hours recorded move the dates of what is to come in the same trade: a step that took four times its hours makes the rest
// of the trade four times as long, to the quarter of an hour (arithmetic). Where days are so short that work and not drying
// sets the end, that comes later too.
func TestRecordedHoursMoveDates(t *testing.T) {
	_, quick := again(t, job.Done{Task: "hang-studio/south/course-2", On: march(1)})
	const noted, next = "hang-studio/south/course-2", "hang-studio/south/course-1"
	estimate := task(t, quick, noted).Hours
	_, slow := again(t, job.Done{Task: noted, On: march(1), Hours: 4 * estimate})
	require.InDelta(t, 4, span(t, task(t, slow, next)).Hours()/(task(t, quick, next).Hours/2), 1, "two people, to the quarter of an hour")
	hanging := 0.0 // to come
	for _, k := range quick.Schedule {
		if k.Trade == plan.Hang && k.Kind == "work" && !k.Done {
			hanging += k.Hours
		}
	}
	require.InDelta(t, 3*hanging, slow.Progress.Outlook-quick.Progress.Outlook, 0.05)
	require.Equal(t, span(t, task(t, quick, "coat-2-studio")), span(t, task(t, slow, "coat-2-studio")), "taping is another trade")

	finish := func(hours float64) string {
		j, b, p := studio()
		j.Site.Hours, j.Progress = 1, []job.Done{{Task: noted, On: march(1), Hours: hours}}
		schedule.Schedule(j, b, p)
		return p.Summary.Finish
	}
	require.Greater(t, finish(4*estimate), finish(0))
}

func span(t *testing.T, k plan.Task) time.Duration {
	a, err := time.Parse("2006-01-02T15:04", k.Start)
	require.NoError(t, err)
	b, err := time.Parse("2006-01-02T15:04", k.Finish)
	require.NoError(t, err)
	return b.Sub(a)
}

// Hours a day are taken as they are written: a quarter of an hour a day, and round the clock.
func TestHoursAreTakenAsWritten(t *testing.T) {
	days := func(hours float64) int {
		j, b, p := studio()
		j.Site.Hours, j.Site.People = hours, 1
		schedule.Schedule(j, b, p)
		return p.Summary.Days
	}
	j, b, p := studio()
	j.Site.People = 1
	schedule.Schedule(j, b, p)
	require.GreaterOrEqual(t, days(0.25), int(math.Floor(p.Summary.Hours/0.25)), "a quarter of an hour a day")
	j.Site.Hours = 24
	round := &plan.Plan{Surfaces: p.Surfaces}
	schedule.Schedule(j, b, round)
	require.Equal(t, "2027-03-01T00:00", task(t, round, "look-studio").Start, "24 hours begin at midnight")
	require.Less(t, days(24), days(16))
}

// Starts and finishes are told to the quarter of an hour, what follows never before what it follows; every task has a step, a
// trade and the day that it starts on, and tasks that hang name their pieces, each once.
func TestTasksAreGrouped(t *testing.T) {
	_, p := again(t)
	var up []string
	for _, k := range p.Schedule {
		for _, stamp := range []string{k.Start, k.Finish} {
			at, err := time.Parse("2006-01-02T15:04", stamp)
			require.NoError(t, err)
			require.Zero(t, at.Minute()%15, k.ID)
		}
		require.NotEmpty(t, k.Step, k.ID)
		require.NotEmpty(t, k.Trade, k.ID)
		require.Equal(t, k.Start[:10], k.Day)
		for _, a := range k.After {
			require.LessOrEqual(t, task(t, p, a).Finish, k.Start)
		}
		if k.Step == plan.HangStep {
			require.NotEmpty(t, k.Pieces)
		}
		up = append(up, k.Pieces...)
	}
	slices.Sort(up)
	require.Equal(t, "EA-01 SO-01 SO-02", strings.Join(up, " "))
	groups := plan.Groups(p.Schedule)
	n := 0
	for i, g := range groups {
		n += len(g.Tasks)
		if i > 0 {
			require.LessOrEqual(t, groups[i-1].Start, g.Start)
		}
		for _, k := range g.Tasks {
			require.Equal(t, []string{g.Day, g.Room, string(g.Trade)}, []string{k.Day, k.Room, string(k.Trade)})
		}
	}
	require.Equal(t, len(p.Schedule), n)
	require.Less(t, len(groups), len(p.Schedule))
}
