package board

import (
	"seamwright/calc/board/tally"
	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/length"
)

// enter counts a zone's current picks in (n 1) or out (n -1).
func (s *search) enter(z *zoneState, n int) {
	sc := z.schemes[z.cur]
	s.breaks += n * (sc.breaks + z.allClashes())
	s.joints.butt += length.Length(n) * sc.long.butt
	s.joints.mixed += length.Length(n) * sc.long.mixed
	s.joints.tapered += length.Length(n) * sc.long.tapered
	s.charge(z.charged.of(sc.long), n)
	for r := range sc.rows {
		if len(sc.rows[r]) > 0 {
			s.count(z, &sc.rows[r][z.pick[r]], n)
		}
	}
}

// count counts a choice of a zone in (n 1) or out (n -1).
func (s *search) count(z *zoneState, c *choice, n int) {
	s.products[z.product].add(c, n)
	if z.zone.Product.Kind == job.WoodPanel {
		s.joints.plain += length.Length(n) * c.Butt
	} else {
		s.joints.butt += length.Length(n) * c.Butt
		s.charge(z.charged.butt.of(c.Butt), n)
	}
	s.joints.shun += length.Length(n) * c.Shun
	s.charge(charge{hours: int64(len(c.wants)) * s.piece}, n)
	s.pieces += n * len(c.wants)
	s.breaks += n * c.Weight
}

func (s *search) charge(c charge, n int) {
	s.charged.money += int64(n) * c.money
	s.charged.hours += int64(n) * c.hours
}

// worked is what the current picks cost besides their sheets.
func (s *search) worked() int64 { return s.charged.money + s.by.worked(s.charged.hours) }

// evaluate is the value of the current picks.
func (s *search) evaluate() value {
	v, _ := s.within(tally.NoLimit)
	return v
}

// within is the value of the current picks; false where their sheets are more than a limit, in number or, where cost is
// the aim, in price. Then they have been counted no further than that.
func (s *search) within(limit int64) (v value, ok bool) {
	bySheets := s.by.order != leastMoney
	for _, p := range s.products {
		if !p.stale {
			limit -= p.tally.Measure(bySheets)
		}
	}
	sheets, cost, bad := 0, int64(0), 0
	for _, p := range s.products {
		if p.stale {
			t := p.count(bySheets, limit)
			if t.Over {
				return value{}, false
			}
			limit -= t.Measure(bySheets)
			p.tally, p.stale = t, false
		}
		if !p.tally.OK {
			bad += layout.Uncoverable
		}
		sheets += p.tally.Sheets
		cost += p.tally.Cost
	}
	q := quantities{breaks: s.breaks + bad, sheets: sheets, price: cost, money: s.charged.money, hours: s.charged.hours, rough: s.joints.rough(), pieces: s.pieces, shun: int64(s.joints.shun)}
	if s.complete {
		s.archive.offer(q, s.zones)
	}
	return s.by.value(q), true
}

// beats is the value of the current picks if it is less than the best; pardon leaves the rules that they break out of the
// comparison. Sheets are counted only as far as they can decide.
func (s *search) beats(best value, pardon bool) (value, bool) {
	limit := int64(tally.NoLimit)
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
	switch s.by.order {
	case fewestSheets:
		limit = best.by[0]
		if rough > best.by[1] {
			limit--
		}
	case leastJoint:
		if rough < best.by[0] {
			return tally.NoLimit, false
		}
		limit = best.by[1]
		hopeless = rough > best.by[0]
	default:
		limit = best.by[0] - s.worked()
	}
	return limit, hopeless || limit < 0
}
