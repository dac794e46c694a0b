package finish

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/nest"
	"seamwright/calc/plan"
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

// stickWork is the search budget for cutting one kind of stick; a few hundred pieces are proven within it.
const stickWork = 1 << 16

// mark is the finest length that is measured on a stick. The cutting engine counts in marks, pieces rounded up and
// sticks down, so that its tables stay small; the plan keeps the true lengths.
func (u units) mark() length.Length {
	if u.imperial {
		return length.Inch / 64
	}
	return length.Millimetre / 2
}

func marks(l, mark length.Length) int64 { return int64((l + mark - 1) / mark) }

// cutSticks buys sticks of a kind for the pieces at least cost: rows of the takeoff, one for each stock length, and the
// sticks with their pieces. A piece longer than any stick is joined from whole ones and a rest. kerf is what a cut takes.
// Where none is for sale the row stands with nothing bought.
func (u units) cutSticks(j *job.Job, group, item, kind string, pieces []length.Length, kerf length.Length, basis, source string) ([]plan.Item, []plan.Stick) {
	total := length.Length(0)
	for _, l := range pieces {
		total += l
	}
	if total == 0 {
		return nil, nil
	}
	row := u.byLength(group, item, kind, total, fmt.Sprintf("%s: %d pieces, %s", basis, len(pieces), u.long(total)), source)
	forSale := offers(j, kind)
	if len(forSale) == 0 {
		return []plan.Item{row}, nil
	}
	mark := u.mark()
	problem := nest.LengthProblem{Kerf: marks(kerf, mark)}
	longest := length.Length(0)
	for _, o := range forSale {
		problem.Sticks = append(problem.Sticks, nest.Stick{L: int64(o.long / mark), Cost: int64(o.pack.Price)})
		longest = max(longest, o.long/mark*mark)
	}
	counts := map[length.Length]int{}
	for _, l := range pieces {
		for ; l > longest; l -= longest {
			counts[longest]++
		}
		if l > 0 {
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
	cut, err := nest.Lengths(context.Background(), &problem, nest.Budget{Nodes: stickWork, Plain: true})
	if err != nil { // every piece fits the longest stick, so only a limit of the engine can be behind it
		row.Basis += "; not cut: " + err.Error()
		return []plan.Item{row}, nil
	}
	bought := make([]int, len(forSale))
	used := make([]length.Length, len(forSale))
	var sticks []plan.Stick
	for _, bar := range cut.Bars {
		bought[bar.Stick]++
		o := forSale[bar.Stick]
		s := plan.Stick{Supply: o.supply.ID, Length: o.long}
		for _, i := range bar.Pieces {
			s.Pieces = append(s.Pieces, sizes[i])
			used[bar.Stick] += sizes[i]
		}
		sticks = append(sticks, s)
	}
	proof := "cut from stock lengths"
	if cut.Proven {
		proof = "cut from stock lengths; none cheaper is possible"
	}
	var rows []plan.Item
	for i, o := range forSale {
		if bought[i] == 0 {
			continue
		}
		r := row
		r.Item = item + " " + o.pack.Name
		r.Supply, r.Pack, r.Buy, r.Price = o.supply.ID, o.pack.Name, bought[i], o.pack.Price
		r.Need, r.Unit = u.lengthNeed(used[i])
		r.Holds, _ = u.lengthNeed(o.long)
		r.Basis = fmt.Sprintf("%s; %s", row.Basis, proof)
		rows = append(rows, r)
	}
	return rows, sticks
}
