package schedule

import (
	"math"
	"slices"

	"seamwright/calc/finish"
	"seamwright/calc/guard"
	"seamwright/calc/job"
	"seamwright/calc/plan"
)

// film is what dries in a wait; its time depends on the air of the room.
type film int

const (
	noFilm film = iota
	compound
	skimFilm
	primerCoat
	paintCoat
	clearCoat
)

// air is the room's air and the compound used in it: setting-type by its minutes, else the drying type at 0.
type air struct {
	celsius, humidity float64
	minutes           float64
}

func airOf(j *job.Job) air { return air{j.Site.Celsius, j.Site.Humidity, setting.Of(j)} }

// hours is how long a film takes; promised is false where nobody can say.
func (a air) hours(j *job.Job, f film) (hours float64, promised bool) {
	switch {
	case f > skimFilm:
	case a.minutes > 0:
		return finish.SettingHours(a.minutes), a.celsius >= finish.ColdestSetting
	case f == skimFilm:
		return finish.Drying(a.celsius, a.humidity, finish.SkimThickness(j))
	default:
		return finish.Drying(a.celsius, a.humidity, finish.CoatThickness(j))
	}
	in := *j
	in.Site.Celsius, in.Site.Humidity = a.celsius, a.humidity
	promised = a.celsius >= finish.Coldest-0.001
	switch f {
	case primerCoat:
		return finish.PrimerHours(&in), promised
	case clearCoat:
		return finish.ClearHours(&in), promised
	}
	return finish.PaintHours(&in), promised
}

// dry adds the wait after a coat of compound or a skim: by the air for drying-type, by the bag for setting-type.
func (s *sequence) dry(f film, id string, name plan.Fact, after links) links {
	hours, promised := s.air.hours(s.j, f)
	coat, table := finish.CoatThickness(s.j), finish.TableCoat
	if f == skimFilm {
		coat = finish.SkimThickness(s.j)
	}
	basis, source := plan.Tell("schedule.coat-dries", "coat", plan.Film(coat), "air", s.weather(), "scale", finish.DryingScale, "warmth", finish.DryingTemperature,
		"humidity", s.air.humidity, "damp", finish.DryingHumidity, "table", plan.Film(table)), plan.Tell("source.drying")
	if m := s.air.minutes; m > 0 {
		basis, source = plan.Tell("schedule.setting", "minutes", m), cite(setting)
	}
	return s.film(f, id, name, hours, promised, basis, source, after)
}

func (s *sequence) paintDries(id string, name plan.Fact, f film, after links) links {
	hours, promised := s.air.hours(s.j, f)
	sheet := finish.SheetHours(s.j, f == primerCoat, f == clearCoat)
	return s.film(f, id, name, hours, promised, plan.Tell("schedule.paint-dries", "sheet", sheet, "at", plan.Celsius(25), "air", s.weather()), plan.Tell("source.paint-dries"), after)
}

func (s *sequence) film(f film, id string, name plan.Fact, hours float64, promised bool, basis, source plan.Fact, after links) links {
	if !promised {
		basis = basis.Also(plan.Tell("schedule.no-date"))
	}
	added := s.wait(plan.DryStep, id, name, hours, promised, basis, source, after)
	s.nodes[added[0]].film = f
	return added
}

// weather tells the air of the room.
func (s *sequence) weather() plan.Fact {
	return plan.Tell("schedule.air", "temperature", plan.Celsius(s.air.celsius), "humidity", plan.Share(s.air.humidity))
}

// usualSetting is the setting-type compound that is shown beside the drying type.
const usualSetting = 90

// others lists the airs that the end of the job is worked out for: the room as it is, then colder and warmer ones, each
// with drying-type and with setting-type compound.
func others(j *job.Job) []air {
	own := airOf(j)
	minutes := own.minutes
	if minutes == 0 {
		minutes = usualSetting
	}
	swapped := own
	if swapped.minutes = 0; own.minutes == 0 {
		swapped.minutes = minutes
	}
	list := []air{own, swapped}
	degrees := []float64{10, 15, 20, 25, 30}
	if j.Units != job.Metric {
		degrees = nil
		for f := 50.0; f <= 80; f += 10 {
			degrees = append(degrees, (f-32)/1.8)
		}
	}
	for _, m := range []float64{0, minutes} {
		for _, c := range degrees {
			if math.Abs(c-own.celsius) > 0.5 {
				list = append(list, air{c, own.humidity, m})
			}
		}
	}
	return list
}

// whatIf gives the end of the job in other airs, by the same tasks with other waits, on all cores.
func (s *sequence) whatIf(c calendar, start minute) []plan.WhatIf {
	if len(s.nodes) == 0 {
		return []plan.WhatIf{}
	}
	airs, w := others(s.j), followersOf(s.nodes)
	all := make([]plan.WhatIf, len(airs))
	guard.Each(len(airs), func(i int) { all[i] = s.inAir(c, w, slices.Clone(s.nodes), airs[i], start) })
	all[0].Today = true
	return all
}

func (s *sequence) inAir(c calendar, w followers, nodes []node, a air, start minute) plan.WhatIf {
	end, promised := inAir(s.j, c, w, nodes, a, start)
	coat, _ := a.hours(s.j, compound)
	found := plan.WhatIf{Celsius: math.Round(a.celsius*10) / 10, Humidity: a.humidity, Compound: "drying", Coat: round(coat)}
	if a.minutes > 0 {
		found.Compound = "setting"
	}
	if promised {
		found.Finish, found.Days = c.stamp(end), c.days(0, end)
	}
	return found
}

// inAir solves the network with the films' waits as another air has them.
func inAir(j *job.Job, c calendar, w followers, nodes []node, a air, start minute) (end minute, promised bool) {
	var hours [clearCoat + 1]float64
	var known [clearCoat + 1]bool
	for f := compound; f <= clearCoat; f++ {
		hours[f], known[f] = a.hours(j, f)
	}
	for i := range nodes {
		if f := nodes[i].film; f != noFilm {
			nodes[i].minutes, nodes[i].unknown = atLeastOne(hours[f]), !known[f]
		}
	}
	end, _ = w.forward(c, nodes, start)
	promised = true
	for i := range nodes {
		promised = promised && nodes[i].promised
	}
	return end, promised
}

func atLeastOne(hours float64) minute { return max(minute(math.Ceil(hours*60)), 1) }
