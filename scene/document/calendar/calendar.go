// Package calendar writes the sequence of the work as an iCalendar file (RFC 5545) for the telephone and the office: what
// is worked on a day, trade by trade and room by room, in events that keep their names when the dates move; what dries in
// transparent events, which leave the time free; what somebody must come and look at with an alarm the day before.
//
// All times are floating (RFC 5545, 3.3.5, form 1): eight in the morning is eight at the site, whatever zone the telephone is
// in. What the events are called comes from the project, and when they were written from the request, so the same request
// gives the same bytes.
package calendar

import (
	"context"
	"fmt"
	"hash/fnv"
	"io"
	"strings"
	"time"
	"unicode"

	ics "github.com/arran4/golang-ical"

	"seamwright/calc/plan"
	"seamwright/calc/schedule"
	"seamwright/scene/document/ask"
	"seamwright/scene/draft"
)

const (
	floating = "20060102T150405"  // local time without a zone
	utc      = "20060102T150405Z" // the stamp must be in UTC (RFC 5545, 3.8.7.2)
	notice   = "-P1D"             // how long before an inspection its alarm rings: common practice, no source
)

// Write writes the calendar. Steps whose date nobody can promise have no place in one: the calendar's own description
// tells how many there are.
func Write(_ context.Context, w io.Writer, r *ask.Request) error {
	cal := ics.NewCalendar()
	cal.SetProductId("-//Seamwright//Seamwright//EN")
	cal.SetCalscale("GREGORIAN")
	cal.SetMethod(ics.MethodPublish)
	cal.SetXWRCalName(plain(r.Plan.Name))
	b := &book{r: r, cal: cal, place: placeOf(r.Plan.Name), nth: map[string]int{}}
	undated := 0
	for _, g := range plan.Groups(r.Plan.Schedule) {
		if g.Day == "" {
			undated += len(g.Tasks)
			continue
		}
		if err := b.group(&g); err != nil {
			return err
		}
	}
	if undated > 0 {
		cal.SetXWRCalDesc(r.Voice.Text("calendar.undated", "count", undated))
	}
	return cal.SerializeTo(w, ics.WithNewLineWindows) // RFC 5545, 3.1, on every system
}

// book is a calendar being written.
type book struct {
	r     *ask.Request
	cal   *ics.Calendar
	place string         // what the project adds to the names of events
	nth   map[string]int // how often a room and a trade have had an event
}

// group adds the events of a group of steps: a wait is one, which may run through nights and days off; work and visits
// have one for each workday that they touch.
func (b *book) group(g *plan.Group) error {
	name := b.name(g)
	if g.Kind == "wait" {
		from, err := time.Parse(schedule.Stamp, g.Start)
		if err != nil {
			return err
		}
		to, err := time.Parse(schedule.Stamp, g.Finish)
		if err != nil {
			return err
		}
		b.event(g, name, from, to).SetTimeTransparency(ics.TransparencyTransparent)
		return nil
	}
	spans, err := schedule.Worked(b.r.Job.Site, g.Start, g.Finish)
	if err != nil {
		return err
	}
	for i, s := range spans {
		id := name
		if i > 0 {
			id = fmt.Sprintf("%s.%d", name, i+1)
		}
		e := b.event(g, id, s.From, s.To)
		e.SetTimeTransparency(ics.TransparencyOpaque)
		if g.Kind == "inspect" && i == 0 {
			e.SetProperty(ics.ComponentPropertyStatus, "TENTATIVE") // until the office has said when
			a := e.AddAlarm()
			a.SetAction(ics.ActionDisplay)
			a.SetTrigger(notice)
			a.SetProperty(ics.ComponentPropertyDescription, b.r.Voice.Text("calendar.call", "what", b.summary(g)))
		}
	}
	return nil
}

// name is a group's name, which stays when its day moves: a wait or visit has the id of its task, work the room, the
// trade, and which day of that trade in that room it is.
func (b *book) name(g *plan.Group) string {
	if g.Kind != "work" {
		return g.Tasks[0].ID
	}
	key := g.Room + "-" + string(g.Trade)
	b.nth[key]++
	return fmt.Sprintf("%s-%d", key, b.nth[key])
}

// event adds one event.
func (b *book) event(g *plan.Group, id string, from, to time.Time) *ics.VEvent {
	e := b.cal.AddEvent(plain(id) + "@" + b.place)
	e.SetProperty(ics.ComponentPropertyDtstamp, b.r.Made.UTC().Format(utc))
	e.SetProperty(ics.ComponentPropertyDtStart, from.Format(floating))
	e.SetProperty(ics.ComponentPropertyDtEnd, to.Format(floating))
	e.SetSummary(plain(b.summary(g)))
	if d := b.description(g); d != "" {
		e.SetDescription(d)
	}
	e.AddProperty(ics.ComponentPropertyCategories, g.Kind)
	return e
}

// summary is what an event is called.
func (b *book) summary(g *plan.Group) string {
	if len(g.Tasks) == 1 {
		return b.said(g.Tasks[0])
	}
	return b.r.Voice.Text("calendar.group", "room", draft.WallName(g.Room), "trade", plan.TradeName(g.Trade), "count", len(g.Tasks))
}

// description lists the steps of a group with their times, and how a single one came about.
func (b *book) description(g *plan.Group) string {
	if len(g.Tasks) == 1 {
		return plain(b.r.Voice.Fact(g.Tasks[0].Basis))
	}
	var lines []string
	for _, t := range g.Tasks {
		_, clock, _ := strings.Cut(t.Start, "T")
		line := clock + "  " + b.said(t)
		if t.Done {
			line = b.r.Voice.Text("calendar.done", "what", line)
		}
		lines = append(lines, plain(line))
	}
	return strings.Join(lines, "\n")
}

// said is a task's name, with names for the ids in it.
func (b *book) said(t *plan.Task) string { return draft.Plainly(b.r.Job, b.r.Voice.Fact(t.Name)) }

// plain is a text without control characters, which have no place in the file (RFC 5545, 3.1) and could end a line.
func plain(s string) string {
	return strings.Map(func(c rune) rune {
		if unicode.IsControl(c) {
			return ' '
		}
		return c
	}, s)
}

// placeOf is the right half of the events' unique names: no two projects of different names share it (RFC 7986, 5.3
// asks for no more than uniqueness).
func placeOf(project string) string {
	h := fnv.New64a()
	_, _ = h.Write([]byte(project)) // writing to a hash does not fail
	return fmt.Sprintf("%016x.seamwright", h.Sum64())
}
