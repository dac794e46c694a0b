package book

import (
	"strconv"
	"strings"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/scene/draft"
)

// note is something said about a drawing, under a short label.
type note struct{ label, text string }

// noteLine is one line of it; the first one bears the label.
type noteLine struct{ label, text string }

// noteLines wraps notes to a width.
func noteLines(notes []note, width float64) (lines []noteLine) {
	for _, n := range notes {
		label := draft.Measure(n.label, draft.Small, draft.Semibold)
		if n.label != "" {
			label += 5
		}
		words := blanks(n.text)
		first, taken := "", 0
		for _, word := range words {
			next := strings.TrimSpace(first + " " + word)
			if first != "" && label+draft.Measure(next, draft.Small, draft.Regular) > width {
				break
			}
			first, taken = next, taken+1
		}
		lines = append(lines, noteLine{n.label, first})
		if taken < len(words) {
			for _, l := range wrap(strings.Join(words[taken:], " "), draft.Small, draft.Regular, width) {
				lines = append(lines, noteLine{"", l})
			}
		}
	}
	return lines
}

// note draws a line of a note.
func (b *book) note(c leaf, at draft.Pt, n noteLine) {
	if n.label != "" {
		c.Text(at, n.label, draft.Type{Size: draft.Small, Weight: draft.Semibold, Color: b.th.Ink})
		at.X += draft.Measure(n.label, draft.Small, draft.Semibold) + 5
	}
	c.Text(at, n.text, draft.Type{Size: draft.Small, Color: b.th.Ink})
}

// elevationNotes say what a drawing of a layer of a surface cannot: what it is made of, in which order it hangs, its screws,
// boxes and level line, the measures that had no room on it, and what the rule book finds.
func (b *book) elevationNotes(s *plan.Surface, layer int, hung, unsized []string) (notes []note) {
	panels := map[string]*plan.Panel{}
	for i := range s.Zones {
		z := &s.Zones[i]
		if z.Layer != layer {
			continue
		}
		for k := range z.Panels {
			panels[z.Panels[k].ID] = &z.Panels[k]
		}
		notes = append(notes, b.zoneNotes(s, z)...)
	}
	if len(panels) == 0 {
		notes = append(notes, note{text: b.say.Text("book.left-open")})
	}
	if order := among(hung, panels); len(order) > 0 {
		notes = append(notes, note{b.say.Text("book.hang-order"), strings.Join(order, ", ")})
	}
	if len(unsized) > 0 {
		notes = append(notes, note{b.say.Text("book.small-pieces"), b.sizesOf(unsized)})
	}
	notes = append(notes, note{b.say.Text("book.members"), b.membersText(s)})
	notes = append(notes, b.levelNotes(s)...)
	for _, x := range b.boxes(s) {
		notes = append(notes, note{b.boxName(x.Kind), b.say.Text("book.box-at", "right", x.At, "up", x.Up)})
	}
	return append(notes, b.findings(s.ID)...)
}

// among keeps those that a set holds.
func among(ids []string, set map[string]*plan.Panel) (list []string) {
	for _, id := range ids {
		if set[id] != nil {
			list = append(list, id)
		}
	}
	return list
}

// zoneNotes say what a zone is made of and how it is screwed.
func (b *book) zoneNotes(s *plan.Surface, z *plan.Zone) []note {
	if len(z.Panels) == 0 {
		return nil
	}
	label := b.say.Text("book.lining")
	if s.Zones[len(s.Zones)-1].Zone > 1 {
		label = b.say.Text("book.zone", "zone", z.Zone)
	}
	run := b.say.Text("book.run-across")
	if z.Run == string(job.RunAlong) {
		run = b.say.Text("book.run-along")
	}
	made := b.say.Text("book.lining-of", "product", b.product(z.Product), "pieces", b.say.Text("count.pieces", "count", len(z.Panels)), "run", run)
	if p := b.job.Product(z.Product); p != nil && p.Kind == job.Gypsum {
		made += " " + b.say.Text("book.finish-level", "level", z.Finish)
	}
	notes := []note{{label, made}}
	if f := &z.Fasteners; f.Count > 0 {
		notes = append(notes, note{b.say.Text("book.screws"), b.screwText(f)})
	}
	return notes
}

// screwText says the pattern of a layer's screws.
func (b *book) screwText(f *plan.Fasteners) string {
	text := b.say.Text("book.screw-pattern", "number", f.Count-f.Short-f.Laminating, "length", b.short(f.Length), "spacing", b.short(f.Spacing))
	if f.Short > 0 {
		text += " " + b.say.Text("book.screws-short", "number", f.Short, "length", b.short(f.ShortLength))
	}
	if f.Laminating > 0 {
		text += " " + b.say.Text("book.screws-laminating", "number", f.Laminating, "length", b.short(f.LaminatingLength))
	}
	return text
}

// short writes a length below a few feet in inches, as screws and spacings are told.
func (b *book) short(l length.Length) string {
	if !b.say.Units().Imperial || l >= 3*length.Foot {
		return b.say.Length(l)
	}
	whole := l / length.Inch
	part := strings.TrimSpace(strings.TrimPrefix((l - whole*length.Inch).Imperial(16), "0' "))
	switch {
	case part == `0"`:
		return strconv.Itoa(int(whole)) + `"`
	case whole == 0:
		return part
	}
	return strconv.Itoa(int(whole)) + " " + part
}

// membersText says what stands behind the lining.
func (b *book) membersText(s *plan.Surface) string {
	if s.Members.Axis == "y" {
		return b.say.Text("book.members-level", "number", len(s.Members.At))
	}
	return b.say.Text("book.members-upright", "number", len(s.Members.At))
}

// sizesOf lists pieces with the measures that they are cut to.
func (b *book) sizesOf(ids []string) string {
	list := make([]string, len(ids))
	for i, id := range ids {
		list[i] = strings.ReplaceAll(id+" "+b.sizes[id], " ", fixed)
	}
	return strings.Join(list, "; ")
}

// levelNotes say where the level line of a surface lies, and sheet by sheet what goes under it or comes off.
func (b *book) levelNotes(s *plan.Surface) (notes []note) {
	for i := range b.plan.Levels {
		l := &b.plan.Levels[i]
		if l.Surface != s.ID {
			continue
		}
		var sheets []string
		for _, k := range l.Sheets {
			switch {
			case l.Hangs && k.Rip > 0:
				sheets = append(sheets, b.say.Text("book.level-rip", "panel", k.Panel, "rip", b.short(k.Rip)))
			case !l.Hangs && k.Shim > 0:
				sheets = append(sheets, b.say.Text("book.level-shim", "panel", k.Panel, "shim", b.short(k.Shim)))
			}
		}
		text := b.say.Text("book.level-at", "line", b.short(l.Line), "high", l.High.X)
		if len(sheets) > 0 {
			text += " " + strings.Join(sheets, ", ") + "."
		}
		notes = append(notes, note{b.say.Text("book.level-line"), text})
	}
	return notes
}

// findings are what the rule book says of a surface, numbered as the marks on the drawing are.
func (b *book) findings(surface string) (notes []note) {
	for i := range b.plan.Checks {
		k := &b.plan.Checks[i]
		if k.Where != surface {
			continue
		}
		label := b.level(k.Level)
		if k.Level != plan.Note {
			label = strconv.Itoa(i+1) + " " + label
		}
		notes = append(notes, note{label, capital(b.plainly(b.message(k)))})
	}
	return notes
}

// level names how grave a finding is.
func (b *book) level(l plan.Level) string {
	switch l {
	case plan.Error:
		return b.say.Text("book.level-error")
	case plan.Caution:
		return b.say.Text("book.level-caution")
	case plan.Note:
	}
	return b.say.Text("book.level-note")
}

// boxName names a box.
func (b *book) boxName(kind string) string {
	if kind == "" {
		return b.say.Text("book.box")
	}
	return capital(b.say.Text("box." + kind))
}
