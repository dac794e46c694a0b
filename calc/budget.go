package calc

import (
	"fmt"
	"math"
	"strconv"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/shape"
)

// The most that is planned at a time. A project within them is answered in bounded time and in less than 1 GB; one beyond
// is refused before any work is begun, with the surface at which it goes too far. They lie far beyond buildings that are
// lined by hand: a hall of 60 by 40 m takes some 400 sheets overhead.
const (
	mostPieces    = 25_000    // of the whole project
	mostOnSurface = 1_000     // pieces of one layer of a surface
	mostPlaces    = 100_000   // pairs of places at which one layer of a surface could be parted
	mostMembers   = 300_000   // studs and joists of the whole project
	mostScrews    = 2_000_000 // of the whole project
)

// budget adds up what a job asks for, from its areas alone.
type budget struct {
	job                     *job.Job
	pieces, members, screws float64
}

// face is a wall or a ceiling as far as a budget looks at it: members stand across `across`.
type face struct {
	id            string
	across, along length.Length
	spacing       length.Length
	area          float64 // as a share of across times along
}

// withinBudget refuses a job that would ask for more than can be planned. It names the first surface at which a limit is
// passed.
func withinBudget(j *job.Job) error {
	b := &budget{job: j}
	for i := range j.Rooms {
		if err := b.room(&j.Rooms[i]); err != nil {
			return err
		}
	}
	return nil
}

func (b *budget) room(r *job.Room) error {
	height := r.Height
	if c := r.Ceiling; c != nil {
		height = max(height, c.High)
	}
	for i := range r.Walls {
		w := &r.Walls[i]
		p, q := r.Corners[i], r.Corners[(i+1)%len(r.Corners)]
		width := length.Length(math.Hypot(float64(p.X-q.X), float64(p.Y-q.Y)))
		head := height
		for _, t := range w.Top {
			head = max(head, t.Y)
		}
		f := face{id: r.ID + "/" + w.ID, across: width, spacing: w.Framing.Spacing, area: 1}
		if err := b.frame(&f); err != nil {
			return err
		}
		from := length.Length(0)
		for k := range w.Lining {
			to := w.Lining[k].To
			if to == 0 || to > head {
				to = head
			}
			f.along = max(to-from, 0)
			if err := b.zone(f, k, &w.Lining[k]); err != nil {
				return err
			}
			from = to
		}
	}
	if c := r.Ceiling; c != nil {
		return b.ceiling(r, c)
	}
	return nil
}

// ceiling counts a ceiling on the floor plan, without its slope.
func (b *budget) ceiling(r *job.Room, c *job.Ceiling) error {
	corners := shape.Polygon(r.Corners)
	box := corners.Bounds()
	f := face{id: r.ID + "/ceiling", across: box.W, along: box.H, spacing: c.Framing.Spacing, area: float64(corners.Area()) / float64(box.W.Times(box.H))}
	if c.Framing.Along == job.AxisX {
		f.across, f.along = f.along, f.across
	}
	if err := b.frame(&f); err != nil {
		return err
	}
	for k := range c.Lining {
		if err := b.zone(f, k, &c.Lining[k]); err != nil {
			return err
		}
	}
	return nil
}

// frame counts the members of a surface.
func (b *budget) frame(f *face) error {
	if f.spacing <= 0 {
		f.spacing = 16 * length.Inch
	}
	if b.members += 2 + float64(f.across)/float64(f.spacing); b.members > mostMembers {
		return job.Refuse(f.id, "divide the project into several files", "with this surface the project has more than %s studs and joists, the most that are planned at a time", thousands(mostMembers)).
			At("framing", 0)
	}
	return nil
}

// zone counts what every layer of a zone asks for.
func (b *budget) zone(f face, index int, z *job.Zone) error {
	for _, id := range z.Layers {
		p := b.job.Product(id)
		if id == job.Open || p == nil || len(p.Sizes) == 0 || f.along <= 0 || f.across <= 0 {
			continue
		}
		pieces, places := asked(f, p)
		screws := f.area * float64(f.across) * float64(f.along) / float64(f.spacing) / float64(max(b.job.Rules.Screws, length.Inch))
		b.pieces += pieces
		b.screws += screws
		refuse := func(remedy, format string, args ...any) error {
			return job.Refuse(f.id, remedy, format, args...).At("lining", index+1)
		}
		switch {
		case pieces > mostOnSurface:
			return refuse("choose larger sheets, or divide the room", "this would take about %s pieces of %s; the most for one layer of a surface is %s",
				thousands(pieces), id, thousands(mostOnSurface))
		case places > mostPlaces:
			return refuse("take shorter sheets or a wider spacing, or divide the room", "sheets of %s could be parted in about %s ways here, member by member; the most for one layer of a surface is %s",
				id, thousands(places), thousands(mostPlaces))
		case b.pieces > mostPieces:
			return refuse("divide the project into several files", "with this surface the project takes about %s pieces; the most is %s", thousands(b.pieces), thousands(mostPieces))
		case b.screws > mostScrews:
			return refuse("set screws farther apart, or divide the project into several files", "with this surface the project takes about %s screws; the most is %s",
				thousands(b.screws), thousands(mostScrews))
		}
	}
	return nil
}

// asked is about how few pieces a layer takes, with the largest sheets that its product comes in, and how many pairs of
// places there are between which a sheet could reach, course by course.
func asked(f face, p *job.Product) (pieces, places float64) {
	pieces, places = math.Inf(1), 0
	for _, s := range p.Sizes {
		for _, run := range [][2]length.Length{{s.Length, s.Width}, {s.Width, s.Length}} {
			u, v := float64(max(1, min(run[0], f.across))), float64(max(1, min(run[1], f.along)))
			pieces = min(pieces, f.area*float64(f.across)/u*float64(f.along)/v)
		}
		at := float64(f.across) / float64(f.spacing)
		reach := min(at, float64(max(s.Length, s.Width))/float64(f.spacing))
		places = max(places, at*reach*max(1, float64(f.along)/float64(max(1, s.Length, s.Width))))
	}
	return pieces, places
}

// thousands writes a count to three figures, with commas: 1,250,000.
func thousands(n float64) string {
	if step := math.Pow(10, math.Floor(math.Log10(max(n, 1)))-2); step > 1 {
		n = math.Round(n/step) * step
	}
	if n >= 1e15 {
		return fmt.Sprintf("%.0e", n)
	}
	text := strconv.FormatFloat(math.Round(n), 'f', 0, 64)
	for i := len(text) - 3; i > 0; i -= 3 {
		text = text[:i] + "," + text[i:]
	}
	return text
}
