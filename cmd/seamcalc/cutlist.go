package main

import "seamwright/calc/plan"

var runCutlist = part("cutlist", "every sheet with its cuts in order and the pieces that they give", cutlist)

// cutlist lists the cuts and pieces of every sheet.
func cutlist(tell teller, p *plan.Plan) *table {
	t := &table{teller: tell, columns: columns("sheet", "product", "size", "from", "step", "what"), value: p.Sheets, repeats: 4}
	for i := range p.Sheets {
		t.sheet(&p.Sheets[i])
	}
	return t
}

// sheet adds the rows of one sheet.
func (t *table) sheet(s *plan.Sheet) {
	add := func(step, what string) {
		t.add(s.ID, s.Product, t.text("seamcalc.size", "width", s.Size[1], "length", s.Size[0]), t.text("from."+string(s.Source)), step, what)
	}
	for _, c := range s.Cuts {
		add(t.text("seamcalc.cut", "number", c.Order), t.text("cut."+c.Kind, "at", c.Measure, "edge", plan.Tell("edge."+string(c.Edge)), "setup", c.Setup))
	}
	for _, q := range s.Parts {
		if k := q.Pair; k != nil {
			key := "cut.slant-up-ends"
			if k.Steep(q.Rect) {
				key = "cut.slant-along-edges"
			}
			add(t.text("seamcalc.cut", "number", k.Order), t.text(key, "from", k.Measures[0], "to", k.Measures[1], "one", q.Panel, "other", k.Panel))
		}
	}
	for _, q := range s.Parts {
		add(t.text("seamcalc.piece"), t.fact(pieceFact(q)))
	}
	for _, o := range s.Rests {
		add(t.text("use."+string(o.Use)), t.text("seamcalc.size", "width", o.Rect.H, "length", o.Rect.W))
	}
	if s.Like != s.ID && len(s.Cuts) > 0 {
		add(t.text("seamcalc.alike"), t.text("seamcalc.cut-as", "sheet", s.Like))
	}
}

// pieceFact tells a piece of a sheet: its size, where it goes and what is done to it.
func pieceFact(q plan.Part) plan.Fact {
	f := plan.Tell("seamcalc.piece-of", "piece", q.Panel, "length", q.Rect.W, "width", q.Rect.H)
	f = goes(f, q.Surface, q.Later, q.Turned)
	if q.Ease > 0 {
		f = f.Also(plan.Tell("seamcalc.trim-end", "by", q.Ease))
	}
	if q.Pair != nil {
		f = f.Also(goes(plan.Tell("seamcalc.with-it", "piece", q.Pair.Panel), q.Pair.Surface, q.Pair.Later, q.Pair.Turned))
	}
	return f
}

// goes adds where a part hangs, how, and that it waits as an offcut for a surface that is hung later.
func goes(f plan.Fact, surface string, later, turned bool) plan.Fact {
	if surface != "" {
		f = plan.Tell("seamcalc.for-surface", "what", f, "surface", surface)
	}
	if later {
		f = plan.Tell("seamcalc.hung-later", "what", f)
	}
	if turned {
		f = plan.Tell("seamcalc.upright", "what", f)
	}
	return f
}
