// Package simplex is the linear programme behind column generation: the least cost of columns that give at least a
// demand in some rows, and take at most what there is in others (Gilmore & Gomory 1961). A plain primal simplex on the
// explicit inverse, in floating point: it proposes prices, and no proof rests on its numbers.
package simplex

import "math"

// Tolerances. They steer the pivots.
const (
	pivotLeast  = 1e-9  // smaller pivots are taken for zero
	stepTie     = 1e-12 // steps that differ by less are equally long: the larger pivot is taken
	signSlack   = 1e-11 // a price may have the wrong sign by so much
	refactorise = 80    // pivots between fresh inverses of the basis
)

// None stands for no row.
const None = -1

// Column is what one unit of an activity costs and what it gives in every row that it touches. Of tells the caller what
// the column stands for.
type Column[T any] struct {
	Cost  float64
	Row   []int32
	Count []float64
	Of    T
}

// Master is a programme at a basis. The first Items rows ask for at least their demand, those after them allow at most so
// much.
type Master[T any] struct {
	Basis []Column[T]
	X     []float64 // of the basis
	Price []float64 // of the rows

	Stop func() bool // where set, asked during long work; once true, that work ends with what stands

	rows   int
	items  int
	demand []float64
	inv    []float64 // rows × rows
	pivots int
	spare  T // what columns of surplus and slack stand for
}

// Restart makes the given columns, one for each row and each only in its own row, the basis. Columns of surplus and slack
// stand for spare.
func (m *Master[T]) Restart(demand []float64, items int, columns []Column[T], spare T) {
	m.rows, m.items, m.demand, m.spare = len(demand), items, demand, spare
	m.Basis = columns
	m.inv = make([]float64, m.rows*m.rows)
	m.X = make([]float64, m.rows)
	m.Price = make([]float64, m.rows)
	m.pivots = 0
	for i, c := range columns {
		m.inv[i*m.rows+i] = 1 / c.Count[0]
		m.X[i] = demand[i] / c.Count[0]
	}
	m.reprice()
}

// Rows is how many rows there are.
func (m *Master[T]) Rows() int { return m.rows }

func (m *Master[T]) reprice() {
	clear(m.Price)
	for i, c := range m.Basis {
		if c.Cost != 0 {
			row := m.inv[i*m.rows : (i+1)*m.rows]
			for j, v := range row {
				m.Price[j] += float64(c.Cost * v)
			}
		}
	}
}

// Gain is how much a column would save for each unit of it.
func (m *Master[T]) Gain(c *Column[T]) float64 {
	v := -c.Cost
	for i, r := range c.Row {
		v += float64(m.Price[r] * c.Count[i])
	}
	return v
}

// Enter brings a column into the basis; false where that is numerically hopeless.
func (m *Master[T]) Enter(c Column[T]) bool {
	n := m.rows
	short := -m.Gain(&c)
	dir := make([]float64, n)
	for i := range n {
		for j, r := range c.Row {
			dir[i] += float64(m.inv[i*n+int(r)] * c.Count[j])
		}
	}
	out, step := None, math.Inf(1)
	for i, d := range dir {
		if d <= pivotLeast {
			continue
		}
		if s := max(m.X[i], 0) / d; s < step-stepTie || s < step+stepTie && out != None && d > dir[out] {
			out, step = i, s
		}
	}
	if out == None {
		return false
	}
	for i := range m.X {
		m.X[i] -= float64(step * dir[i])
	}
	m.X[out] = step
	prow := m.inv[out*n : (out+1)*n]
	for j := range prow {
		prow[j] /= dir[out]
	}
	for i := range n {
		if d := dir[i]; i != out && d != 0 {
			row := m.inv[i*n : (i+1)*n]
			for j, v := range prow {
				row[j] -= float64(d * v)
			}
		}
	}
	m.Basis[out] = c
	for j, v := range prow {
		m.Price[j] += float64(short * v)
	}
	if m.pivots++; m.pivots%refactorise == 0 {
		m.invert()
		m.reprice()
	}
	return true
}

func (m *Master[T]) stopped() bool { return m.Stop != nil && m.Stop() }

// invert computes the inverse afresh by Gauss and Jordan with partial pivoting, against the drift of many pivots.
func (m *Master[T]) invert() {
	n := m.rows
	a := make([]float64, n*n)
	for j, c := range m.Basis {
		for i, r := range c.Row {
			a[int(r)*n+j] = c.Count[i]
		}
	}
	inv := make([]float64, n*n)
	for i := range n {
		inv[i*n+i] = 1
	}
	for col := range n {
		if m.stopped() {
			return // the old one, with its drift, serves for what is left to do
		}
		p := col
		for i := col; i < n; i++ {
			if math.Abs(a[i*n+col]) > math.Abs(a[p*n+col]) {
				p = i
			}
		}
		if math.Abs(a[p*n+col]) < pivotLeast {
			return // keep the old one
		}
		if p != col {
			for j := range n {
				a[p*n+j], a[col*n+j] = a[col*n+j], a[p*n+j]
				inv[p*n+j], inv[col*n+j] = inv[col*n+j], inv[p*n+j]
			}
		}
		d := a[col*n+col]
		for j := range n {
			a[col*n+j] /= d
			inv[col*n+j] /= d
		}
		for i := range n {
			if f := a[i*n+col]; i != col && f != 0 {
				for j := range n {
					a[i*n+j] -= float64(f * a[col*n+j])
					inv[i*n+j] -= float64(f * inv[col*n+j])
				}
			}
		}
	}
	m.inv = inv
	for i := range n {
		m.X[i] = 0
		for j := range n {
			m.X[i] += float64(inv[i*n+j] * m.demand[j])
		}
	}
}

// Value of the programme at its present basis.
func (m *Master[T]) Value() (v float64) {
	for i, c := range m.Basis {
		v += float64(c.Cost * m.X[i])
	}
	return v
}

// SettleSigns lets surplus and slack columns enter while a price has the wrong sign: what is asked for must be worth
// nothing or more, what is limited nothing or less.
func (m *Master[T]) SettleSigns() {
	for range 4 * m.rows {
		if m.stopped() {
			return
		}
		worst, at := signSlack, None
		for r, y := range m.Price {
			if r >= m.items {
				y = -y
			}
			if -y > worst {
				worst, at = -y, r
			}
		}
		if at == None {
			return
		}
		c := Column[T]{Row: []int32{int32(at)}, Count: []float64{-1}, Of: m.spare}
		if at >= m.items {
			c.Count[0] = 1
		}
		if !m.Enter(c) {
			return
		}
	}
}
