package finish

import (
	"cmp"
	"context"
	"slices"
	"strings"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/memo"
	"seamwright/calc/money"
	"seamwright/calc/nest"
	"seamwright/calc/plan"
	"seamwright/calc/survey"
)

// offer is one stock length for sale.
type offer struct {
	supply job.Supply
	pack   job.Pack
	long   length.Length
}

// SuppliesOf lists the supplies that a row of the takeoff names: a kind, or a kind and a type as in corner-bead/trim.
func SuppliesOf(j *job.Job, name string) []job.Supply {
	kind, typed, ok := strings.Cut(name, "/")
	all := j.SuppliesOf(kind)
	if !ok {
		return all
	}
	return slices.DeleteFunc(all, func(s job.Supply) bool { return s.Type != typed })
}

// offers lists the stock lengths of a kind, packs of one stick.
func offers(j *job.Job, kind string) []offer {
	var all []offer
	for _, s := range SuppliesOf(j, kind) {
		for _, p := range s.Packs {
			switch p.Unit {
			case "ft":
				all = append(all, offer{s, p, length.Length(p.Holds * float64(length.Foot))})
			case "m":
				all = append(all, offer{s, p, length.Length(p.Holds * float64(length.Metre))})
			}
		}
	}
	return all
}

// piece is a length to be cut from a stick for a room.
type piece struct {
	room string
	long length.Length
}

func piecesOf(room string, lengths []length.Length) (pieces []piece) {
	for _, l := range lengths {
		pieces = append(pieces, piece{room, l})
	}
	return pieces
}

// roomOf is the room of a surface by its id.
func roomOf(surface string) string {
	room, _, _ := strings.Cut(surface, "/")
	return room
}

// Sticks are cut for so many rooms at a time, and for all of them where there are few. So an edit leaves the sticks of
// other rooms as they are, and what is cut stays near where it is fixed. Cutting a large building at once would save
// little: 0.8 % of the base trim in a village of 120 rooms.
const (
	roomsOfLot = 6
	fewRooms   = 12
)

// lotsOf numbers the lot of every room.
func lotsOf(b *survey.Building) map[string]int {
	lots := map[string]int{}
	for _, s := range b.Surfaces {
		if _, ok := lots[s.Room]; !ok {
			lots[s.Room] = len(lots)
		}
	}
	size := roomsOfLot
	if len(lots) <= fewRooms {
		size = fewRooms
	}
	for room, n := range lots {
		lots[room] = n / size
	}
	return lots
}

// Care is the search budget for cutting one lot of one kind of stick.
type Care int64

// With Thorough care the cutting of a hundred pieces is mostly proven to be the cheapest; Prompt serves until it stands.
const (
	Thorough Care = 1 << 16
	Prompt   Care = 1 << 11
)

// mark is the finest length that is measured on a stick. The cutting engine counts in marks, pieces rounded up and
// sticks down, so that its tables stay small; the plan keeps the true lengths. It goes by the sticks: in whatever units
// the project is shown, the same are bought.
func mark(forSale []offer) length.Length {
	const imperial, metric = length.Inch / 64, length.Millimetre / 2
	for _, o := range forSale {
		if o.long%imperial != 0 {
			return metric
		}
	}
	return imperial
}

func marks(l, mark length.Length) int64 { return int64((l + mark - 1) / mark) }

// cutSticks buys sticks of a kind for the pieces at least cost: rows of the takeoff, one for each stock length, and the
// sticks with their pieces. A piece longer than any stick is joined. kerf is what a cut takes.
// Where none is for sale the row stands with nothing bought.
func (u units) cutSticks(j *job.Job, m *memo.Memo, care Care, lots map[string]int, group string, item thing, kind string, pieces []piece, kerf length.Length, basis, source plan.Fact) ([]plan.Item, []plan.Stick) {
	total := length.Length(0)
	var byLot [][]length.Length
	for _, q := range pieces {
		total += q.long
		for lots[q.room] >= len(byLot) {
			byLot = append(byLot, nil)
		}
		byLot[lots[q.room]] = append(byLot[lots[q.room]], q.long)
	}
	if total == 0 {
		return nil, nil
	}
	row := u.byLength(group, item, kind, total, plan.Tell("finish.sticks", "what", basis, "count", len(pieces), "total", plan.Run(total)), source)
	forSale := offers(j, kind)
	if len(forSale) == 0 {
		return []plan.Item{row}, nil
	}
	bought := make([]int, len(forSale))
	used := make([]length.Length, len(forSale))
	var sticks []plan.Stick
	cut := 0
	proven, joined := true, false
	for _, lot := range byLot {
		if len(lot) == 0 {
			continue
		}
		c := cutLot(m, care, forSale, lot, kerf)
		if c.err != nil { // every piece fits the longest stick, so only a limit of the engine can be behind it
			row.Basis = row.Basis.Also(plan.Tell("finish.not-cut", "error", c.err.Error()))
			return []plan.Item{row}, nil
		}
		cut++
		proven, joined = proven && c.proven, joined || c.joined
		for _, bar := range c.bars {
			bought[bar.offer]++
			o := forSale[bar.offer]
			for _, l := range bar.pieces {
				used[bar.offer] += l
			}
			sticks = append(sticks, plan.Stick{Supply: o.supply.ID, Length: o.long, Pieces: bar.pieces})
		}
	}
	proof := cutTold(cut > 1, joined, proven)
	var rows []plan.Item
	for i, o := range forSale {
		if bought[i] == 0 {
			continue
		}
		r := row
		r.Item = plan.Tell("item.of-stock", "item", item.told, "stock", o.pack.Name)
		r.Record = item.record + " " + o.pack.Name
		r.Thing = r.Record
		r.Supply, r.Pack, r.Buy, r.Price = o.supply.ID, o.pack.Name, bought[i], o.pack.Price
		r.Need, r.Unit = u.lengthNeed(used[i])
		r.Holds, _ = u.lengthNeed(o.long)
		r.Basis = row.Basis.Also(proof)
		rows = append(rows, r)
	}
	return rows, sticks
}

// cutTold tells how sticks were cut: in lots of rooms or all at once, whether runs were joined, and whether it is proven
// that none cheaper is possible.
func cutTold(inLots, joined, proven bool) plan.Fact {
	how := plan.Tell("finish.cut-from-stock")
	if inLots {
		how = plan.Tell("finish.cut-in-lots", "rooms", roomsOfLot)
	}
	if joined {
		how = how.Also(plan.Tell("finish.runs-joined"))
	}
	switch {
	case !proven:
		return how
	case inLots && joined:
		return how.Also(plan.Tell("finish.cheapest-in-lots-joined"))
	case inLots:
		return how.Also(plan.Tell("finish.cheapest-in-lots"))
	case joined:
		return how.Also(plan.Tell("finish.cheapest-joined"))
	}
	return how.Also(plan.Tell("finish.cheapest"))
}

// cutting is the sticks of one lot. It is never changed.
type cutting struct {
	bars   []bar
	proven bool
	joined bool // some run is longer than any stick
	err    error
}

// cost is what the sticks of a cutting cost.
func (c cutting) cost(forSale []offer) (sum money.Money) {
	for _, b := range c.bars {
		sum += forSale[b.offer].pack.Price
	}
	return sum
}

// bar is a stick of one of the offers and the pieces cut from it, in order.
type bar struct {
	offer  int
	pieces []length.Length
}

// cutLot cuts the pieces of a lot from sticks for sale, or takes the cutting from the memo.
func cutLot(m *memo.Memo, care Care, forSale []offer, pieces []length.Length, kerf length.Length) cutting {
	var w memo.Writer
	w.Text("sticks")
	w.Int(int64(care))
	w.Int(int64(mark(forSale)))
	w.Int(int64(kerf))
	w.Int(int64(len(forSale)))
	for _, o := range forSale {
		w.Int(int64(o.long))
		w.Int(int64(o.pack.Price))
	}
	for _, l := range pieces {
		w.Int(int64(l))
	}
	return memo.Do(m, w.Key(), func() cutting { return cutPieces(forSale, pieces, kerf, mark(forSale), care) })
}

// cutPieces joins runs that no stick holds in the way that costs less.
func cutPieces(forSale []offer, runs []length.Length, kerf, mark length.Length, care Care) cutting {
	best := cutParted(forSale, runs, kerf, mark, wholeFirst, care)
	if best.err != nil || !best.joined {
		return best
	}
	if other := cutParted(forSale, runs, kerf, mark, leastCost, care); other.err == nil && other.cost(forSale) < best.cost(forSale) {
		return other
	}
	return best
}

// cutParted counts in marks.
func cutParted(forSale []offer, runs []length.Length, kerf, mark length.Length, how parting, care Care) cutting {
	problem := nest.LengthProblem{Kerf: marks(kerf, mark)}
	for _, o := range forSale {
		problem.Sticks = append(problem.Sticks, nest.Stick{L: int64(o.long / mark), Cost: int64(o.pack.Price)})
	}
	joined := false
	counts := map[length.Length]int{}
	for _, run := range runs {
		if run <= 0 {
			continue
		}
		pieces := parted(run, forSale, mark, how)
		joined = joined || len(pieces) > 1
		for _, l := range pieces {
			counts[l]++
		}
	}
	var sizes []length.Length
	for l := range counts {
		sizes = append(sizes, l)
	}
	slices.SortFunc(sizes, func(a, b length.Length) int { return cmp.Compare(b, a) })
	for _, l := range sizes {
		problem.Pieces = append(problem.Pieces, nest.Piece{L: marks(l, mark), N: counts[l]})
	}
	cut, err := nest.Lengths(context.Background(), &problem, nest.Budget{Nodes: int64(care), Plain: true})
	if err != nil {
		return cutting{err: err}
	}
	c := cutting{proven: cut.Proven, joined: joined}
	for _, b := range cut.Bars {
		own := make([]length.Length, len(b.Pieces))
		for k, i := range b.Pieces {
			own[k] = sizes[i]
		}
		c.bars = append(c.bars, bar{b.Stick, own})
	}
	return c
}
