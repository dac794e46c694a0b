package fasten

import (
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/span"
	"seamwright/calc/survey"
)

// stock are the lengths that screws come in where the job lists none for sale (common practice, no source).
var stock = []length.Length{
	inch, 9 * eighth, 10 * eighth, 13 * eighth, 15 * eighth, 16 * eighth, 18 * eighth, 20 * eighth, 24 * eighth,
	28 * eighth, 32 * eighth, 36 * eighth, 48 * eighth,
}

// Screw is the screw of one layer.
type Screw struct {
	Type    string        // W into wood, S into steel, P wood panels into wood
	Through length.Length // what it passes before the member: backing, layers below, this layer
	Reach   length.Length // least reach into the member
	Length  length.Length // stock length
	Supply  string        // "" where the job lists none that serves
}

// ScrewFor chooses the screw of a layer: what must be passed through plus the reach into the member, rounded up to a
// stock length of its type. zone gives what lies behind and how thick the layer is.
func ScrewFor(j *job.Job, s *survey.Surface, z *survey.Zone) Screw {
	w := Screw{Type: "W", Through: z.Depth + z.Product.Thickness, Reach: inches(intoWood.Of(j))}
	if s.Backing != nil && s.Backing.Product != nil {
		w.Through += s.Backing.Product.Thickness
	}
	switch {
	case s.Members.Material == string(job.Steel):
		w.Type, w.Reach = "S", inches(intoSteel.Of(j))
	case z.Product.Kind == job.WoodPanel && sells(j, "P"):
		w.Type, w.Reach = "P", inches(intoWoodPanel.Of(j))
	}
	w.Length, w.Supply = atLeast(j, w.Type, w.Through+w.Reach)
	return w
}

// sells says whether a type of screw is for sale; where no wood-panel screws are, panels are fixed with those for board.
func sells(j *job.Job, kind string) bool {
	for _, s := range j.SuppliesOf("screw") {
		if s.Type == kind {
			return true
		}
	}
	return false
}

// shortScrew is the screw of the same layer in a keep-out: the longest that stays within the reach allowed there.
func shortScrew(j *job.Job, w Screw) (length.Length, string) {
	longest := w.Through + inches(intoKeepOut.Of(j))
	found, supply := length.Length(0), ""
	for _, s := range j.SuppliesOf("screw") {
		if s.Type == w.Type && s.Length > w.Through && s.Length <= longest && s.Length > found {
			found, supply = s.Length, s.ID
		}
	}
	for _, l := range stock {
		if supply == "" && l > w.Through && l <= longest {
			found = l
		}
	}
	if found == 0 {
		return longest, ""
	}
	return found, supply
}

// atLeast is the shortest screw of a type that is long enough: one for sale, else a stock length.
func atLeast(j *job.Job, kind string, need length.Length) (length.Length, string) {
	found, supply := length.Length(0), ""
	for _, s := range j.SuppliesOf("screw") {
		if s.Type == kind && s.Length >= need && (supply == "" || s.Length < found) {
			found, supply = s.Length, s.ID
		}
	}
	if supply != "" {
		return found, supply
	}
	for _, l := range stock {
		if l >= need {
			return l, ""
		}
	}
	return need, ""
}

// inKeepOut reports whether a point lies in a keep-out of the zone.
func inKeepOut(z *survey.Zone, x, y length.Length) bool {
	for _, k := range z.KeepOuts {
		if x >= k.X && x <= k.MaxX() && y >= k.Y && y <= k.MaxY() {
			return true
		}
	}
	return false
}

// useOf is how a layer of the building is fixed.
func useOf(j *job.Job, z *survey.Zone, run string) span.Use {
	u := z.Use(job.Run(run))
	u.Glued = adhesive.Of(j) > 0
	return u
}
