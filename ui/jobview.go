package ui

import (
	"fmt"
	"strconv"
	"strings"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/planner"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// jobView is what holds for the whole job: the site, the pieces on hand, the price list, the rules, the figures of the
// trade. Each is a column of
// fields; what is written there goes into the project at once.
type jobView struct {
	w       *Window
	box     *fyne.Container
	content *fyne.Container
	scroll  *container.Scroll
	fields  []refresher
	shows   string
	part    int
	built   int // the part that was built last
	parts   []*button
}

// The parts of the view.
var jobParts = []string{"Site", "On hand", "Price list", "Rules", "Figures"}

func newJobView(w *Window) *jobView {
	v := &jobView{w: w, content: container0()}
	v.scroll = container.NewVScroll(v.content)
	for i, name := range jobParts {
		v.parts = append(v.parts, newButton(w.pal, pill, name, func() { v.part = i; v.shows = ""; v.refresh(ViewChanged) }))
	}
	page := w.newPage(v.scroll, v.parts...)
	page.say("What holds for the whole job.")
	v.box = page.box
	return v
}

func (v *jobView) name() string              { return "Job" }
func (v *jobView) object() fyne.CanvasObject { return v.box }

func (v *jobView) refresh(c Change) {
	if key := v.key(); key != v.shows {
		v.shows = key
		v.build()
	}
	for i, b := range v.parts {
		b.set(jobParts[i], i == v.part)
	}
	if c&(DocumentChanged|ViewChanged) != 0 {
		for _, f := range v.fields {
			f.refresh()
		}
	}
}

// key names what the fields must be built for.
func (v *jobView) key() string {
	j := v.w.model.Doc.Job()
	key := fmt.Sprint(v.part, len(j.Figures), j.Units, len(j.Stock), v.w.model.Doc.Path(), len(j.Products), len(j.Supplies))
	for _, p := range j.Products {
		key += strconv.Itoa(len(p.Sizes))
	}
	return key
}

// form stacks labelled fields.
type form struct {
	v *jobView
	y float32
}

const (
	formLabel float32 = 290
	formField float32 = 150
)

func (f *form) title(words string) {
	t := f.v.w.pal.text(words, sizeHeading, true, f.v.w.pal.Ink)
	put(t, 0, f.y+10, t.MinSize().Width, t.MinSize().Height)
	f.v.content.Add(t)
	f.y += 40
}

func (f *form) note(words string) {
	for _, l := range wrap(words, sizeText, false, 640) {
		t := f.v.w.pal.text(l, sizeText, false, f.v.w.pal.Quiet)
		put(t, 0, f.y, t.MinSize().Width, 18)
		f.v.content.Add(t)
		f.y += 18
	}
	f.y += 8
}

// at places fields beside each other in one row.
func (f *form) at(x, width float32, o fyne.CanvasObject) {
	put(o, x, f.y, width, 28)
	f.v.content.Add(o)
	if r, ok := o.(refresher); ok {
		f.v.fields = append(f.v.fields, r)
	}
}

func (f *form) label(words string, x, width float32) {
	t := f.v.w.pal.text(fit(words, sizeText, false, width), sizeText, false, f.v.w.pal.Ink)
	put(t, x, f.y+(28-t.MinSize().Height)/2, t.MinSize().Width, t.MinSize().Height)
	f.v.content.Add(t)
}

func (f *form) quiet(words string, x, width float32) {
	t := f.v.w.pal.text(fit(words, sizeText, false, width), sizeText, false, f.v.w.pal.Quiet)
	put(t, x, f.y+(28-t.MinSize().Height)/2, t.MinSize().Width, t.MinSize().Height)
	f.v.content.Add(t)
}

func (f *form) next() { f.y += 33 }

func (f *form) field(words string, show func() string, commit func(string) error, why string) {
	f.label(words, 0, formLabel-10)
	f.at(formLabel, formField, newField(f.v.w, show, commit))
	if why != "" {
		f.quiet(why, formLabel+formField+14, 320)
	}
	f.next()
}

func (f *form) length(words string, get func() length.Length, set func(length.Length) error, why string) {
	w := f.v.w
	f.field(words, func() string { return get().Exact(w.imperial()) }, func(s string) error {
		l, err := w.parseLength(s)
		if err != nil {
			return err
		}
		return set(l)
	}, why)
}

func (f *form) choice(words string, options []string, show func() string, commit func(string)) {
	f.label(words, 0, formLabel-10)
	f.at(formLabel, formField, newChoice(f.v.w, options, show, commit))
	f.next()
}

func (v *jobView) build() {
	v.fields = nil
	v.content.RemoveAll()
	f := &form{v: v}
	switch v.part {
	case 0:
		v.site(f)
	case 1:
		v.stock(f)
	case 2:
		v.prices(f)
	case 3:
		v.rules(f)
	default:
		v.figures(f)
	}
	v.content.Resize(fyne.NewSize(700, f.y+20))
	if v.built != v.part {
		v.built = v.part
		v.scroll.Offset = fyne.NewPos(0, 0)
	}
	v.scroll.Refresh()
}

// number reads a plain number, with or without a unit or sign behind it.
func number(s, unit string) (float64, error) {
	s = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(s), unit))
	n, err := strconv.ParseFloat(s, 64)
	if err != nil || n != n || n > 1e9 || n < -1e9 {
		return 0, fmt.Errorf("%q is not a number: write it like 12.5", s)
	}
	return n, nil
}

func (v *jobView) rules(f *form) {
	w := v.w
	get := func() job.Rules { return w.model.Doc.Job().Rules }
	set := func(change func(*job.Rules)) error {
		r := get()
		change(&r)
		return w.model.Do(planner.SetRules{Rules: r})
	}
	f.title("Rules that leave room")
	f.note("The search obeys them and the checks report them. Where a rule is your local code's or a tested design's, that governs.")
	f.length("End joints of adjoining courses apart by", func() length.Length { return get().Stagger }, func(l length.Length) error { return set(func(r *job.Rules) { r.Stagger = l }) }, "never more than one stud space is asked")
	f.length("Shortest piece along a course", func() length.Length { return get().LeastPiece }, func(l length.Length) error { return set(func(r *job.Rules) { r.LeastPiece = l }) }, "")
	f.length("Least height of a ripped course", func() length.Length { return get().LeastCourse }, func(l length.Length) error { return set(func(r *job.Rules) { r.LeastCourse = l }) }, "at floor or head")
	f.length("Joints clear of an opening's corners by", func() length.Length { return get().Opening }, func(l length.Length) error { return set(func(r *job.Rules) { r.Opening = l }) }, "")
	f.length("Seams clear of seams in the backing by", func() length.Length { return get().Backing }, func(l length.Length) error { return set(func(r *job.Rules) { r.Backing = l }) }, "")
	f.length("Gap at the floor", func() length.Length { return get().FloorGap }, func(l length.Length) error { return set(func(r *job.Rules) { r.FloorGap = l }) }, "the base trim covers it")
	f.length("Cut pieces smaller than their place by", func() length.Length { return get().Fit }, func(l length.Length) error { return set(func(r *job.Rules) { r.Fit = l }) }, "so that they go in without force")
	f.length("Screws no further apart than", func() length.Length { return get().Screws }, func(l length.Length) error { return set(func(r *job.Rules) { r.Screws = l }) }, "tables may ask for less")
	f.choice("Round openings", []string{"notch sheets", "joints at the jambs"}, func() string {
		if get().Cutouts == job.RectOnly {
			return "joints at the jambs"
		}
		return "notch sheets"
	}, func(s string) {
		w.report(set(func(r *job.Rules) {
			r.Cutouts = job.Notch
			if s != "notch sheets" {
				r.Cutouts = job.RectOnly
			}
		}))
	})
	f.choice("Two raked pieces from one rectangle", []string{"no", "where it saves"}, func() string {
		if get().Rakes == job.RakesPaired {
			return "where it saves"
		}
		return "no"
	}, func(s string) {
		w.report(set(func(r *job.Rules) {
			r.Rakes = job.RakesApart
			if s != "no" {
				r.Rakes = job.RakesPaired
			}
		}))
	})
	f.choice("Back blocking behind butt joints", []string{"no", "yes"}, func() string {
		if get().BackBlocking {
			return "yes"
		}
		return "no"
	}, func(s string) { w.report(set(func(r *job.Rules) { r.BackBlocking = s == "yes" })) })
	v.paint(f)
}

func (v *jobView) paint(f *form) {
	w := v.w
	get := func() job.Paint { return w.model.Doc.Job().Paint }
	set := func(change func(*job.Paint)) error {
		p := get()
		change(&p)
		return w.model.Do(planner.SetPaint{Paint: p})
	}
	f.title("Paint")
	count := func(s string, to func(*job.Paint, int)) error {
		n, err := number(s, "")
		if err != nil {
			return err
		}
		return set(func(p *job.Paint) { to(p, int(n)) })
	}
	f.field("Coats of primer", func() string { return strconv.Itoa(get().Primer) }, func(s string) error { return count(s, func(p *job.Paint, n int) { p.Primer = n }) }, "")
	f.field("Coats of paint", func() string { return strconv.Itoa(get().Coats) }, func(s string) error { return count(s, func(p *job.Paint, n int) { p.Coats = n }) }, "")
}
