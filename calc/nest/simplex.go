package nest

import "math"

// Tolerances of the master programme. They steer it; no bound rests on them.
const (
	pivotLeast  = 1e-9 // smaller pivots are taken for zero
	priceSlack  = 1e-9 // a column must gain more than this share of the dearest sheet to enter
	refactorise = 80   // pivots between fresh inverses of the basis
)

// column is a pattern: what one sheet of a kind gives of every item.
type column struct {
	kind  int // index of sheet; none: surplus of an item, or an item that is made from nothing at a high cost
	cost  float64
	row   []int32
	count []float64
	bin   *bin // how the pattern lies on its sheet; nil for lengths
}

// master is the linear programme of cutting: least cost of patterns that give at least the demand, with at most so many
// sheets of the limited kinds. A plain primal simplex on the explicit inverse (Gilmore & Gomory 1961).
type master struct {
	rows   int // items, then limited kinds
	items  int
	demand []float64
	basis  []column
	inv    []float64 // rows × rows
	x      []float64
	price  []float64
	pivots int
}

// restart makes the given columns, one for each row and each only in its own row, the basis.
func (m *master) restart(demand []float64, items int, columns []column) {
	m.rows, m.items, m.demand = len(demand), items, demand
	m.basis = columns
	m.inv = make([]float64, m.rows*m.rows)
	m.x = make([]float64, m.rows)
	m.price = make([]float64, m.rows)
	m.pivots = 0
	for i, c := range columns {
		m.inv[i*m.rows+i] = 1 / c.count[0]
		m.x[i] = demand[i] / c.count[0]
	}
	m.reprice()
}

func (m *master) reprice() {
	clear(m.price)
	for i, c := range m.basis {
		if c.cost != 0 {
			row := m.inv[i*m.rows : (i+1)*m.rows]
			for j, v := range row {
				m.price[j] += c.cost * v
			}
		}
	}
}

// gain is how much a column would save for each sheet of it.
func (m *master) gain(c *column) float64 {
	v := -c.cost
	for i, r := range c.row {
		v += m.price[r] * c.count[i]
	}
	return v
}

// enter brings a column into the basis; false where that is numerically hopeless.
func (m *master) enter(c column) bool {
	n := m.rows
	short := -m.gain(&c)
	dir := make([]float64, n)
	for i := range n {
		for j, r := range c.row {
			dir[i] += m.inv[i*n+int(r)] * c.count[j]
		}
	}
	out, step := none, math.Inf(1)
	for i, d := range dir {
		if d <= pivotLeast {
			continue
		}
		if s := max(m.x[i], 0) / d; s < step-1e-12 || s < step+1e-12 && out != none && d > dir[out] {
			out, step = i, s
		}
	}
	if out == none {
		return false
	}
	for i := range m.x {
		m.x[i] -= step * dir[i]
	}
	m.x[out] = step
	prow := m.inv[out*n : (out+1)*n]
	for j := range prow {
		prow[j] /= dir[out]
	}
	for i := range n {
		if d := dir[i]; i != out && d != 0 {
			row := m.inv[i*n : (i+1)*n]
			for j, v := range prow {
				row[j] -= d * v
			}
		}
	}
	m.basis[out] = c
	for j, v := range prow {
		m.price[j] += short * v
	}
	if m.pivots++; m.pivots%refactorise == 0 {
		m.invert()
		m.reprice()
	}
	return true
}

// invert computes the inverse afresh by Gauss and Jordan with partial pivoting, against the drift of many pivots.
func (m *master) invert() {
	n := m.rows
	a := make([]float64, n*n)
	for j, c := range m.basis {
		for i, r := range c.row {
			a[int(r)*n+j] = c.count[i]
		}
	}
	inv := make([]float64, n*n)
	for i := range n {
		inv[i*n+i] = 1
	}
	for col := range n {
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
					a[i*n+j] -= f * a[col*n+j]
					inv[i*n+j] -= f * inv[col*n+j]
				}
			}
		}
	}
	m.inv = inv
	for i := range n {
		m.x[i] = 0
		for j := range n {
			m.x[i] += inv[i*n+j] * m.demand[j]
		}
	}
}

// value of the programme at its present basis.
func (m *master) value() (v float64) {
	for i, c := range m.basis {
		v += c.cost * m.x[i]
	}
	return v
}

// settleSigns lets surplus and slack columns enter while a price has the wrong sign: items must be worth nothing or
// more, limited kinds nothing or less.
func (m *master) settleSigns() {
	for range 4 * m.rows {
		worst, at := 1e-11, none
		for r, y := range m.price {
			if r >= m.items {
				y = -y
			}
			if -y > worst {
				worst, at = -y, r
			}
		}
		if at == none {
			return
		}
		c := column{kind: none, row: []int32{int32(at)}, count: []float64{-1}}
		if at >= m.items {
			c.count[0] = 1
		}
		if !m.enter(c) {
			return
		}
	}
}
