package nest

import "context"

// Stick is a stock length; Max 0: as many as wanted.
type Stick struct {
	L, Cost int64
	Max     int
}

// Piece is a length that is asked for N times.
type Piece struct {
	L int64
	N int
}

// LengthProblem asks for all pieces out of sticks at the least total cost.
type LengthProblem struct {
	Sticks []Stick
	Pieces []Piece
	Kerf   int64
}

// Bar is a stick and the pieces cut from it, in order, by index.
type Bar struct {
	Stick  int
	Pieces []int
}

// LengthResult is a cutting of every piece and a proven lower bound on the cost of any cutting.
type LengthResult struct {
	Cost, Bound int64
	Bars        []Bar
	Proven      bool
}

// flat states a length problem as one of sheets one unit wide.
func (p *LengthProblem) flat() *Problem {
	q := &Problem{Kerf: p.Kerf}
	for _, s := range p.Sticks {
		q.Sheets = append(q.Sheets, Sheet{W: s.L, H: 1, Cost: s.Cost, Max: s.Max})
	}
	for _, it := range p.Pieces {
		q.Items = append(q.Items, Item{W: it.L, H: 1, N: it.N})
	}
	return q
}

// Lengths cuts every piece from sticks at the least cost that it finds within the budget.
func Lengths(ctx context.Context, p *LengthProblem, budget Budget) (*LengthResult, error) {
	r, err := Solve(ctx, p.flat(), budget)
	if err != nil {
		return nil, err
	}
	out := &LengthResult{Cost: r.Cost, Bound: r.Bound, Proven: r.Proven}
	for _, b := range r.Bins {
		bar := Bar{Stick: b.Sheet}
		for _, q := range b.Parts() {
			bar.Pieces = append(bar.Pieces, q.Item)
		}
		out.Bars = append(out.Bars, bar)
	}
	return out, nil
}

// Check refuses what cannot be worked with; the error is a *ProblemError.
func (p *LengthProblem) Check() error { return p.flat().Check() }
