package book

import (
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/scene/document/ask"
	"seamwright/scene/draft"
)

// weight is a mass in kilograms on its way into words.
type weight = plan.Kilograms

// priced tells whether money is told.
func (b *book) priced() bool { return b.r.Prices != ask.NoPrices }

// taskTime is how the plan writes times: local, to the minute.
const taskTime = "2006-01-02T15:04"

// stamp reads a time of the plan; not ok where no date is promised.
func stamp(s string) (t time.Time, ok bool) {
	t, err := time.Parse(taskTime, s)
	return t, err == nil
}

// lined is the area of all outermost layers.
func (b *book) lined() (sum length.Area) {
	for i := range b.plan.Surfaces {
		sum += linedOf(&b.plan.Surfaces[i])
	}
	return sum
}

// linedOf is the area of a surface's outermost layers as they hang.
func linedOf(s *plan.Surface) (sum length.Area) {
	for i := range s.Zones {
		if i+1 < len(s.Zones) && s.Zones[i+1].Zone == s.Zones[i].Zone {
			continue
		}
		for k := range s.Zones[i].Panels {
			p := &s.Zones[i].Panels[k]
			sum += p.Outline.Area()
			for _, h := range p.Holes {
				sum -= h.Area()
			}
		}
	}
	return sum
}

// product is what people call a product.
func (b *book) product(id string) string {
	if p := b.job.Product(id); p != nil {
		return draft.ProductName(p, b.say)
	}
	return id
}

// wall is what the job says of a wall, nil for a ceiling.
func (b *book) wall(surface string) *job.Wall {
	for i := range b.job.Rooms {
		r := &b.job.Rooms[i]
		for k := range r.Walls {
			if r.ID+"/"+r.Walls[k].ID == surface {
				return &r.Walls[k]
			}
		}
	}
	return nil
}

// boxes are the boxes of a surface.
func (b *book) boxes(s *plan.Surface) []job.Box {
	if w := b.wall(s.ID); w != nil {
		return w.Boxes
	}
	return nil
}

// plainly puts names in the place of ids in a sentence of the plan.
func (b *book) plainly(s string) string {
	return strings.Join(strings.Fields(draft.PlainlyIn(b.job, s, b.say)), " ")
}

// name is what people call a surface.
func (b *book) name(surface string) string { return draft.NamedWhole(surface, b.say) }

// message is what a check says.
func (b *book) message(k *plan.Check) string { return b.say.Fact(k.Says) }

// taskName is what is done in a task.
func (b *book) taskName(t *plan.Task) string { return b.say.Fact(t.Name) }

// lookText is what to look at before it is covered.
func (b *book) lookText(l *plan.Look) string { return b.say.Fact(l.Text) }

// basis is how a quantity came about.
func (b *book) basis(i *plan.Item) string { return b.say.Fact(i.Basis) }

// capital begins a line with a capital letter.
func capital(s string) string {
	r, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[size:]
}
