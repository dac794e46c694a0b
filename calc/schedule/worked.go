package schedule

import (
	"time"

	"seamwright/calc/job"
)

// Span is a stretch of one workday, in the local times of the sequence.
type Span struct{ From, To time.Time }

// Stamp is the form of the sequence's local times.
const Stamp = "2006-01-02T15:04"

// Worked parts the time between two stamps of the sequence into what lies within the crew's hours, a span a workday:
// nights and days off fall out. A time that is over before a quarter of an hour of it is worked gives one quarter at its
// start, so that nothing is without a place in a day.
func Worked(s job.Site, start, finish string) ([]Span, error) {
	from, err := time.Parse(Stamp, start)
	if err != nil {
		return nil, err
	}
	to, err := time.Parse(Stamp, finish)
	if err != nil {
		return nil, err
	}
	c := newCalendar(s)
	clock := func(t minute) time.Time { return c.first.Add(time.Duration(t) * time.Minute) }
	a, b := minute(from.Sub(c.first)/time.Minute), minute(to.Sub(c.first)/time.Minute)
	var spans []Span
	for day, _ := c.split(a); day*minutesPerDay+c.start < b; day++ {
		if !c.works(day) {
			continue
		}
		opens := day*minutesPerDay + c.start
		if lo, hi := max(a, opens), min(b, opens+c.day); hi-lo >= quarter {
			spans = append(spans, Span{clock(lo), clock(hi)})
		}
	}
	if len(spans) == 0 {
		at := c.next(a)
		day, _ := c.split(at)
		at = min(at, day*minutesPerDay+c.start+c.day-quarter)
		spans = []Span{{clock(at), clock(at + quarter)}}
	}
	return spans, nil
}
