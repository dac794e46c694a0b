package nest

import (
	"context"
	"fmt"
	"math"
)

// Limits on what is taken in: beyond them sums of sizes and areas could leave 64 or 128 bits.
const (
	maxSize   = 1 << 40 // a side, in units (a kilometre of nanometres)
	maxCost   = 1 << 40 // the cost of one sheet
	maxPieces = 200_000 // pieces asked for, all items together
)

// Sheet is a size of raw sheet. W runs along its long edges, which lie at y = 0 and y = H.
type Sheet struct {
	W, H    int64
	Tapered [2]bool // the long edge at y = 0, at y = H is a tapered factory edge
	Cost    int64
	Max     int // how many there are; 0: as many as wanted
}

// Item is a rectangle that is asked for N times.
type Item struct {
	W, H   int64
	N      int
	Turn   bool // may be turned a quarter
	Tapers int  // 0, 1, 2: how many of its edges along W must lie on a tapered edge of the sheet; either edge serves for 1
}

// Problem asks for all items out of sheets at the least total cost.
type Problem struct {
	Sheets []Sheet
	Items  []Item
	Kerf   int64 // width that every cut takes
}

// Budget ends the search. Equal budgets give equal answers, unless Stop cuts in.
type Budget struct {
	Nodes int64       // units of search work; 0 means DefaultNodes or more for many pieces, for Lengths DefaultLengthNodes
	Stop  func() bool // where set, also asked from time to time: true ends the search with what stands
	Plain bool        // the bound counts area and tapered edge alone: weaker, at a small part of the time, for callers with a bound of their own
}

// The work of a zero Budget: some tens of milliseconds for Solve, up to a second where pieces are many; for Lengths up to
// two seconds where nothing is proven sooner, since hard sets of lengths need as much.
const (
	DefaultNodes       = 1 << 20
	DefaultLengthNodes = 1 << 24
	defaultPiece       = 1 << 13 // for each piece, where that is more,
	defaultMost        = 1 << 24 // up to this
)

// Result is a cutting of every item and a proven lower bound on the cost of any cutting.
type Result struct {
	Cost, Bound int64
	Bins        []Bin
	Proven      bool // Cost == Bound: none cheaper is possible
}

// ProblemError tells what in a problem cannot be worked with.
type ProblemError struct {
	What  string // "sheet" or "item", "" for the problem as a whole
	Index int    // which, from 0
	Why   string
}

func (e *ProblemError) Error() string {
	if e.What == "" {
		return "nest: " + e.Why
	}
	return fmt.Sprintf("nest: %s %d %s", e.What, e.Index+1, e.Why)
}

// Check refuses what cannot be worked with: sizes that are not above zero or beyond the limits, no sheets, an item that
// fits no sheet. The error is a *ProblemError.
func (p *Problem) Check() error {
	if len(p.Sheets) == 0 {
		return &ProblemError{Why: "there is no sheet to cut from"}
	}
	if p.Kerf < 0 || p.Kerf > maxSize {
		return &ProblemError{Why: fmt.Sprintf("kerf %d must be from 0 to %d", p.Kerf, int64(maxSize))}
	}
	for i, s := range p.Sheets {
		switch {
		case s.W <= 0 || s.H <= 0:
			return &ProblemError{"sheet", i, fmt.Sprintf("is %d × %d: both sides must be above zero", s.W, s.H)}
		case s.W > maxSize || s.H > maxSize:
			return &ProblemError{"sheet", i, fmt.Sprintf("is %d × %d: no side may be above %d", s.W, s.H, int64(maxSize))}
		case s.Cost < 0 || s.Cost > maxCost:
			return &ProblemError{"sheet", i, fmt.Sprintf("costs %d: must be from 0 to %d", s.Cost, int64(maxCost))}
		case s.Max < 0:
			return &ProblemError{"sheet", i, fmt.Sprintf("is there %d times: must be 0 (no limit) or more", s.Max)}
		}
	}
	pieces := 0
	for i, it := range p.Items {
		switch {
		case it.W <= 0 || it.H <= 0:
			return &ProblemError{"item", i, fmt.Sprintf("is %d × %d: both sides must be above zero", it.W, it.H)}
		case it.N < 0:
			return &ProblemError{"item", i, fmt.Sprintf("is asked for %d times: must be 0 or more", it.N)}
		case it.Tapers < 0 || it.Tapers > 2:
			return &ProblemError{"item", i, fmt.Sprintf("asks for %d tapered edges: must be 0, 1 or 2", it.Tapers)}
		case it.N > maxPieces-pieces:
			return &ProblemError{Why: fmt.Sprintf("more than %d pieces are asked for", maxPieces)}
		}
		pieces += it.N
		if it.N > 0 && !p.fitsSome(it) {
			why := fmt.Sprintf("(%d × %d) fits none of the sheets", it.W, it.H)
			if it.Tapers > 0 {
				why += fmt.Sprintf(" with its %d tapered edges", it.Tapers)
			}
			return &ProblemError{"item", i, why}
		}
	}
	return nil
}

// fitsSome tells whether a sheet, empty, could hold the item.
func (p *Problem) fitsSome(it Item) bool {
	for _, s := range p.Sheets {
		if fitsEmpty(s, it, false) || fitsEmpty(s, it, true) {
			return true
		}
	}
	return false
}

// fitsEmpty tells whether an empty sheet could hold the item, turned or not.
func fitsEmpty(s Sheet, it Item, turned bool) bool {
	if turned {
		return it.Turn && it.Tapers == 0 && it.H <= s.W && it.W <= s.H
	}
	if it.W > s.W || it.H > s.H || it.Tapers > s.tapers() {
		return false
	}
	return it.Tapers < 2 || it.H == s.H
}

// tapers counts the tapered edges of a sheet.
func (s Sheet) tapers() (n int) {
	for _, t := range s.Tapered {
		if t {
			n++
		}
	}
	return n
}

// Solve cuts every item from sheets at the least cost that it finds within the budget. An error is a *ProblemError, or
// that of the context.
func Solve(ctx context.Context, p *Problem, budget Budget) (*Result, error) {
	if err := p.Check(); err != nil {
		return nil, err
	}
	s := newSearch(ctx, p, budget)
	best, bound := s.run(s.bound())
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	if best == nil {
		if bound == math.MaxInt64 {
			return nil, &ProblemError{Why: "the sheets on hand do not suffice for all items"}
		}
		return nil, &ProblemError{Why: "no cutting of all items from the sheets on hand was found"}
	}
	r := &Result{Cost: best.cost, Bound: bound, Proven: best.cost == bound}
	for i := range best.bins {
		r.Bins = append(r.Bins, Bin{Sheet: int(best.bins[i].sheet), Tree: s.tree(&best.bins[i], best.bins[i].root), p: p})
	}
	return r, nil
}
