package schedule_test

import (
	"testing"
	"time"

	"seamwright/calc/internal/fact"
	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/calc/schedule"
)

// Rates that were published, waits that follow from the air, and a day of the calendar.
func TestFacts(t *testing.T) {
	j, b, p := studio()
	schedule.Schedule(j, b, p)
	hours := func(j *job.Job, id string) float64 {
		q := &plan.Plan{Surfaces: p.Surfaces}
		schedule.Schedule(j, b, q)
		return task(t, q, id).Hours
	}
	with := func(change func(*job.Job)) *job.Job {
		k := *j
		change(&k)
		return &k
	}
	figure := map[string]float64{}
	for _, f := range schedule.Figures {
		figure[f.ID] = f.Value
	}
	setting := func(minutes float64) *job.Job {
		return with(func(k *job.Job) { k.Figures = map[string]float64{"setting-compound": minutes} })
	}
	const (
		book  = "Peterson and Dagostino, Estimating in Building Construction, 7th ed., p. 170 and 182"
		maker = "makers' published setting times"
		graph = "graph of drying times for a coat of 1/16 in, its bands"
	)
	first, err := time.Parse("2006-01-02T15:04", task(t, p, "look-studio").Start)
	if err != nil {
		t.Fatal(err)
	}
	fact.Check(t, []fact.Fact{
		fact.Between("hours to hang 100 ft2 of plywood", task(t, p, "hang-studio/east/course-1").Hours/0.64, 1.2, 2.5, book, job.Read),
		fact.Between("hours for 100 ft of base trim", figure["fix-trim"], 1.5, 2.5, book, job.Read),
		fact.Between("hours for 100 ft of batten", figure["fix-batten"], 2, 4, book+", moulding", job.Read),
		fact.Is("hanging above ten feet against below", figure["height-factor"], 1.4, 0, "AWCI, Practical estimating part 2: 25 to 35 cents", job.Read),
		fact.Is("hours for 160 ft2 of board on walls in whole sheets", task(t, p, "hang-studio/south/course-1").Hours+4*figure["hang-piece"], 1.28, 0.005, "annual cost data: about 0.8 h for 100 ft2", job.Memory),
		fact.Between("hours to tape and coat 100 ft of joint three times", figure["tape-coat"]+2*figure["next-coat"]+2*figure["sand-between"], 1, 3, "hand taping, 1.0 to 1.5 h for 100 ft2, a third of a foot of joint to the ft2", job.Memory),
		fact.Between("hours to roll 100 ft2", figure["prime"], 0.3, 0.7, "orders of magnitude, roll coat", job.Memory),
		fact.Between("coat dries at 70 F and 50 %", task(t, p, "dry-1-studio").Hours, 17, 19, graph+": 17 to 19 h", job.Read),
		fact.Between("coat dries at 60 F and 70 %", hours(with(func(k *job.Job) { k.Site.Celsius, k.Site.Humidity = 15.6, 0.7 }), "dry-1-studio"), 24, 48, graph+": fair up to 48 h", job.Read),
		fact.Between("coat dries above 70 F and below 40 %", hours(with(func(k *job.Job) { k.Site.Celsius, k.Site.Humidity = 23, 0.35 }), "dry-1-studio"), 6, 17, graph+": the best zone", job.Read),
		fact.Is("45-minute compound, h", hours(setting(45), "dry-1-studio"), 80.0/60, 0.01, maker+": 30 to 80 minutes", job.Read),
		fact.Is("90-minute compound, h", hours(setting(90), "dry-1-studio"), 130.0/60, 0.01, maker+": 85 to 130 minutes", job.Read),
		fact.Is("210-minute compound, h", hours(setting(210), "dry-1-studio"), 4, 0.01, maker+": 180 to 240 minutes", job.Read),
		fact.Is("paint recoat at 77 F and 50 %, h", hours(with(func(k *job.Job) { k.Site.Celsius, k.Site.Humidity = 25, 0.5 }), "dry-paint-1-studio"), 4, 0.01, "eggshell latex data sheet", job.Read),
		fact.Is("primer recoat at 77 F and 50 %, h", hours(with(func(k *job.Job) { k.Site.Celsius, k.Site.Humidity = 25, 0.5 }), "dry-primer-1-studio"), 1, 0.01, "primer product page", job.Read),
		fact.Is("1 March 2027, day of the week", float64(first.Weekday()), float64(time.Monday), 0, "Gregorian calendar", job.Derived),
		fact.Is("wood panels rest, h", task(t, p, "rest-studio").Hours, 48, 0, "48 h is customary", job.Memory),
	})
}
