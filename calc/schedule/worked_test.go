package schedule_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamwright/calc/job"
	"seamwright/calc/schedule"
)

// A crew that works six hours from eight, Monday to Friday, with Wednesday 2027-03-03 off. The days are those of the
// civil calendar: 2027-03-01 is a Monday.
func TestWorkedPartsTimeIntoWorkdays(t *testing.T) {
	site := job.Site{Start: job.Date{Year: 2027, Month: 3, Day: 1}, Hours: 6, People: 1, Workdays: [7]bool{1: true, 2: true, 3: true, 4: true, 5: true},
		Off: []job.Date{{Year: 2027, Month: 3, Day: 3}}}
	for _, k := range []struct {
		name, from, to string
		want           []string
	}{
		{"within a day", "2027-03-01T08:00", "2027-03-01T11:45", []string{"03-01 08:00-11:45"}},
		{"over a night", "2027-03-01T12:00", "2027-03-02T09:30", []string{"03-01 12:00-14:00", "03-02 08:00-09:30"}},
		{"up to the next morning", "2027-03-01T12:00", "2027-03-02T08:00", []string{"03-01 12:00-14:00"}},
		{"over a day off", "2027-03-02T13:00", "2027-03-04T09:00", []string{"03-02 13:00-14:00", "03-04 08:00-09:00"}},
		{"over a weekend", "2027-03-05T13:00", "2027-03-08T08:15", []string{"03-05 13:00-14:00", "03-08 08:00-08:15"}},
		{"no time at all", "2027-03-01T09:15", "2027-03-01T09:15", []string{"03-01 09:15-09:30"}},
		{"none at the end of a day", "2027-03-01T14:00", "2027-03-01T14:00", []string{"03-02 08:00-08:15"}},
		{"late on a day", "2027-03-01T13:50", "2027-03-01T14:00", []string{"03-01 13:45-14:00"}},
	} {
		spans, err := schedule.Worked(site, k.from, k.to)
		require.NoError(t, err, k.name)
		var got []string
		for _, s := range spans {
			require.NotEqual(t, time.Saturday, s.From.Weekday())
			got = append(got, s.From.Format("01-02 15:04-")+s.To.Format("15:04"))
		}
		require.Equal(t, k.want, got, k.name)
	}
	_, err := schedule.Worked(site, "someday", "2027-03-01T14:00")
	require.Error(t, err)
}
