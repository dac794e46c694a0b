package board

import (
	"context"
	"math"
	"slices"

	"seamwright/calc/board/tally"
	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/memo"
	"seamwright/calc/money"
	"seamwright/calc/survey"
	"seamwright/calc/worth"
)

// Bounds of the search of one group.
const (
	choiceLimit = 80 // lawful sets of end joints kept for one row
	passes      = 6  // rounds of improvement over all rows
	smallRows   = 8  // rows up to which all layouts are gone through
)

// search is the joint search of one group of zones: which scheme each takes, and which end joints each row.
type search struct {
	ctx      context.Context
	budget   *budget
	deep     bool       // rooms too are searched for fewer sheets
	ways     []zoneWays // of a deep search: what bounds go through
	brief    bool       // fewer sheets are asked for with less care
	job      *job.Job
	book     *worth.Book
	piece    int64 // units of time for one more piece
	by       weighing
	usual    weighing
	archive  *archive
	start    int  // which of the starts it begins at
	complete bool // all zones of the group are in
	products []*productState
	zones    []*zoneState
	fixed    int // zones before this one are settled
	meter    tally.Meter
	until    int64 // work up to which the present stage may go
	joints   jointLengths
	charged  charge // for joints and pieces
	breaks   int
	pieces   int
	prepared map[preparedKey]*zoneState
	tried    map[uint64]trial
	ids      int // zones prepared so far
	listings map[memo.Key]*listing
}

// preparedKey is a zone and how it is listed.
type preparedKey struct {
	zone    *survey.Zone
	listing *listing
}

func newSearch(ctx context.Context, budget *budget, j *job.Job, stock []job.Stock, book *worth.Book, sheet money.Money) *search {
	s := &search{ctx: ctx, budget: budget, job: j, book: book, usual: measure{leastMoney, usual}.by(sheet), piece: int64(math.Round(book.Piece * hourUnit)), prepared: map[preparedKey]*zoneState{}, tried: map[uint64]trial{}, listings: map[memo.Key]*listing{}}
	for i := range j.Products {
		p := &j.Products[i]
		var mine []job.Stock
		for _, st := range stock {
			if st.Product == p.ID && st.Count > 0 {
				mine = append(mine, st)
			}
		}
		s.products = append(s.products, &productState{product: p, onHand: mine, counter: tally.New(p, mine, &s.meter), demand: tally.NewDemand(), known: [2]map[uint64]tally.Count{{}, {}}, stale: true, scales: newScales(p, &j.Rules, mine), weights: map[layout.Size][]int64{}})
	}
	return s
}

func (s *search) productIndex(p *job.Product) int {
	return slices.IndexFunc(s.products, func(q *productState) bool { return q.product.ID == p.ID })
}

// restart empties the search for another measure; what has been prepared stays.
func (s *search) restart(by weighing) {
	for _, z := range s.zones {
		s.enter(z, -1)
	}
	s.zones, s.fixed, s.by, s.complete = nil, 0, by, false
}

// spent tells whether a stage has done the work that it may do, or is no longer wanted. All that takes long asks for it.
func (s *search) spent() bool { return s.meter.Work >= s.until || s.ctx.Err() != nil }

// share lets a stage have a part of the work that is left.
func (s *search) share(part float64, stage func()) {
	until := s.until
	s.until = s.meter.Work + int64(part*float64(max(0, until-s.meter.Work)))
	stage()
	s.until = until
}

// prepare makes a zone ready for the search, once for all measures, and leaves it as the search by the measure before did.
func (s *search) prepare(z *survey.Zone, l *listing) *zoneState {
	k := preparedKey{z, l}
	if zs, ok := s.prepared[k]; ok {
		return zs
	}
	s.ids++
	zs := &zoneState{id: s.ids, zone: z, product: s.productIndex(z.Product), all: l.all, charged: charges(s.book, z)}
	p := s.products[zs.product]
	for _, sc := range s.lookedInto(l) {
		st := &schemeState{listed: sc, rows: make([][]choice, len(sc.rows))}
		for r, cs := range sc.rows {
			st.rows[r] = make([]choice, len(cs))
			for i := range cs {
				c := choice{Choice: cs[i], wants: make([]int32, len(cs[i].Pieces))}
				for k := range cs[i].Pieces {
					c.wants[k] = p.demand.Number(cs[i].Pieces[k].Size)
				}
				st.rows[r][i] = c
			}
		}
		zs.schemes = append(zs.schemes, st)
	}
	for k, at := range l.starts {
		if at < len(zs.schemes) {
			zs.starts[k] = at
		}
	}
	zs.restart(0)
	s.prepared[k] = zs
	return zs
}

// restart picks the scheme of a start and its first lawful choices.
func (z *zoneState) restart(start int) {
	z.cur = z.starts[start]
	z.pick = slices.Clone(z.schemes[z.cur].starts[0])
}

// begin settles where the search starts: from the layout that it found by the measure before, or afresh where that is
// better. Fewest sheets are always looked for afresh: least cost ends where few changes lead to fewer sheets.
func (s *search) begin() value {
	for _, p := range s.products {
		p.counter.Warm = false
		p.forget()
	}
	best := s.pickStart()
	for _, p := range s.products {
		p.counter.Warm = true
	}
	return best
}

// pickStart puts the start in place.
func (s *search) pickStart() value {
	open := s.zones[s.fixed:]
	type picks struct {
		cur  int
		pick []int
	}
	var found []picks
	best := s.evaluate()
	for _, z := range open {
		found = append(found, picks{z.cur, z.pick})
		s.enter(z, -1)
		z.restart(s.start)
		s.enter(z, 1)
	}
	if v := s.evaluate(); s.start > 0 || s.by.order == fewestSheets && s.budget != &promptly || v.compare(best) < 0 {
		return v
	}
	for i, z := range open {
		s.enter(z, -1)
		z.cur, z.pick = found[i].cur, found[i].pick
		s.enter(z, 1)
	}
	s.evaluate()
	return best
}

// polish changes one row, one pair of adjoining rows or one zone's scheme at a time, as long as that makes the value less,
// for the zones not yet settled. A zone that is held keeps its scheme.
func (s *search) polish(best value, held *zoneState) value {
	for pass := 0; pass < passes; pass++ {
		before := best
		for _, z := range s.zones[s.fixed:] {
			if s.spent() {
				return best
			}
			if z != held {
				best = s.improveScheme(z, best)
			}
			best = s.improveRows(z, best)
		}
		if best.compare(before) == 0 || s.spent() {
			break
		}
	}
	return best
}

func (s *search) improveScheme(z *zoneState, best value) value {
	for k := range z.schemes {
		for n, start := range z.schemes[k].starts {
			if k == z.cur && n == 0 || s.spent() {
				continue
			}
			old, oldPick := z.cur, z.pick
			s.enter(z, -1)
			z.cur, z.pick = k, slices.Clone(start)
			s.enter(z, 1)
			if v, ok := s.beats(best, false); ok {
				best = v
				continue
			}
			s.enter(z, -1)
			z.cur, z.pick = old, oldPick
			s.enter(z, 1)
		}
	}
	return best
}

// move changes the pick of one row.
func (s *search) move(z *zoneState, row, pick int) {
	sc := z.schemes[z.cur]
	s.breaks -= z.clashes(sc, row, z.pick[row])
	s.count(z, &sc.rows[row][z.pick[row]], -1)
	z.pick[row] = pick
	s.count(z, &sc.rows[row][pick], 1)
	s.breaks += z.clashes(sc, row, pick)
}

func (s *search) improveRows(z *zoneState, best value) value {
	sc := z.schemes[z.cur]
	for r := range sc.rows {
		for c := range sc.rows[r] {
			if s.spent() {
				return best
			}
			old := z.pick[r]
			if c == old || sameWants(&sc.rows[r][c], &sc.rows[r][old]) && z.clashes(sc, r, c) >= z.clashes(sc, r, old) {
				continue
			}
			if z.clashes(sc, r, c) <= z.clashes(sc, r, old) {
				s.move(z, r, c)
				if v, ok := s.beats(best, false); ok {
					best = v
					continue
				}
				s.move(z, r, old)
			}
			best = s.improvePair(z, r, c, best)
		}
	}
	return best
}

// improvePair moves one row and, with it, one adjoining row that would clash.
func (s *search) improvePair(z *zoneState, r, c int, best value) value {
	sc := z.schemes[z.cur]
	for _, k := range sc.Near[r] {
		if len(sc.rows[k]) == 0 || !layout.Clash(sc.rows[r][c].Seams, sc.rows[k][z.pick[k]].Seams, sc.stag) {
			continue
		}
		old, oldK := z.pick[r], z.pick[k]
		s.move(z, r, c)
		// The second row can seldom mend what the first makes dearer.
		if _, ok := s.beats(best, true); !ok {
			s.move(z, r, old)
			return best
		}
		tried := 0
		for d := range sc.rows[k] {
			if z.clashes(sc, k, d) > 0 || d == oldK {
				continue
			}
			s.move(z, k, d)
			if v, ok := s.beats(best, false); ok {
				return v
			}
			s.move(z, k, oldK)
			if tried++; tried == pairTries {
				break
			}
		}
		s.move(z, r, old)
		return best
	}
	return best
}

// pairTries bounds how many picks of the second row a pair move tries.
const pairTries = 4

func sameWants(a, b *choice) bool { return a.Butt == b.Butt && slices.Equal(a.wants, b.wants) }
