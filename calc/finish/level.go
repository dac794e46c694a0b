package finish

import (
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// LevelLine is how the lowest course of a wall meets a floor that was measured: the floor's highest place gives the
// level line, from which everything is measured.
type LevelLine struct {
	Surface string
	Zone    int
	Hangs   bool          // from the head; else the sheets stand on the level line
	High    shape.Point   // place along the wall and height of the floor's highest point
	Line    length.Length // height of the level line: the lower edges of sheets that stand, or the planned ones of sheets that hang
	Sheets  []SheetLevel
	Largest length.Length // widest gap between floor and lining
	Trim    length.Length // height of the base trim, 0: none
	Covered bool          // the trim covers the widest gap and laps onto the lining
}

// SheetLevel is one sheet of the lowest course.
type SheetLevel struct {
	Panel       string
	Left, Right length.Length // gap to the floor at the sheet's ends, as it will hang
	Shim        length.Length // thickest shim under a sheet that stands: its gap at the lower end of the floor
	Rip         length.Length // what must come off the lower edge of a sheet that hangs to keep the floor gap
}

// Level finds the level line of every planned wall with measured floor levels, for layers on the members. lap is how far
// trim must lap onto the lining (the figure trim-lap).
func Level(b *survey.Building, p *plan.Plan, lap length.Length) []LevelLine {
	planned := map[string]*plan.Surface{}
	for i := range p.Surfaces {
		planned[p.Surfaces[i].ID] = &p.Surfaces[i]
	}
	var lines []LevelLine
	for _, s := range b.Surfaces {
		ps := planned[s.ID]
		if ps == nil || s.Wall == nil || len(s.Wall.Floor) == 0 {
			continue
		}
		for k, z := range s.Zones {
			if z.Index == 1 && z.Layer == 1 && k < len(ps.Zones) {
				lines = append(lines, levelOf(s, z, &ps.Zones[k], lap))
			}
		}
	}
	return lines
}

func levelOf(s *survey.Surface, z *survey.Zone, planned *plan.Zone, lap length.Length) LevelLine {
	floor := s.Wall.Floor
	l := LevelLine{Surface: s.ID, Zone: z.Index, Hangs: z.Start == "head", High: floor[0], Trim: s.Wall.Trim}
	for _, q := range floor {
		if q.Y > l.High.Y {
			l.High = q
		}
	}
	foot := z.Outline.Bounds().Y
	l.Line = foot + z.FloorGap
	if !l.Hangs {
		l.Line += l.High.Y
	}
	lowest := lowestEdge(planned.Panels)
	for _, p := range planned.Panels {
		r := p.Outline.Bounds()
		if r.Y > lowest+length.Inch { // not of the course at the floor
			continue
		}
		edge := l.Line
		sheet := SheetLevel{Panel: p.ID}
		if l.Hangs {
			edge = r.Y
			high := highest(floor, r.X, r.MaxX())
			sheet.Rip = max(0, foot+high+z.FloorGap-edge)
			edge += sheet.Rip
		}
		sheet.Left, sheet.Right = edge-foot-FloorAt(floor, r.X), edge-foot-FloorAt(floor, r.MaxX())
		low := lowestFloor(floor, r.X, r.MaxX())
		if !l.Hangs {
			sheet.Shim = edge - foot - low
		}
		l.Largest = max(l.Largest, edge-foot-low)
		l.Sheets = append(l.Sheets, sheet)
	}
	l.Covered = l.Trim > 0 && l.Largest+lap <= l.Trim
	return l
}

func lowestEdge(panels []plan.Panel) length.Length {
	lowest := length.Length(0)
	for i, p := range panels {
		if y := p.Outline.Bounds().Y; i == 0 || y < lowest {
			lowest = y
		}
	}
	return lowest
}

// FloorAt is the floor's height at a place along the wall, straight between the measured ones and level beyond them.
func FloorAt(floor []shape.Point, x length.Length) length.Length {
	if x <= floor[0].X {
		return floor[0].Y
	}
	for i := 1; i < len(floor); i++ {
		a, b := floor[i-1], floor[i]
		if x <= b.X && b.X > a.X {
			return a.Y + length.Length(float64(b.Y-a.Y)*(float64(x-a.X)/float64(b.X-a.X)))
		}
	}
	return floor[len(floor)-1].Y
}

// highest and lowestFloor are the floor's extremes between two places; a straight line has them at its ends.
func highest(floor []shape.Point, from, to length.Length) length.Length {
	h := max(FloorAt(floor, from), FloorAt(floor, to))
	for _, q := range floor {
		if q.X > from && q.X < to {
			h = max(h, q.Y)
		}
	}
	return h
}

func lowestFloor(floor []shape.Point, from, to length.Length) length.Length {
	h := min(FloorAt(floor, from), FloorAt(floor, to))
	for _, q := range floor {
		if q.X > from && q.X < to {
			h = min(h, q.Y)
		}
	}
	return h
}
