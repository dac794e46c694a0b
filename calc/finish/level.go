package finish

import (
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// Level finds the level line of every planned wall with measured floor levels, for layers on the members. lap is how far
// trim must lap onto the lining (the figure trim-lap).
func Level(b *survey.Building, p *plan.Plan, lap length.Length) []plan.LevelLine {
	planned := map[string]*plan.Surface{}
	for i := range p.Surfaces {
		planned[p.Surfaces[i].ID] = &p.Surfaces[i]
	}
	lines := []plan.LevelLine{}
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

func levelOf(s *survey.Surface, z *survey.Zone, planned *plan.Zone, lap length.Length) plan.LevelLine {
	floor := s.Wall.Floor
	l := plan.LevelLine{Surface: s.ID, Zone: z.Index, Hangs: hangs(z, planned), High: floor[0], Trim: s.Wall.Trim, Sheets: []plan.SheetLevel{}}
	for _, q := range floor {
		if q.Y > l.High.Y {
			l.High = q
		}
	}
	foot, lowest := z.Outline.Bounds().Y, lowestEdge(planned.Panels)
	l.Line = foot + z.FloorGap
	if !l.Hangs { // clear of the floor's highest place, and no lower than planned, where they end at the head
		l.Line = max(l.Line+l.High.Y, lowest)
	}
	for _, p := range planned.Panels {
		r := p.Outline.Bounds()
		if r.Y > lowest+length.Inch { // not of the course at the floor
			continue
		}
		edge := l.Line
		if l.Hangs {
			edge = max(r.Y, foot+highest(floor, r.X, r.MaxX())+z.FloorGap)
		}
		sheet := plan.SheetLevel{Panel: p.ID, Rip: max(0, edge-r.Y)} // what lifts a sheet must come off it
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

// hangs: gypsum in level courses from the head down hangs from there; plywood, upright board and courses from the floor
// up stand on shims.
func hangs(z *survey.Zone, planned *plan.Zone) bool {
	level := (planned.Run == string(job.RunAlong)) == (z.Surface != nil && z.Surface.Members.Axis == string(job.AxisY))
	return z.Start == job.StartHead && z.Product.Kind == job.Gypsum && level
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
