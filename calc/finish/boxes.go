package finish

import (
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/survey"
)

// Extension is how far a box must be brought out: the build-up of the lining less what it stands out from the framing
// and less what it may stand back: 1/4 in behind gypsum board, nothing behind wood (NEC 314.20, read). Never negative.
func Extension(buildUp, setOut, allowance length.Length) length.Length {
	return max(0, buildUp-setOut-allowance)
}

// BoxDepth is one electrical box and what its lining asks of it.
type BoxDepth struct {
	Surface   string
	Box       job.Box
	BuildUp   length.Length // backing and all layers
	Allowance length.Length
	Extension length.Length
	Proud     length.Length // how far it stands out of the finished face, 0 where a plate still lies flat
	Sealed    bool          // sealant goes round it
}

// Boxes lists every box that stands in a lined zone.
func Boxes(j *job.Job, b *survey.Building) []BoxDepth {
	var all []BoxDepth
	for _, s := range b.Surfaces {
		boxes := boxesOf(s)
		for _, box := range boxes {
			var front *survey.Zone
			for _, z := range s.Zones {
				r := z.Outline.Bounds()
				in := box.At >= r.X && box.At <= r.MaxX() && box.Up >= r.Y && box.Up <= r.MaxY()
				if in && z.Product != nil && (front == nil || z.Layer > front.Layer) {
					front = z
				}
			}
			if front == nil {
				continue
			}
			d := BoxDepth{Surface: s.ID, Box: box, BuildUp: front.Depth + front.Product.Thickness, Sealed: sealed(s)}
			if s.Backing != nil && s.Backing.Product != nil {
				d.BuildUp += s.Backing.Product.Thickness
			}
			if front.Product.Kind == job.Gypsum {
				d.Allowance = inches(j, boxGypsum)
			}
			d.Extension = Extension(d.BuildUp, box.SetOut, d.Allowance)
			if proud := box.SetOut - d.BuildUp; proud > inches(j, boxProud) {
				d.Proud = proud
			}
			all = append(all, d)
		}
	}
	return all
}

// boxesOf lists a surface's boxes; those of a ceiling stand on the plane that they were placed on.
func boxesOf(s *survey.Surface) []job.Box {
	switch {
	case s.Wall != nil:
		return s.Wall.Boxes
	case s.Ceiling != nil:
		return s.Placed
	}
	return nil
}

// boxRows are the box extenders, and the nail plates in front of cables and pipes.
func (u units) boxRows(j *job.Job, b *survey.Building) []plan.Item {
	boxes := Boxes(j, b)
	deep := 0
	counts, farthest := map[string]int{}, map[string]length.Length{}
	var order []string // extenders for sale as they are listed, then those that nobody sells
	for _, s := range j.SuppliesOf(extenders) {
		order = append(order, s.ID)
	}
	for _, d := range boxes {
		if d.Extension > 0 {
			id := extenderFor(j, d.Extension)
			deep++
			counts[id]++
			farthest[id] = max(farthest[id], d.Extension)
		}
	}
	var rows []plan.Item
	for _, id := range append(order, "") {
		if counts[id] == 0 {
			continue
		}
		name := thing{"box extender", plan.Tell("item.box-extender")}
		if id != "" {
			name = thing{"box extender " + fraction(farthest[id], u.imperial), plan.Tell("item.box-extender-of", "reach", plan.Fine(farthest[id]))}
		}
		rows = append(rows, byCount("sundries", name, id, float64(counts[id]),
			plan.Tell("finish.boxes-deep", "deep", deep, "boxes", plan.Tell("count.boxes", "count", len(boxes)), "these", counts[id], "by", plan.Fine(farthest[id])),
			told(boxGypsum)))
	}
	members := 0
	for _, s := range b.Surfaces {
		members += crossed(s)
	}
	plates := float64(members) + float64(platesPerBox.Of(j)*float64(len(boxes)))
	if plates > 0 {
		rows = append(rows, byCount("sundries", thing{"nail plate", plan.Tell("item.nail-plate")}, "nail-plate", plates,
			plan.Tell("finish.plates", "members", plan.Tell("count.members", "count", members), "boxes", plan.Tell("count.boxes", "count", len(boxes)), "each", platesPerBox.Of(j)),
			told(platesPerBox)))
	}
	return rows
}

// crossed counts the members of a surface that a keep-out crosses: what runs there is behind a plate.
func crossed(s *survey.Surface) (n int) {
	for _, z := range s.Zones {
		if z.Layer != 1 {
			continue
		}
		for _, k := range z.KeepOuts {
			for _, m := range s.Studs {
				if m.At > k.X && m.At < k.MaxX() {
					n++
				}
			}
		}
	}
	return n
}

// extenders is the kind of supply; its length is how far it brings a box out.
const extenders = "box-extender"

// extenderFor is the shortest extender for sale that reaches far enough, "" where none does.
func extenderFor(j *job.Job, extension length.Length) string {
	found, reach := "", length.Length(0)
	for _, s := range j.SuppliesOf(extenders) {
		if s.Length >= extension && (found == "" || s.Length < reach) {
			found, reach = s.ID, s.Length
		}
	}
	return found
}

// fraction writes a small length to 1/32 in, or to a millimetre.
func fraction(l length.Length, imperial bool) string {
	if imperial {
		return l.Imperial(32)
	}
	return l.Metric()
}
