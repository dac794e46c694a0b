package ui

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/planner"

	"fyne.io/fyne/v2"
)

// recorder is two lines of fields under the sequence: what the picked step took, in days, hours and material. The plan
// that follows sets it against what was reckoned.
type recorder struct {
	fieldPane
	task  string
	shows string
	item  string // the row of the shopping list that the next quantity is of
}

func newRecorder(w *Window) *recorder { return &recorder{fieldPane: newFieldPane(w)} }

// place puts the fields at the foot of a size.
func (r *recorder) place(size fyne.Size) {
	if size.Width != r.wide {
		r.wide = size.Width
		r.build()
	}
	put(r.box, 0, size.Height-r.high, size.Width, r.high)
}

// show turns to a step.
func (r *recorder) show(task string) {
	r.task = task
	if key := r.key(); key != r.shows {
		r.shows = key
		r.build()
	}
	for _, f := range r.fields {
		f.refresh()
	}
}

func (r *recorder) key() string {
	d := r.done()
	key := fmt.Sprint(r.task, r.item, d != nil, r.w.model.Doc.Job().Units)
	if d != nil {
		key += fmt.Sprint(d.Used)
	}
	if p := r.w.model.Plan; p != nil {
		key += fmt.Sprint(len(p.Takeoff))
	}
	return key
}

// step is the picked step in the plan, nil where it is gone.
func (r *recorder) step() *plan.Task {
	if p := r.w.model.Plan; p != nil {
		for i := range p.Schedule {
			if p.Schedule[i].ID == r.task {
				return &p.Schedule[i]
			}
		}
	}
	return nil
}

// done is what the project has recorded of the picked step, nil while it is to come.
func (r *recorder) done() *job.Done {
	list := r.w.model.Doc.Job().Progress
	for i := range list {
		if list[i].Task == r.task {
			return &list[i]
		}
	}
	return nil
}

func (r *recorder) build() {
	l := r.begin()
	defer r.end(l)
	w, t := r.w, r.step()
	if t == nil {
		l[0].quiet("Pick a step to note the day it was done, the hours it took and what it used up.")
		l[1].quiet("Estimate and actual then stand side by side, here and under Shopping.")
		return
	}
	l[0].words(fit(r.w.tell(t.Name), sizeText, true, 420), true)
	d := r.done()
	switch {
	case t.Kind == "wait":
		l[1].quiet("Nothing to tick: it passes by itself. " + r.meanwhile(t))
		return
	case d == nil:
		l[0].button("Tick it off", func() { w.tick(*t, true) })
		l[1].quiet(fmt.Sprintf("Reckoned at %s h. Tick it off to note what it took.", oneDecimal(t.Hours)))
		return
	}
	set := func(change func(*planner.TickTask)) error {
		now := r.done()
		if now == nil {
			return errors.New("the step is not ticked off any more")
		}
		e := planner.TickTask{Task: t.ID, Done: true, On: now.On, Hours: now.Hours}
		change(&e)
		return w.model.Do(e)
	}
	l[0].button("Not done yet", func() { w.tick(*t, false) })
	l[0].field("done on", 104, func() string { return dateWords(r.noted().On) }, func(s string) error {
		day, err := parseDate(s)
		if err != nil {
			return err
		}
		return set(func(e *planner.TickTask) { e.On = day })
	})
	l[0].field("hours taken", 60, func() string { return trimZero(r.noted().Hours) }, func(s string) error {
		n, err := number(s, "h")
		if err != nil {
			return err
		}
		return set(func(e *planner.TickTask) { e.Hours = n })
	})
	l[0].quiet("of " + oneDecimal(t.Hours) + " reckoned")
	r.uses(l[1], d)
}

// noted is what is recorded of the step, empty where nothing is.
func (r *recorder) noted() job.Done {
	if d := r.done(); d != nil {
		return *d
	}
	return job.Done{}
}

func (r *recorder) meanwhile(t *plan.Task) string {
	if len(t.Meanwhile) == 0 {
		return ""
	}
	return "Meanwhile " + counted(len(t.Meanwhile), "other step") + " can be done."
}

// uses are the quantities noted for a step, and the fields for the next one.
func (r *recorder) uses(l *line, d *job.Done) {
	w := r.w
	rows := w.model.Plan.Takeoff
	names := make([]string, len(rows))
	for i := range rows {
		names[i] = w.called(rows[i])
	}
	if !slices.ContainsFunc(rows, func(i plan.Item) bool { return i.Record == r.item }) && len(rows) > 0 {
		r.item = rows[0].Record
	}
	at := max(0, slices.IndexFunc(rows, func(i plan.Item) bool { return i.Record == r.item }))
	if len(rows) == 0 {
		return
	}
	l.choice("used up", 230, names, func() string { return names[at] }, func(s string) {
		if k := slices.Index(names, s); k >= 0 {
			r.item = rows[k].Record
			r.show(r.task)
		}
	})
	l.field("", 64, func() string {
		for _, u := range r.noted().Used {
			if u.Item == r.item {
				return trimZero(u.Quantity)
			}
		}
		return ""
	}, func(s string) error {
		n := 0.0
		if strings.TrimSpace(s) != "" {
			var err error
			if n, err = number(s, rows[at].Unit); err != nil {
				return err
			}
		}
		return w.model.Do(planner.RecordUse{Task: r.task, Item: r.item, Quantity: n})
	})
	l.quiet(unitWords(rows[at]))
	for _, u := range d.Used {
		l.button(u.Item+" "+trimZero(u.Quantity)+"  ×", func() { w.report(w.model.Do(planner.RecordUse{Task: r.task, Item: u.Item})) })
	}
}

// dateWords and parseDate are how days are written in fields: year-month-day.
func dateWords(d job.Date) string {
	if d == (job.Date{}) {
		return ""
	}
	return fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day)
}

// datesWords and parseDates are a list of days, one after another.
func datesWords(days []job.Date) string {
	parts := make([]string, len(days))
	for i, d := range days {
		parts[i] = dateWords(d)
	}
	return strings.Join(parts, " ")
}

func parseDates(s string) (days []job.Date, err error) {
	for _, word := range strings.FieldsFunc(s, func(r rune) bool { return r == ' ' || r == ',' }) {
		d, err := parseDate(word)
		if err != nil {
			return nil, err
		}
		if !slices.Contains(days, d) {
			days = append(days, d)
		}
	}
	return days, nil
}

func parseDate(s string) (job.Date, error) {
	t, err := time.Parse("2006-01-02", strings.TrimSpace(s))
	if err != nil {
		return job.Date{}, fmt.Errorf("%q is not a day: write it like 2027-03-01", s)
	}
	return job.Date{Year: t.Year(), Month: int(t.Month()), Day: t.Day()}, nil
}
