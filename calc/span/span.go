// Package span is the table of spans: how far board carries over the bays behind it, which way it lies, what it may bear and
// how far apart its screws stand. It is the only list of its kind: the layout takes its directions from it, the screws their
// limits and the checks their findings.
//
// A bay is measured from centre to centre. Wood panels have rules of their own, beside their screws and checks; so has board on
// solid backing, which spans nothing.
package span

import (
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
)

// Row is one line of the table.
type Row struct {
	Board   length.Length // nominal thickness of one sheet
	Metric  bool          // board made to millimetres
	Plies   int           // sheets of board that lie on each other, at least
	Ceiling bool
	Across  bool          // only with the long edge across the members
	Bay     length.Length // the widest
	Sag     bool          // sag-resistant board only
	Under   bool          // fire-type board on a separation ceiling: rooms that are lived in lie above
	Glued   bool          // with beads of adhesive on the members
	Bears   float64       // insulation in psf, see Unstated; 0: none may lie on it
	From    plan.Fact     // the source of all that, but for what board may bear
	Screws  length.Length // along each member; 0: no table seen
	Ends    length.Length // closer ones at the ends of the boards; 0: none
	By      plan.Fact     // the source of the screws
}

// Unstated: the source says nothing of what board may bear.
const Unstated = -1.0

// Use is how a board is used: where it hangs, how it lies, what stands behind it and lies on it.
type Use struct {
	Ceiling bool
	Run     job.Run       // across or along the members
	Bay     length.Length // the widest behind it
	Plies   int           // sheets of board on each other; 0 counts as one
	Glued   bool
	Loaded  bool // insulation lies on it
	Duties  []job.Duty
}

// Has says whether the surface has a duty.
func (u Use) Has(d job.Duty) bool { return slices.Contains(u.Duties, d) }

// Slack lets 410 mm pass for 16 in: a bay is as wide as a row allows if it is no wider than this beyond it. Common practice,
// no source.
const Slack = length.Inch / 4

// Reaches says whether the row is wide enough for a bay.
func (r Row) Reaches(bay length.Length) bool { return bay <= r.Bay+Slack }

// Find is the row for a board as it is used, the closest that reaches over its bays.
func Find(p *job.Product, u Use) (Row, bool) {
	rows := suiting(p, u)
	i := slices.IndexFunc(rows, func(r Row) bool { return r.Reaches(u.Bay) })
	if i < 0 {
		return Row{}, false
	}
	return rows[i], true
}

// Widest is the row that reaches farthest for a board as it is used, whatever its bays.
func Widest(p *job.Product, u Use) (widest Row, ok bool) {
	for _, r := range suiting(p, u) {
		if !ok || r.Bay > widest.Bay {
			widest, ok = r, true
		}
	}
	return widest, ok
}

// suiting are the rows for a board and its use but for the bays, closer ones first. Fire-type board under rooms that are lived
// in has its own row, which outdoes all others.
func suiting(p *job.Product, u Use) (rows []Row) {
	under := u.Ceiling && p.FireType && u.Has(job.Separation)
	board, metric := nominal(p), p.MetricBoard()
	var strict []Row
	for _, r := range table {
		switch {
		case r.Board != board || r.Metric != metric || r.Ceiling != u.Ceiling || r.Plies > max(1, u.Plies):
		case r.Across && u.Run != job.RunAcross, r.Sag && !p.Sag, r.Bears == 0 && u.Loaded && r.Ceiling:
		case r.Under:
			strict = append(strict, r)
		case r.Glued == u.Glued || r.Metric:
			rows = append(rows, r)
		}
	}
	if under && slices.ContainsFunc(table, func(r Row) bool { return r.Under && r.Board == board && r.Metric == metric }) {
		return strict
	}
	return rows
}

// thinner is what a board may be thinner than its name (ASTM C1396, tolerance on thickness, from memory).
const thinner = length.Inch / 32

// nominal is the thickness under which the table lists a board, 0 where it lists none so thin.
func nominal(p *job.Product) (board length.Length) {
	for _, r := range table {
		if r.Metric == p.MetricBoard() && p.Thickness >= r.Board-thinner && r.Board > board {
			board = r.Board
		}
	}
	return board
}
