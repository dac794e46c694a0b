package ui

import (
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/planner"
)

// kilogramsPerPound is exact by definition.
const kilogramsPerPound = 0.45359237

// setSite changes what the project says of its site.
func (w *Window) setSite(change func(*job.Site)) error {
	s := w.model.Doc.Job().Site
	change(&s)
	return w.model.Do(planner.SetSite{Site: s})
}

// wayIn is what every sheet must be carried through.
func (v *jobView) wayIn(f *form) {
	f.title("The way in")
	f.note("Sheets that don't come through are not planned, unless nothing else works.")
	for _, x := range []struct {
		words string
		of    func(*job.Access) *length.Length
		why   string
	}{
		{"Door, width", func(a *job.Access) *length.Length { return &a.DoorWidth }, "0: no limit"},
		{"Door, height", func(a *job.Access) *length.Length { return &a.DoorHeight }, ""},
		{"Corridor", func(a *job.Access) *length.Length { return &a.Corridor }, ""},
		{"Corridor round the corner", func(a *job.Access) *length.Length { return &a.Turn }, ""},
		{"Stair, width", func(a *job.Access) *length.Length { return &a.StairWidth }, ""},
		{"Stair, headroom square to its pitch", func(a *job.Access) *length.Length { return &a.StairHeight }, ""},
	} {
		f.length(x.words, func() length.Length {
			a := v.w.model.Doc.Job().Site.Access
			return *x.of(&a)
		}, func(l length.Length) error {
			return v.w.setSite(func(s *job.Site) { *x.of(&s.Access) = l })
		}, x.why)
	}
}

// crew is what those who hang the sheets carry. Whoever sets a limit has a crew with limits.
func (v *jobView) crew(f *form) {
	w := v.w
	get := func() job.Crew { return w.model.Doc.Job().Site.Crew }
	set := func(change func(*job.Crew)) error {
		return w.setSite(func(s *job.Site) {
			s.Crew.Known = true
			change(&s.Crew)
		})
	}
	yesNo := func(words string, show func(job.Crew) bool, change func(*job.Crew, bool)) {
		f.choice(words, []string{"no", "yes"}, func() string { return map[bool]string{true: "yes", false: "no"}[show(get())] },
			func(s string) { w.report(set(func(c *job.Crew) { change(c, s == "yes") })) })
	}
	f.title("What the crew carries")
	f.note("Sheets that are too long or too heavy are not planned, unless nothing else works.")
	yesNo("Keep to what the crew carries", func(c job.Crew) bool { return c.Known }, func(c *job.Crew, yes bool) {
		if !yes {
			*c = job.Crew{}
		}
	})
	f.length("Longest sheet", func() length.Length { return get().Longest }, func(l length.Length) error { return set(func(c *job.Crew) { c.Longest = l }) }, "0: no limit")
	unit, perUnit := "lb", kilogramsPerPound
	if !w.imperial() {
		unit, perUnit = "kg", 1
	}
	f.field("Heaviest sheet", func() string { return trimZero(get().Heaviest/perUnit) + " " + unit }, func(s string) error {
		n, err := number(s, unit)
		if err != nil {
			return err
		}
		return set(func(c *job.Crew) { c.Heaviest = n * perUnit })
	}, "0: the usual figure for so many people")
	yesNo("A lifting device is at hand", func(c job.Crew) bool { return c.Lift }, func(c *job.Crew, yes bool) { c.Lift = yes })
}
