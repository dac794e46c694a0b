package fasten_test

import (
	"fmt"
	"testing"

	"seamwright/calc/fasten"
	"seamwright/calc/internal/fact"
	"seamwright/calc/internal/sample"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/span"
	"seamwright/calc/survey"
)

// Spacing tables and rules of several books, counts of one sheet, screw lengths. The rows of IRC Table R702.3.5 are in
// inches; the table as a whole was not seen.
func TestFacts(t *testing.T) {
	board := func(eighths length.Length) *job.Product {
		return &job.Product{Kind: job.Gypsum, Thickness: eighths * inch / 8}
	}
	millimetres := func(tenths length.Length) *job.Product {
		return &job.Product{Kind: job.Gypsum, Thickness: tenths * length.Millimetre / 10}
	}
	limit := func(p *job.Product, u span.Use) float64 {
		return fasten.Limit(p, u).Limit.In()
	}
	wall := func(members length.Length, glued bool, duties ...job.Duty) span.Use {
		return span.Use{Run: job.RunAcross, Bay: members * inch, Glued: glued, Duties: duties}
	}
	over := func(run job.Run, members length.Length, glued bool, duties ...job.Duty) span.Use {
		return span.Use{Ceiling: true, Run: run, Bay: members * inch, Glued: glued, Duties: duties}
	}
	fire, sag := board(5), board(4)
	fire.FireType, sag.Sag = true, true
	const (
		irc   = "IRC Table R702.3.5, screws"
		navy  = "NAVEDTRA 14044, ch. 5: screws 12 in apart, on walls 16 in"
		faq   = "a maker's answer: screws 12 in on ceilings, 16 in on walls, wood, not rated"
		uk    = "a maker's answer on screw centres, United Kingdom"
		reach = "screw tables of the trade: thickness + 5/8 in into wood, + 3/8 in into steel"
	)
	facts := []fact.Fact{
		fact.Is("1/2 in on walls at 16 in", limit(board(4), wall(16, false)), 16, 0, faq, job.Read),
		fact.Is("5/8 in on walls at 16 in", limit(board(5), wall(16, false)), 16, 0, navy, job.Read),
		fact.Is("1/2 in on ceilings at 16 in, along", limit(board(4), over(job.RunAlong, 16, false)), 12, 0, navy, job.Read),
		fact.Is("5/8 in on ceilings at 16 in, across", limit(board(5), over(job.RunAcross, 16, false)), 12, 0, faq, job.Read),
		fact.Is("1/2 in on walls at 24 in", limit(board(4), wall(24, false)), 12, 0, irc, job.Memory),
		fact.Is("5/8 in on walls at 24 in", limit(board(5), wall(24, false)), 12, 0, irc, job.Memory),
		fact.Is("3/8 in on walls at 16 in", limit(board(3), wall(16, false)), 16, 0, irc, job.Memory),
		fact.Is("1/2 in sag-resistant on ceilings at 24 in, across", limit(sag, over(job.RunAcross, 24, false)), 12, 0, faq, job.Read),
		fact.Is("3/8 in on ceilings at 16 in, across", limit(board(3), over(job.RunAcross, 16, false)), 12, 0, irc, job.Memory),
		fact.Is("1/2 in glued on walls at 24 in", limit(board(4), wall(24, true)), 24, 0, irc, job.Memory),
		fact.Is("3/8 in glued on walls at 16 in", limit(board(3), wall(16, true)), 24, 0, irc, job.Memory),
		fact.Is("1/2 in glued on ceilings at 16 in", limit(board(4), over(job.RunAlong, 16, true)), 16, 0, irc, job.Memory),
		fact.Is("5/8 in glued on ceilings at 24 in, across", limit(board(5), over(job.RunAcross, 24, true)), 16, 0, irc, job.Memory),
		fact.Is("bracing", limit(board(4), wall(16, false, job.Bracing)), 7, 0, "IRC 2018 R702.3.6: at most 7 in at all supports", job.Read),
		fact.Is("fire-type ceiling of a separation", limit(fire, over(job.RunAcross, 24, false, job.Separation)), 6, 0, "IRC R302.6 with Table R702.3.5", job.Memory),
		fact.Is("12.5 mm on walls, mm", limit(millimetres(125), wall(24, false))*25.4, 300, 0, uk, job.Read),
		fact.Is("15 mm on ceilings, mm", limit(millimetres(150), over(job.RunAcross, 24, false))*25.4, 230, 0, uk, job.Read),
		fact.Is("wood panels in the field", limit(&job.Product{Kind: job.WoodPanel, Thickness: inch}, wall(16, false)), 12, 0, "APA B360P p. 58: 6 in at edges, 12 in elsewhere", job.Read),
		fact.Is("from the edges", fasten.Edge.In(), 3.0/8, 0, "National Gypsum guide p. 103 and IRC R702.3.6: at least 3/8 in", job.Read),
		fact.Is("1/2 in on walls against Canada's 400 mm", limit(board(4), wall(16, false))*25.4, 400, 7, "CMHC note to OBC 9.29.5: 400 mm where supports are 400 mm apart", job.Read),
		fact.Is("1/2 in on ceilings against Canada's 300 mm", limit(board(4), over(job.RunAcross, 16, false))*25.4, 300, 5, "CMHC note to OBC 9.29.5: 300 mm", job.Read),
	}
	const geometry = "one 4x8 sheet across studs: (studs) x (rows + 1)"
	for _, c := range []struct{ studs, screws, want length.Length }{{16, 12, 35}, {16, 16, 28}, {24, 12, 25}, {16, 8, 49}, {16, 7, 56}} {
		j := sample.Job()
		j.Rules.Screws = c.screws * inch
		b, p := sample.Build(j, oneSheet(c.studs*inch, "gyp-12"))
		fasten.Fasten(j, b, p)
		facts = append(facts, fact.Is(fmt.Sprintf("fasteners of a 4x8 at %d in on studs at %d in", c.screws, c.studs), float64(p.Summary.Screws), float64(c.want), 0, geometry, job.Derived))
	}
	for _, c := range []struct {
		product string
		below   length.Length // eighths
		steel   bool
		want    float64
	}{
		{"gyp-12", 0, false, 1.25}, {"gyp-16x", 0, false, 1.25}, {"gyp-12", 4, false, 1.625}, {"gyp-16x", 5, false, 2}, {"gyp-12", 0, true, 1}, {"gyp-16x", 5, true, 1.625},
	} {
		j := sample.Job()
		b, _ := sample.Build(j, oneSheet(16*inch, c.product))
		s := b.Surfaces[0]
		s.Zones[0].Depth = c.below * inch / 8
		if c.steel {
			s.Members.Material = string(job.Steel)
		}
		facts = append(facts, fact.Is(fmt.Sprintf("screw of %s over %d/8 in, steel %v", c.product, c.below, c.steel), fasten.ScrewFor(j, s, s.Zones[0]).Length.In(), c.want, 0, reach, job.Memory))
	}
	fact.Check(t, facts)
}

// A metric ceiling: 230 mm in the field and 150 mm at the ends of the boards (read), the same board on a wall 300 mm.
func TestMetricCeiling(t *testing.T) {
	j := sample.Job()
	j.Units = job.Metric
	j.Products[0].Thickness = 12_500_000
	j.Rules.Screws = 305 * length.Millimetre
	face := oneSheet(600*length.Millimetre, "gyp-12")
	face.W, face.H, face.Long, face.Wide = 2400*length.Millimetre, 1200*length.Millimetre, 2400*length.Millimetre, 1200*length.Millimetre
	b, p := sample.Build(j, face)
	fasten.Fasten(j, b, p)
	f := p.Surfaces[0].Zones[0].Fasteners
	if f.Limit != 300*length.Millimetre || f.WidestGap > 300*length.Millimetre {
		t.Errorf("wall: limit %v, widest gap %v", f.Limit.MM(), f.WidestGap.MM())
	}
	face.Kind = plan.Ceiling
	free := survey.Edge{Meets: survey.AtFree}
	face.Edges = [4]survey.Edge{free, free, free, free}
	b, p = sample.Build(j, face)
	fasten.Fasten(j, b, p)
	rows := map[length.Length]int{}
	for _, q := range p.Surfaces[0].Zones[0].Fasteners.Points {
		rows[q.X]++
	}
	// 1,200 mm less 3/8 in at both ends: 1,181 mm in six parts of 197 mm, at the ends in eight of 148 mm
	if got := []int{rows[600*length.Millimetre], rows[3*inch/8]}; got[0] != 7 || got[1] != 9 {
		t.Errorf("screws in the field and at the end: %v", got)
	}
}

// Wood panels take their own screws, at least 1 in into wood, where they are for sale; else those for board.
func TestPanelScrews(t *testing.T) {
	j := sample.Job()
	b, _ := sample.Build(j, oneSheet(16*inch, "ply-18"))
	s := b.Surfaces[0]
	if w := fasten.ScrewFor(j, s, s.Zones[0]); w.Type != "W" {
		t.Errorf("no panel screws are for sale, yet type %s is chosen", w.Type)
	}
	j.Supplies = append(j.Supplies, job.Supply{ID: "screw-p", Kind: "screw", Type: "P", Length: 7 * inch / 4})
	w := fasten.ScrewFor(j, s, s.Zones[0])
	if w.Supply != "screw-p" || w.Length-w.Through < inch {
		t.Errorf("%+v", w)
	}
}

// A seam between studs over old gypsum board: its own row holds in that board alone and takes laminating screws, the
// rest go into the studs through both.
func TestLaminatingScrews(t *testing.T) {
	j := sample.Job()
	j.Supplies = append(j.Supplies, job.Supply{ID: "screw-g", Kind: "screw", Type: "G", Length: 3 * inch / 2})
	face := oneSheet(16*inch, "gyp-12")
	face.W, face.Long = 9*foot, 7*foot // sheets meet at 84 in, between studs
	b, p := sample.Build(j, face)
	layer := &p.Surfaces[0].Zones[0]
	layer.Joints[0].Support = plan.OnBacking
	b.Surfaces[0].Backing = &survey.Backing{Product: &job.Product{Kind: job.WoodPanel, Thickness: inch / 2}}
	fasten.Fasten(j, b, p)
	if n := layer.Fasteners.Laminating; n != 0 {
		t.Errorf("%d screws laminate to wood", n)
	}
	b.Surfaces[0].Backing.Product = j.Product("gyp-12")
	fasten.Fasten(j, b, p)
	f := layer.Fasteners
	if f.Laminating != 2*5 || f.LaminatingSupply != "screw-g" || f.LaminatingLength != 3*inch/2 {
		t.Errorf("%d laminating screws of %v, %q", f.Laminating, f.LaminatingLength.In(), f.LaminatingSupply)
	}
}
