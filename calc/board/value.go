package board

import (
	"cmp"
	"math"

	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/length"
)

// value is what a layout is judged by, smaller first; breaks of rules come before everything.
type value struct {
	breaks int
	by     [3]int64
}

func (v value) compare(o value) int {
	return cmp.Or(cmp.Compare(v.breaks, o.breaks), cmp.Compare(v.by[0], o.by[0]), cmp.Compare(v.by[1], o.by[1]), cmp.Compare(v.by[2], o.by[2]))
}

// valued orders the three aims as the project asks.
func valued(aim job.Aim, breaks, sheets int, cost, rough int64) value {
	v := value{breaks: breaks}
	switch aim {
	case job.AimSheets:
		v.by = [3]int64{int64(sheets), rough, cost}
	case job.AimJoints:
		v.by = [3]int64{rough, int64(sheets), cost}
	default:
		v.by = [3]int64{cost, int64(sheets), rough}
	}
	return v
}

// enter counts a zone's current picks in (n 1) or out (n -1).
func (s *search) enter(z *zoneState, n int) {
	sc := z.schemes[z.cur]
	p := s.products[z.product]
	s.breaks += n * (sc.breaks + z.allClashes())
	s.joints.butt += length.Length(n) * sc.long.butt
	s.joints.mixed += length.Length(n) * sc.long.mixed
	s.joints.tapered += length.Length(n) * sc.long.tapered
	for r := range sc.rows {
		if len(sc.rows[r]) > 0 {
			s.count(p, &sc.rows[r][z.pick[r]], n)
		}
	}
}

func (s *search) count(p *productState, c *choice, n int) {
	p.add(c, n)
	if p.product.Kind == job.WoodPanel {
		s.joints.plain += length.Length(n) * c.Butt
	} else {
		s.joints.butt += length.Length(n) * c.Butt
	}
	s.pieces += n * len(c.wants)
	s.breaks += n * c.Weight
}

// worked is what the current picks cost besides their sheets.
func (s *search) worked() int64 {
	joints := int64(float64(s.joints.tapered)*s.rates.tapered) + int64(float64(s.joints.butt+s.joints.mixed)*s.rates.butt)
	return joints + int64(s.pieces)*(s.rates.piece+s.rates.cut)
}

// evaluate is the value of the current picks.
func (s *search) evaluate() value {
	v, _ := s.within(noLimit)
	return v
}

// noLimit lets any number of sheets, and any price, pass.
const noLimit = math.MaxInt64

// within is the value of the current picks; false where their sheets are more than a limit, in number or, where cost is
// the aim, in price. Then they have been counted no further than that.
func (s *search) within(limit int64) (v value, ok bool) {
	bySheets := s.aim != job.AimCost
	for _, p := range s.products {
		if !p.stale {
			limit -= p.tally.measure(bySheets)
		}
	}
	sheets, cost, bad := 0, int64(0), 0
	for _, p := range s.products {
		if p.stale {
			t, counted := p.count(bySheets, limit)
			if counted {
				s.tallies++
			}
			if t.over {
				return value{}, false
			}
			limit -= t.measure(bySheets)
			p.tally, p.stale = t, false
		}
		if !p.tally.ok {
			bad += layout.Uncoverable
		}
		sheets += p.tally.sheets
		cost += p.tally.cost
	}
	return valued(s.aim, s.breaks+bad, sheets, cost+s.worked(), s.joints.rough()), true
}

// beats is the value of the current picks if it is less than the best; pardon leaves the rules that they break out of the
// comparison. Sheets are counted only as far as they can decide.
func (s *search) beats(best value, pardon bool) (value, bool) {
	limit := int64(noLimit)
	if s.breaks > best.breaks && !pardon {
		return value{}, false
	}
	if s.breaks == best.breaks || pardon {
		var hopeless bool
		if limit, hopeless = s.limit(best); hopeless {
			return value{}, false
		}
	}
	v, ok := s.within(limit)
	if !ok {
		return value{}, false
	}
	judged := v
	if pardon {
		judged.breaks += best.breaks - s.breaks
	}
	return v, judged.compare(best) < 0
}

// limit is how many sheets, or where cost is the aim what price of sheets, the current picks may take and still beat the
// best, as they break no more rules; hopeless: none.
func (s *search) limit(best value) (limit int64, hopeless bool) {
	rough := s.joints.rough()
	switch s.aim {
	case job.AimSheets:
		limit = best.by[0]
		if rough > best.by[1] {
			limit--
		}
	case job.AimJoints:
		if rough < best.by[0] {
			return noLimit, false
		}
		limit = best.by[1]
		hopeless = rough > best.by[0]
	default:
		limit = best.by[0] - s.worked()
	}
	return limit, hopeless || limit < 0
}

// totals are the sheets and the cost of the current picks.
func (s *search) totals() (sheets int, cost int64) {
	v := s.evaluate()
	if s.aim == job.AimCost {
		return int(v.by[1]), v.by[0]
	}
	if s.aim == job.AimSheets {
		return int(v.by[0]), v.by[2]
	}
	return int(v.by[1]), v.by[2]
}
