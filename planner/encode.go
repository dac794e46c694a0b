package planner

import (
	"math"
	"slices"
	"strconv"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/shape"
)

// encoder writes parts of a job as values, with lengths in the project's units.
type encoder struct {
	imperial bool
	defaults defaults
}

func (e encoder) len(l length.Length) value { return lengthValue(l, e.imperial) }

// heaviness writes the weight of a sheet so that it reads back exactly: in pounds where that is the project's unit and a
// thousandth is enough, else in kilograms.
func (e encoder) heaviness(kg float64) value {
	same := func(t string) bool {
		other, ok := parseHeaviness(t)
		return ok && other == kg
	}
	s := strconv.FormatFloat(kg, 'f', -1, 64) + " kg"
	pounds := strconv.FormatFloat(math.Round(kg/kilogramsPerPound*1000)/1000, 'f', -1, 64) + " lb"
	if e.imperial && same(pounds) {
		s = pounds
	}
	return value{text: s, plain: s, same: same}
}

func (e encoder) lens(of []length.Length) value { return listOf(each(of, e.len)...) }

func (e encoder) point(q shape.Point) value { return listOf(e.len(q.X), e.len(q.Y)) }

func (e encoder) points(of []shape.Point) value { return listOf(each(of, e.point)...) }

// part is a mapping that is written only where it says something beyond the defaults.
func part(key string, v value) field {
	if len(v.written()) == 0 {
		return field{key: key, value: v, rule: usual}
	}
	return field{key: key, value: v}
}

func (e encoder) framing(f, usual job.Framing, ceiling bool, usualAlong job.Axis) value {
	fields := []field{
		unless(f.Material == usual.Material, "material", word(string(f.Material))),
		unless(f.Spacing == usual.Spacing, "spacing", e.len(f.Spacing)),
	}
	if ceiling {
		fields = append(fields, unless(f.Along == usualAlong, "along", word(string(f.Along))))
	}
	fields = append(fields,
		unless(f.First == usual.First, "first", e.len(f.First)),
		unless(f.Member == usual.Member, "member", e.len(f.Member)),
		unless(f.Depth == usual.Depth, "depth", e.len(f.Depth)),
		unless(slices.Equal(f.Also, usual.Also), "also", e.lens(f.Also)),
		unless(slices.Equal(f.Without, usual.Without), "without", e.lens(f.Without)),
	)
	v := mapOf(fields...)
	v.order = framingKeys
	return v
}

func (e encoder) backing(b *job.Backing) value {
	if b == nil {
		return word(noBacking)
	}
	seam := func(s [2]shape.Point) value {
		return listOf(e.len(s[0].X), e.len(s[0].Y), e.len(s[1].X), e.len(s[1].Y))
	}
	return mapOf(need("product", text(b.Product)), when(len(b.Seams) > 0, "seams", listOf(each(b.Seams, seam)...)))
}

func sameBacking(a, b *job.Backing) bool {
	if a == nil || b == nil {
		return a == b
	}
	return a.Product == b.Product && slices.Equal(a.Seams, b.Seams)
}

// wall is the keys of a wall that SetWall may change; side comes first where an entry is new.
func (e encoder) wall(w job.Wall) []field {
	d := e.defaults
	return []field{
		part("framing", e.framing(w.Framing, d.framing, false, "")),
		unless(sameBacking(w.Backing, d.backing), "backing", e.backing(w.Backing)),
		unless(w.Insulation == d.insulation, "insulation", word(string(w.Insulation))),
		when(len(w.Duty) > 0, "duty", words(w.Duty)),
		when(w.Back != "", "back", text(w.Back)),
		unless(w.Base == 0, "base", e.len(w.Base)),
		unless(w.Trim == d.trim, "trim", e.len(w.Trim)),
		when(len(w.Top) > 0, "top", e.points(w.Top)),
		when(len(w.Bottom) > 0, "bottom", e.points(w.Bottom)),
		when(len(w.Floor) > 0, "floor", e.points(w.Floor)),
	}
}

// contents is the keys of a wall that hold what hangs on it and stands in it.
func (e encoder) contents(w job.Wall) []field {
	return []field{
		when(len(w.Openings) > 0, "openings", listOf(each(w.Openings, e.opening)...)),
		when(len(w.Boxes) > 0, "boxes", listOf(each(w.Boxes, e.box)...)),
		when(len(w.Pins) > 0, "pins", listOf(each(w.Pins, e.pin)...)),
	}
}

func (e encoder) lining(zones []job.Zone) value { return listOf(each(zones, e.zone)...) }

func (e encoder) zone(z job.Zone) value {
	layers := words(z.Layers)
	layers.one = true
	runs := words(z.Runs)
	runs.one = true
	if allSame(z.Runs) && len(z.Runs) > 0 {
		runs = word(string(z.Runs[0]))
	}
	auto := len(z.Runs) == 0 || allSame(z.Runs) && z.Runs[0] == job.RunAuto
	if len(z.Runs) == 0 {
		runs = word(string(job.RunAuto))
	}
	return mapOf(
		need("product", layers),
		when(z.To > 0, "to", e.len(z.To)),
		unless(auto, "run", runs),
		unless(z.Pattern == job.Staggered || z.Pattern == "", "pattern", word(string(job.Staggered))).or(z.Pattern),
		unless(z.Finish == e.defaults.finish, "finish", count(z.Finish)),
		when(len(z.Courses) > 0, "courses", e.lens(z.Courses)),
		when(z.Start != job.StartAuto, "start", word(string(z.Start))),
	)
}

// or gives a field that names a pattern its word, where there is one.
func (f field) or(p job.Pattern) field {
	if p != "" {
		f.value = word(string(p))
	}
	return f
}

func allSame[T comparable](of []T) bool {
	for _, x := range of {
		if x != of[0] {
			return false
		}
	}
	return true
}

func (e encoder) opening(o job.Opening) value {
	return mapOf(
		need("id", text(o.ID)),
		need("kind", word(string(o.Kind))),
		need("at", e.len(o.At)),
		need("width", e.len(o.Width)),
		need("height", e.len(o.Height)),
		unless(o.Sill == 0, "sill", e.len(o.Sill)),
		unless(o.Reveal == 0, "reveal", e.len(o.Reveal)),
		when(o.Return != "", "return", word(string(o.Return))),
	)
}

// hatch is an opening of a ceiling, on the floor plan.
func (e encoder) hatch(o job.Opening) value {
	return mapOf(
		need("id", text(o.ID)),
		unless(o.Kind == job.Hatch || o.Kind == "", "kind", word(string(o.Kind))),
		need("at", listOf(e.len(o.At), e.len(o.Sill))),
		need("size", listOf(e.len(o.Width), e.len(o.Height))),
		unless(o.Reveal == 0, "reveal", e.len(o.Reveal)),
		when(o.Return != "", "return", word(string(o.Return))),
	)
}

func (e encoder) box(b job.Box) value {
	return mapOf(
		need("at", e.len(b.At)),
		need("up", e.len(b.Up)),
		when(b.Diameter == 0, "width", e.len(b.Width)),
		when(b.Diameter == 0, "height", e.len(b.Height)),
		when(b.Diameter > 0, "diameter", e.len(b.Diameter)),
		unless(b.SetOut == 0, "set_out", e.len(b.SetOut)),
		when(b.Kind != "", "kind", text(b.Kind)),
	)
}

func (e encoder) pin(p job.Pin) value {
	return mapOf(need("zone", count(p.Zone)), need("layer", count(p.Layer)), when(!p.Edge, "course", count(p.Course)),
		when(!p.Edge, "seam", e.len(p.Seam)), when(p.Edge, "edge", e.len(p.Seam)))
}

func (e encoder) stock(s job.Stock) value {
	edges := "cut"
	if s.Tapered {
		edges = "tapered"
	}
	return mapOf(
		need("product", text(s.Product)),
		need("size", listOf(e.len(s.Length), e.len(s.Width))),
		unless(!s.Tapered, "edges", word(edges)),
		need("count", count(s.Count)),
		when(s.Note != "", "note", text(s.Note)),
	)
}

func (e encoder) sizes(sizes []job.Size) value {
	v := listOf(each(sizes, func(s job.Size) value {
		return mapOf(need("size", listOf(e.len(s.Length), e.len(s.Width))), need("price", amount(s.Price)))
	})...)
	v.block = true
	return v
}

func (e encoder) ceilingShape(c *job.Ceiling) value {
	switch c.Shape {
	case job.Ridge:
		return mapOf(when(false, "slope", value{}), need("ridge", mapOf(need("along", word(string(c.Along))), need("at", e.len(c.At)), need("height", e.len(c.High)))))
	case job.Slope:
		return mapOf(when(false, "ridge", value{}), need("slope", mapOf(need("from", word(c.From)), need("to", word(c.To)), need("height", e.len(c.High)))))
	}
	return word(string(job.Flat))
}

// temperature is written in the project's own scale.
func (e encoder) temperature(celsius float64) value {
	degrees, scale := celsius, "C"
	if e.imperial {
		degrees, scale = celsius*9/5+32, "F"
	}
	s := strconv.FormatFloat(degrees, 'g', 8, 64) + " " + scale
	return value{text: s, plain: s, same: func(t string) bool {
		const sameDegree = 1e-6
		other, ok := parseTemperature(t)
		return ok && math.Abs(other-celsius) < sameDegree
	}}
}

func (e encoder) date(d job.Date) value { return word(dateText(d)) }
