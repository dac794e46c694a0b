package calendar_test

import (
	"bytes"
	"context"
	"encoding/json"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamwright/assets"
	"seamwright/assets/words"
	"seamwright/calc"
	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/planner"
	"seamwright/scene/document/ask"
	"seamwright/scene/document/calendar"
	"seamwright/scene/document/internal/reader"
)

// sample plans a shipped project, changed first.
func sample(t *testing.T, change func(*job.Job)) *ask.Request {
	d, err := planner.Parse("sample", assets.KilnYardStudio)
	require.NoError(t, err)
	j := d.Job()
	if change != nil {
		change(j)
	}
	p, err := calc.Prompt(context.Background(), j, nil)
	require.NoError(t, err)
	return &ask.Request{Job: j, Plan: p, Voice: words.In(words.English, words.Units{Imperial: true}), Made: time.Date(2027, 2, 20, 9, 30, 0, 0, time.UTC)}
}

func written(t *testing.T, r *ask.Request) []byte {
	var b bytes.Buffer
	require.NoError(t, calendar.Write(context.Background(), &b, r))
	return b.Bytes()
}

// event is what the independent reader makes of one.
type event struct {
	UID, Summary, Description, Kind, Start, End, Stamp, Transparency, Zone string
	Alarms                                                                 []string
}

// Read by ical.js, the calendar has an event for each workday of each group of steps, none of them on a day off or in
// the night, one for each wait that leaves the time free, and an alarm with each visit.
func TestCalendarReadByAnother(t *testing.T) {
	r := sample(t, func(j *job.Job) { j.Site.Off = append(j.Site.Off, job.Date{Year: 2027, Month: 3, Day: 3}) })
	var events []event
	require.NoError(t, json.Unmarshal([]byte(reader.Node(t, written(t, r), "testdata/read.js")), &events))
	kinds, waits, ids, worked := map[string]int{}, 0, map[string]bool{}, map[string]bool{}
	for _, g := range plan.Groups(r.Plan.Schedule) {
		if g.Kind == "wait" {
			waits++
		}
	}
	for _, e := range events {
		kinds[e.Kind]++
		require.False(t, ids[e.UID], "two events are called %s", e.UID)
		ids[e.UID] = true
		require.Equal(t, "floating", e.Zone)
		require.Equal(t, "2027-02-20T09:30:00Z", e.Stamp)
		from, err := time.Parse("2006-01-02T15:04:05", e.Start)
		require.NoError(t, err)
		to, err := time.Parse("2006-01-02T15:04:05", e.End)
		require.NoError(t, err)
		require.True(t, to.After(from), "%s ends after it starts", e.UID)
		if e.Kind == "wait" {
			require.Equal(t, "TRANSPARENT", e.Transparency)
			continue
		}
		require.Equal(t, "OPAQUE", e.Transparency)
		require.Equal(t, from.YearDay(), to.YearDay())
		require.True(t, r.Job.Site.Workdays[from.Weekday()], "%s is on %s", e.UID, from.Weekday())
		require.NotEqual(t, "2027-03-03", from.Format("2006-01-02"), "a day off: %s", e.UID)
		require.GreaterOrEqual(t, from.Hour(), 8)
		require.LessOrEqual(t, to.Hour()*60+to.Minute(), (8+int(r.Job.Site.Hours))*60)
		worked[from.Format("2006-01-02")] = true
		if e.Kind == "inspect" && !strings.Contains(e.UID, ".2@") {
			require.Equal(t, []string{"DISPLAY -P1D"}, e.Alarms)
		} else {
			require.Empty(t, e.Alarms)
		}
	}
	require.Equal(t, waits, kinds["wait"])
	require.NotZero(t, kinds["inspect"])
	for _, task := range r.Plan.Schedule {
		if task.Kind == "work" {
			require.True(t, worked[task.Day], "%s is in the calendar", task.Day)
		}
	}
	said := ""
	for _, e := range events {
		said += e.Summary + e.Description
	}
	for _, task := range r.Plan.Schedule { // the last words of a name stay as they are when ids in it become names
		name := r.Voice.Fact(task.Name)
		tail := name[strings.LastIndexAny(name, "/,:")+1:]
		require.Contains(t, said, tail)
	}
}

// A later start moves the dates, not the names, by which a telephone knows its events again.
func TestNamesOfEventsStayWhenDatesMove(t *testing.T) {
	ids := func(file []byte) (list []string) {
		for _, line := range strings.Split(string(file), "\r\n") {
			if strings.HasPrefix(line, "UID:") {
				list = append(list, line)
			}
		}
		return list
	}
	before := written(t, sample(t, nil))
	moved := written(t, sample(t, func(j *job.Job) { j.Site.Start = job.Date{Year: 2027, Month: 3, Day: 8} }))
	require.Equal(t, ids(before), ids(moved))
	require.NotEqual(t, before, moved)
	require.Equal(t, before, written(t, sample(t, nil)), "the same request gives the same bytes")
}

// RFC 5545, 3.1: lines end in CR LF and have at most 75 octets, and no text of a project can begin one of its own.
func TestLinesAreWellFormed(t *testing.T) {
	r := sample(t, nil)
	r.Plan.Name = "Büro\r\nBEGIN:VALARM; ünd, more \\ words that go on and on beyond the seventy-five octets of a line, ää öö üü"
	file := string(written(t, r))
	require.True(t, strings.HasSuffix(file, "\r\n"))
	for _, line := range strings.Split(strings.TrimSuffix(file, "\r\n"), "\r\n") {
		require.LessOrEqual(t, len(line), 75)
		require.NotContains(t, line, "\n")
		require.NotContains(t, line, "\r")
	}
	require.Equal(t, strings.Count(file, "\r\nBEGIN:VALARM\r\n"), strings.Count(file, "\r\nEND:VALARM\r\n"))
	require.Contains(t, strings.ReplaceAll(file, "\r\n ", ""), `BEGIN:VALARM\; ünd\, more \\ words`)
}

// Steps without a promised date are told of, not dated.
func TestWhatHasNoDateIsCounted(t *testing.T) {
	r := sample(t, func(j *job.Job) { j.Site.Celsius = 2 })
	file := string(written(t, r))
	require.Regexp(t, `X-WR-CALDESC:\d+ steps have no promised date`, file)
	require.Contains(t, file, "BEGIN:VEVENT", "what comes before the first wait has its date")
}
