package schedule

import (
	"math"
	"time"

	"seamwright/calc/job"
)

// minute is a place on the clock, in minutes from midnight before the first day of the job.
type minute int64

const (
	minutesPerDay   = 24 * 60
	usualStart      = 8 * 60 // work starts at eight: common practice, no source
	shortestWorkday = 15     // minutes, the least that a project may say
	quarter         = 15     // minutes: no estimate here is good to less
)

// calendar knows when the crew works. Waiting runs through nights and days off; work does not.
type calendar struct {
	first    time.Time
	workdays [7]bool
	off      map[minute]bool // days, counted from the first, on which nobody works
	day      minute          // minutes worked on a workday
	start    minute          // of a workday; earlier than usual where its hours would run past midnight
}

func newCalendar(s job.Site) calendar {
	c := calendar{
		first:    time.Date(s.Start.Year, time.Month(s.Start.Month), s.Start.Day, 0, 0, 0, 0, time.UTC),
		workdays: s.Workdays,
		day:      minute(math.Round(s.Hours * 60)),
	}
	if len(s.Off) > 0 {
		c.off = make(map[minute]bool, len(s.Off))
		for _, d := range s.Off {
			c.off[c.on(d)/minutesPerDay] = true
		}
	}
	c.day = min(max(c.day, shortestWorkday), minutesPerDay)
	c.start = min(usualStart, minutesPerDay-c.day)
	if c.workdays == [7]bool{} {
		c.workdays = [7]bool{false, true, true, true, true, true, false}
	}
	return c
}

func (c calendar) works(day minute) bool {
	weekday := (int64(c.first.Weekday()) + int64(day)) % 7
	if weekday < 0 {
		weekday += 7
	}
	return c.workdays[weekday] && !c.off[day]
}

// split gives the day that a minute lies in and how much of its work is over by then.
func (c calendar) split(t minute) (day, worked minute) {
	day = t / minutesPerDay
	if t < 0 && t%minutesPerDay != 0 {
		day--
	}
	worked = min(max(t-day*minutesPerDay-c.start, 0), c.day)
	return day, worked
}

// next is the earliest minute from t on at which work can go on.
func (c calendar) next(t minute) minute {
	day, worked := c.split(t)
	if c.works(day) && worked < c.day {
		return max(t, day*minutesPerDay+c.start)
	}
	for day++; !c.works(day); day++ {
	}
	return day*minutesPerDay + c.start
}

// add is when that much work is over, begun at t.
func (c calendar) add(t, work minute) minute {
	t = c.next(t)
	for {
		day, worked := c.split(t)
		if left := c.day - worked; work <= left {
			return t + work
		} else {
			work -= left
		}
		t = c.next((day + 1) * minutesPerDay)
	}
}

// sub is the latest start of that much work which is over by t.
func (c calendar) sub(t, work minute) minute {
	for day, _ := c.split(t); ; day-- {
		if !c.works(day) {
			continue
		}
		end := min(t, day*minutesPerDay+c.start+c.day)
		if done := end - (day*minutesPerDay + c.start); done >= work {
			return end - work
		} else if done > 0 {
			work -= done
		}
	}
}

// between is the work that fits from a to b.
func (c calendar) between(a, b minute) minute {
	if b < a {
		return -c.between(b, a)
	}
	first, worked := c.split(a)
	last, byThen := c.split(b)
	var sum minute
	for day := first; day <= last; day++ {
		if c.works(day) {
			sum += c.day
		}
	}
	if c.works(first) {
		sum -= worked
	}
	if c.works(last) {
		sum -= c.day - byThen
	}
	return sum
}

// toQuarter is the nearest quarter of an hour. The network counts in minutes, so that many short tasks do not add up what
// rounding each would lose; only what is told is rounded, one way for starts and finishes, so that what follows still follows.
func toQuarter(t minute) minute {
	t += quarter / 2
	return t - (t%quarter+quarter)%quarter
}

// stamp writes a minute as a local date and time, to the quarter of an hour.
func (c calendar) stamp(t minute) string {
	t = toQuarter(t)
	return c.first.Add(time.Duration(t) * time.Minute).Format("2006-01-02T15:04")
}

// stamps is stamp for many minutes: it writes each date once.
func (c calendar) stamps() func(minute) string {
	dates := map[minute]string{}
	return func(t minute) string {
		t = toQuarter(t)
		day, at := t/minutesPerDay, t%minutesPerDay
		if at < 0 {
			return c.stamp(t)
		}
		date, ok := dates[day]
		if !ok {
			date = c.stamp(day * minutesPerDay)
			dates[day] = date
		}
		text := []byte(date)
		hour, past := at/60, at%60
		for i, digit := range [4]minute{hour / 10, hour % 10, past / 10, past % 10} {
			text[len(text)-5+i+i/2] = byte('0' + digit)
		}
		return string(text)
	}
}

// on is midnight at the start of a civil day.
func (c calendar) on(d job.Date) minute {
	day := time.Date(d.Year, time.Month(d.Month), d.Day, 0, 0, 0, 0, time.UTC)
	return minute(day.Sub(c.first) / time.Minute)
}

// days counts the workdays that are touched from the first day to t.
func (c calendar) days(from, t minute) int {
	n := 0
	for day := from / minutesPerDay; day*minutesPerDay < t; day++ {
		if c.works(day) {
			n++
		}
	}
	return n
}
