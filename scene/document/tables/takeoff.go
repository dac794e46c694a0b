package tables

import (
	"fmt"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/money"
	"seamwright/calc/plan"
	calcprice "seamwright/calc/price"
)

// groups are the words for what stands at one counter, and for the other trades that the total is shared among.
var groups = map[string]string{"sheets": "tables.group-sheets", "fasteners": "tables.group-fasteners", "joints": "tables.group-joints",
	"paint": "tables.group-paint", "trim": "tables.group-trim", "sundries": "tables.group-sundries", "labour": "tables.labour", "tax": "tables.tax"}

// word is the phrase of a key that a table gives, else the word itself.
func (m *maker) word(keys map[string]string, word string) string {
	if key, ok := keys[word]; ok {
		return m.say.Text(key)
	}
	return word
}

// takeoff is what to buy: a row for each pack, its cost from price and number, and what all of it comes to.
func takeoff(m *maker) {
	money := priced(m.r)
	m.column("tables.group", Text, 14)
	m.column("tables.item", Text, 40)
	m.column("tables.need", Quantity, 10)
	m.column("tables.unit", Text, 8)
	buy := m.column("tables.buy", Count, 8)
	m.column("tables.pack", Text, 16)
	var each, cost string
	if money {
		each = m.column("tables.each", Amount, 11)
		cost = m.column("tables.cost", Amount, 12)
	}
	begun := m.begun()
	if begun {
		m.column("tables.used", Quantity, 10)
		m.column("tables.left", Quantity, 10)
		m.column("tables.still-to-buy", Count, 10)
	}
	m.aside("tables.basis", Long, 60)
	m.aside("tables.source", Long, 40)
	for k := range m.r.Plan.Takeoff {
		i, at := &m.r.Plan.Takeoff[k], m.next()
		row := []any{m.word(groups, i.Group), i.Item, i.Need, plan.Unit(i.Unit), i.Buy, i.Pack}
		if money {
			row = append(row, i.Price, Cell{Value: i.Cost, Formula: fmt.Sprintf("%s%d*%s%d", buy, at, each, at)})
		}
		if begun {
			row = append(row, i.Used, i.Left, i.StillBuy)
		}
		m.add(append(row, i.Basis, i.Source)...)
	}
	if !money {
		return
	}
	row := make([]any, len(m.t.Columns))
	row[1] = m.say.Text("tables.material")
	row[7] = Cell{Value: m.r.Plan.Cost.Material, Formula: sum(cost, 2, m.next()-1)}
	m.total(row...)
}

// begun tells whether anything has been done or used.
func (m *maker) begun() bool {
	return m.r.Plan.Progress.Done > 0 || slices.ContainsFunc(m.r.Plan.Takeoff, func(i plan.Item) bool { return i.Used > 0 })
}

// sum is the formula for rows of a column; of no row it is nothing.
func sum(column string, from, to int) string {
	if to < from {
		return "0"
	}
	return fmt.Sprintf("SUM(%s%d:%s%d)", column, from, column, to)
}

// price is what the job costs and how that comes about; then by trade and by room, each list adding up to the total.
func price(m *maker) {
	c := &m.r.Plan.Cost
	m.column("tables.part", Text, 16)
	m.column("tables.what", Text, 40)
	amount := m.column("tables.amount", Quantity, 12)
	m.column("tables.unit", Text, 8)
	rate := m.column("tables.each", Amount, 12)
	cost := m.column("tables.cost-in", Amount, 14)
	m.t.Columns[5].Head += " " + c.Currency
	m.column("tables.basis", Long, 60)
	whole := m.say.Text("tables.whole-job")
	material := m.next()
	m.add(whole, m.say.Text("tables.material"), nil, nil, nil, Cell{Value: c.Material, Formula: m.materialFormula()}, nil)
	untaxed := m.next()
	m.add(whole, m.say.Text("tables.untaxed"), nil, nil, Cell{Value: delivery(m.r.Job)}, nil, nil)
	labour := m.next()
	m.add(whole, m.say.Text("tables.labour"), Cell{Value: m.r.Plan.Summary.Hours, Form: Hours}, "h", m.r.Job.Site.Rate,
		Cell{Value: c.Labour, Formula: fmt.Sprintf("ROUND(%s%d*%s%d,2)", amount, labour, rate, labour)}, c.RateSource)
	tax := m.next()
	m.add(whole, m.say.Text("tables.tax"), Cell{Value: m.r.Job.Site.TaxRate, Form: Percent}, nil, nil,
		Cell{Value: c.Tax, Formula: fmt.Sprintf("ROUND((%s%d-%s%d)*%s%d,2)", cost, material, rate, untaxed, amount, tax)}, nil)
	m.total(whole, m.say.Text("tables.total"), nil, nil, nil,
		Cell{Value: c.Total, Formula: fmt.Sprintf("%s%d+%s%d+%s%d", cost, material, cost, labour, cost, tax)}, c.Basis)
	m.shares("tables.by-trade", cost, c.ByTrade, groups)
	m.shares("tables.by-room", cost, c.ByRoom, nil)
	if h := c.Hired; h.Quote > 0 {
		hired := m.say.Text("tables.hired")
		m.add(hired, m.say.Text("tables.quote"), nil, nil, nil, h.Quote, h.Basis)
		m.add(hired, m.say.Text("tables.break-even"), nil, nil, c.BreakEven, nil, nil)
	}
}

// materialFormula takes the material from the shopping list, where that stands in the same workbook.
func (m *maker) materialFormula() string {
	for _, t := range m.made {
		if t.ID == Takeoff {
			return fmt.Sprintf("'%s'!%s%d", t.Name, letters(8), len(t.Rows)+1)
		}
	}
	return ""
}

// shares are a list of parts of the total, and its sum.
func (m *maker) shares(key, column string, parts []plan.ShareCost, names map[string]string) {
	if len(parts) == 0 {
		return
	}
	by, from := m.say.Text(key), m.next()
	var all money.Money
	for _, s := range parts {
		m.add(by, m.word(names, s.Name), nil, nil, nil, s.Cost, nil)
		all += s.Cost
	}
	m.total(by, m.say.Text("tables.total"), nil, nil, nil, Cell{Value: all, Formula: sum(column, from, m.next()-1)}, nil)
}

// delivery is what is charged without tax.
func delivery(j *job.Job) money.Money {
	for _, f := range calcprice.Figures {
		if f.ID == "delivery" {
			return max(money.Money(f.Of(j)*100+0.5), 0)
		}
	}
	return 0
}

// walls is what each surface takes: its own share of sheets, money and hours.
func walls(m *maker) {
	m.column("tables.wall", Text, 28)
	letterOf := map[int]string{}
	for i, k := range []struct {
		key  string
		form Form
	}{{"tables.sheets", Count}, {"tables.cost", Amount}, {"tables.material", Amount}, {"tables.hours", Hours}, {"tables.kept", Count}} {
		letterOf[i] = m.column(k.key, k.form, 12)
	}
	m.column("tables.area", Quantity, 12)
	m.t.Columns[6].Head += " (" + m.say.Fact(plan.Unit(m.r.Plan.Cost.AreaUnit)) + ")"
	m.column("tables.per-area", Amount, 12)
	var sheets, kept int
	var cost, material money.Money
	var hours, area float64
	for _, s := range m.r.Plan.Cost.BySurface {
		m.add(s.Surface, s.Sheets, s.Cost, s.Material, s.Hours, s.Kept, s.Area, s.PerArea)
		sheets, kept, cost, material, hours, area = sheets+s.Sheets, kept+s.Kept, cost+s.Cost, material+s.Material, hours+s.Hours, area+s.Area
	}
	last := m.next() - 1
	m.total(m.say.Text("tables.total"), Cell{Value: sheets, Formula: sum(letterOf[0], 2, last)}, Cell{Value: cost, Formula: sum(letterOf[1], 2, last)},
		Cell{Value: material, Formula: sum(letterOf[2], 2, last)}, Cell{Value: hours, Formula: sum(letterOf[3], 2, last)},
		Cell{Value: kept, Formula: sum(letterOf[4], 2, last)}, Cell{Value: area, Formula: sum("G", 2, last)}, m.r.Plan.Cost.PerArea)
}
