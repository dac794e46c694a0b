package page

import (
	"context"
	"slices"
	"strings"
	"unicode"

	"seamwright/assets/words"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/scene/document/ask"
)

// figure is one row of the table of figures, a cell for each variant.
type figure struct {
	Name  string
	Cells []string
	Large bool
}

// wall is one row of what each wall and ceiling gets.
type wall struct{ Name, Gets string }

// sign is a line of the picture and what it means; Class picks its look and when it is shown.
type sign struct{ Class, Words string }

// teller words what is told of one variant.
type teller struct {
	*ask.Request
	*words.Voice
	variant
}

// tell words everything on the page but the room.
func (c *content) tell(ctx context.Context, r *ask.Request, variants []variant) error {
	var tellers []*teller
	for _, v := range variants {
		tellers = append(tellers, &teller{r, r.Voice, v})
	}
	for i, t := range tellers {
		if err := ctx.Err(); err != nil {
			return err
		}
		still, err := stillOf(t.scene)
		if err != nil {
			return err
		}
		told := told{Name: t.Name, Still: still, Alt: t.alt(), Joints: t.joints(), Walls: t.walls(), Ready: t.ready()}
		told.Stages, told.Drying = t.stages()
		c.Variants = append(c.Variants, told)
		r.Tell(i+1, len(tellers)+1)
	}
	var err error
	if c.Figures, err = figures(tellers); err != nil {
		return err
	}
	first := tellers[0]
	if r.Prices == ask.ForClient {
		c.Price = first.Text("page.price-means")
	}
	c.Lead = first.lead()
	if !r.Made.IsZero() {
		c.Made = first.Text("page.made", "day", r.Made)
	}
	c.Notes, c.Cautions = first.notes(), first.cautions()
	c.Legend = []sign{
		{"joint", first.Text("page.sign-joint")}, {"gap", first.Text("page.sign-gap")},
		{"seen", first.Text("page.sign-seen")}, {"cut", first.Text("page.sign-cut")},
	}
	return nil
}

// lead is the plan in one sentence.
func (t *teller) lead() string {
	start, finish := t.day(t.start()), t.day(t.plan.Summary.Finish)
	if start.IsZero() || finish.IsZero() {
		return t.Text("page.lead-undated", "area", t.lined())
	}
	return t.Text("page.lead", "area", t.lined(), "start", start, "finish", finish)
}

// lined is the area that is covered, each wall's first layer counted.
func (t *teller) lined() (sum length.Area) {
	for i := range t.plan.Surfaces {
		for k := range t.plan.Surfaces[i].Zones {
			z := &t.plan.Surfaces[i].Zones[k]
			if z.Layer > 1 {
				continue
			}
			for n := range z.Panels {
				sum += z.Panels[n].Outline.Area()
				for _, h := range z.Panels[n].Holes {
					sum -= h.Area()
				}
			}
		}
	}
	return sum
}

// figures is the table of figures.
func figures(tellers []*teller) ([]figure, error) {
	var out []figure
	first := tellers[0]
	row := func(key string, cell func(*teller) string) {
		f := figure{Name: first.Text(key)}
		for _, t := range tellers {
			f.Cells = append(f.Cells, cell(t))
		}
		out = append(out, f)
	}
	if first.Prices == ask.ForClient {
		f := figure{Name: first.Text("page.price"), Large: true}
		for _, t := range tellers {
			price, err := t.ClientPrice(t.plan)
			if err != nil {
				return nil, err
			}
			f.Cells = append(f.Cells, t.Money(price))
		}
		out = append(out, f)
	}
	row("page.start", func(t *teller) string { return t.date(t.start()) })
	row("page.finish", func(t *teller) string { return t.date(t.plan.Summary.Finish) })
	row("page.days", func(t *teller) string { return t.Value(t.plan.Summary.Days) })
	row("page.lined", func(t *teller) string { return t.Value(t.lined()) })
	row("page.sheets", func(t *teller) string {
		return t.Value(t.plan.Summary.SheetsBought + t.plan.Summary.StockUsed)
	})
	row("page.filled", func(t *teller) string {
		s := &t.plan.Summary
		return t.Value(plan.Run(s.TaperedJoint + s.ButtJoint + s.MixedJoint))
	})
	return out, nil
}

// walls lists what each wall and ceiling gets, room by room.
func (t *teller) walls() (out []wall) {
	for i := range t.plan.Surfaces {
		s := &t.plan.Surfaces[i]
		out = append(out, wall{t.surfaceName(s), t.gets(s)})
	}
	return out
}

// gets is what one surface gets, from the floor up.
func (t *teller) gets(s *plan.Surface) string {
	type height struct {
		to     length.Length
		layers []string
	}
	var zones []height
	at := map[int]int{}
	for i := range s.Zones {
		z := &s.Zones[i]
		k, known := at[z.Zone]
		if !known {
			k = len(zones)
			at[z.Zone] = k
			zones = append(zones, height{to: z.Outline.Bounds().MaxY()})
		}
		zones[k].layers = append(zones[k].layers, t.product(z.Product))
	}
	if len(zones) == 0 {
		return capital(t.Text("page.open"))
	}
	var parts []string
	for i, z := range zones {
		layers := z.layers[0]
		for _, l := range z.layers[1:] {
			layers = t.Text("page.over", "under", layers, "over", l)
		}
		if i < len(zones)-1 {
			layers = t.Text("page.up-to", "what", layers, "height", z.to)
		}
		parts = append(parts, layers)
	}
	return capital(strings.Join(parts, t.Text("page.then")))
}

// product is a sheet good in the client's words.
func (t *teller) product(id string) string {
	if id == job.Open {
		return t.Text("page.open")
	}
	p := t.job.Product(id)
	if p == nil {
		return id
	}
	key := "page.board"
	switch {
	case p.Kind == job.WoodPanel && strings.HasPrefix(id, "osb"):
		key = "page.strand-board"
	case p.Kind == job.WoodPanel:
		key = "page.plywood"
	case p.FireType && p.Moisture:
		key = "page.fire-wet-board"
	case p.FireType:
		key = "page.fire-board"
	case p.Moisture:
		key = "page.wet-board"
	}
	return t.Text(key, "thick", p.Thickness)
}

// surfaceName is what people call a surface.
func (t *teller) surfaceName(s *plan.Surface) string {
	_, name, _ := strings.Cut(s.ID, "/")
	if s.Kind == plan.Ceiling {
		if _, side, ok := strings.Cut(name, "-"); ok {
			return t.Text("page.ceiling-side", "room", roomName(s.Room), "side", t.sideName(side))
		}
		return t.Text("page.ceiling", "room", roomName(s.Room))
	}
	return t.Text("page.wall", "room", roomName(s.Room), "wall", t.sideName(name))
}

// sides are the names of walls that projects use or the program gives, as phrases.
var sides = map[string]string{"north": "page.north", "south": "page.south", "east": "page.east", "west": "page.west"}

// sideName is a wall's id as a name.
func (t *teller) sideName(id string) string {
	if key, ok := sides[id]; ok {
		return t.Text(key)
	}
	if n, ok := strings.CutPrefix(id, "side-"); ok {
		return t.Text("page.side", "n", n)
	}
	return strings.ReplaceAll(id, "-", " ")
}

// roomName is a room's id as a name.
func roomName(id string) string { return capital(strings.NewReplacer("-", " ", "_", " ").Replace(id)) }

func capital(s string) string {
	r := []rune(s)
	if len(r) > 0 {
		r[0] = unicode.ToUpper(r[0])
	}
	return string(r)
}

// alt is the still picture in words.
func (t *teller) alt() string {
	var rooms []string
	for i := range t.job.Rooms {
		rooms = append(rooms, roomName(t.job.Rooms[i].ID))
	}
	return t.Text("page.alt", "name", t.plan.Name, "variant", t.Name, "rooms", strings.Join(rooms, ", "))
}

// joints says how many of the filled joints would show in light along the walls.
func (t *teller) joints() string {
	seen, all := 0, 0
	for _, b := range t.bodies {
		seen += len(b.Seen)
		for _, c := range b.Coats {
			all += len(c.Joints)
		}
	}
	switch {
	case all == 0:
		return t.Text("page.joints-none")
	case seen == 0:
		return t.Text("page.joints-hidden", "angle", degrees(lampAngle))
	}
	return t.Text("page.joints-seen", "count", seen, "all", all, "angle", degrees(lampAngle))
}

// notes are what the client should know and do.
func (t *teller) notes() []string {
	out := []string{t.Text("page.note-clear", "day", t.date(t.start()))}
	if len(t.Others) > 0 {
		out = append(out, t.Text("page.note-choose"))
	}
	if first, last := t.span(plan.DryStep); !last.IsZero() {
		out = append(out, t.Text("page.note-warm", "from", first, "to", last, "air", plan.Celsius(t.job.Site.Celsius)))
	}
	if first, last := t.span(plan.SandStep); !last.IsZero() {
		if sameDay(first, last) {
			out = append(out, t.Text("page.note-dust-day", "day", first))
		} else {
			out = append(out, t.Text("page.note-dust", "from", first, "to", last))
		}
	}
	if t.boxes() {
		out = append(out, t.Text("page.note-power"))
	}
	if first, _ := t.span(plan.InspectStep); !first.IsZero() {
		out = append(out, t.Text("page.note-inspection", "day", first))
	}
	return append(out, t.Text("page.note-dates"))
}

func (t *teller) boxes() bool {
	for i := range t.plan.Surfaces {
		if len(t.plan.Surfaces[i].Boxes) > 0 {
			return true
		}
	}
	return false
}

// clientCautions are the rules whose findings concern whoever lives or works in the building, in the order in which they
// are told. Each has a phrase of its own: the finding itself speaks to the builder.
var clientCautions = []struct{ rule, phrase string }{
	{"old-building", "page.caution-old-building"},
	{"dust", "page.caution-dust"},
	{"hot-appliance", "page.caution-hot-appliance"},
	{"foam", "page.caution-foam"},
	{"kraft", "page.caution-kraft"},
	{"wet", "page.caution-wet"},
	{"cold", "page.caution-cold"},
}

// cautions are the dangers that apply, and what is true of every plan.
func (t *teller) cautions() (out []string) {
	for _, c := range clientCautions {
		if slices.ContainsFunc(t.plan.Checks, func(k plan.Check) bool { return k.Rule == c.rule && k.Level != plan.Note }) {
			out = append(out, t.Text(c.phrase))
		}
	}
	return append(out, t.Text("page.caution-code"))
}
