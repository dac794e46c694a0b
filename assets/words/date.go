package words

import (
	"fmt"
	"time"

	"seamwright/calc/plan"
)

// Date shows a day: Mar 1, 2027.
func (v *Voice) Date(t time.Time) string { return v.dated("date.short", t) }

// LongDate shows a day with its weekday: Monday, March 1, 2027.
func (v *Voice) LongDate(t time.Time) string { return v.dated("date.long", t) }

// Day shows a day within its year: Mar 1.
func (v *Voice) Day(t time.Time) string { return v.dated("date.day", t) }

// Weekday shows the day of the week in short: Mon.
func (v *Voice) Weekday(t time.Time) string { return v.Fact(shortWeekdayNames[t.Weekday()]) }

// Month shows a month in short: Mar.
func (v *Voice) Month(t time.Time) string { return v.Fact(shortMonthNames[t.Month()-1]) }

// Clock shows a time of day: 8:00 AM, 14:30.
func (v *Voice) Clock(t time.Time) string { return v.dated("date.clock", t) }

// dated fills a phrase about dates in; the names of months and weekdays stand in the catalog.
func (v *Voice) dated(key string, t time.Time) string {
	half, hour := "date.am", t.Hour()%12
	if t.Hour() >= 12 {
		half = "date.pm"
	}
	if hour == 0 {
		hour = 12
	}
	return v.Text(key,
		"day", t.Day(), "year", fmt.Sprintf("%04d", t.Year()),
		"month", monthNames[t.Month()-1], "abbreviated", shortMonthNames[t.Month()-1], "weekday", weekdayNames[t.Weekday()],
		"hour", hour, "hour24", fmt.Sprintf("%02d", t.Hour()), "minute", fmt.Sprintf("%02d", t.Minute()), "half", plan.Tell(half))
}

func (s said) dated(key string) (string, error) {
	t, ok := s.value.(time.Time)
	if !ok {
		return "", fmt.Errorf("words: %T is no date", s.value)
	}
	return s.voice.dated(key, t), nil
}

var (
	monthNames        = named("date.month-%d", 1, 12)
	shortMonthNames   = named("date.month-short-%d", 1, 12)
	weekdayNames      = named("date.weekday-%d", 0, 7)
	shortWeekdayNames = named("date.weekday-short-%d", 0, 7)
)

// named are the facts of numbered keys.
func named(key string, from, count int) []plan.Fact {
	facts := make([]plan.Fact, count)
	for i := range facts {
		facts[i] = plan.Tell(fmt.Sprintf(key, from+i))
	}
	return facts
}
