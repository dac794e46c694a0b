package finish

import (
	"cmp"
	"math"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/memo"
	"seamwright/calc/plan"
	"seamwright/calc/survey"
)

// Finish lists everything that is bought besides sheets, with need and basis, in the order of the work, and fills
// Plan.Sticks and what trim the surfaces get. Supply holds the kind of supply, with its type where it has some (corner-bead/trim), or the supply itself
// (screws, box extenders), until price has chosen a pack; rows cut from sticks are complete.
//
// A memo keeps the cutting of sticks.
func Finish(j *job.Job, b *survey.Building, p *plan.Plan, m *memo.Memo, care Care) []plan.Item {
	return Join(j, b, p, []Room{{corners: corners(faces(b, p))}}, m, care)
}

// Room is what one room adds by itself to what is counted for all.
type Room struct {
	corners  []corner
	Measures []Measure
}

// OfRoom looks at a building of one room.
func OfRoom(j *job.Job, b *survey.Building, p *plan.Plan) Room {
	return Room{corners: cornersOfRoom(faces(b, p)), Measures: Measures(j, b, p)}
}

// Join is Finish with what rooms add made already.
func Join(j *job.Job, b *survey.Building, p *plan.Plan, rooms []Room, m *memo.Memo, care Care) []plan.Item {
	u := unitsOf(j)
	all := faces(b, p)
	var corners []corner
	for _, r := range rooms {
		corners = append(corners, r.corners...)
	}
	seams := seamsOf(all, corners)
	pieces := p.Returns
	p.Sticks = []plan.Stick{}
	p.Levels = Level(b, p, lap(j))
	dress(j, b, p)
	rows := u.screwRows(j, p)
	lots := lotsOf(b)
	cut := func(group, item, kind string, told plan.Fact, pieces []piece, kerf length.Length, basis, source plan.Fact) {
		r, s := u.cutSticks(j, m, care, lots, group, thing{item, told}, kind, pieces, kerf, basis, source)
		rows = append(rows, r...)
		p.Sticks = append(p.Sticks, s...)
	}
	rows = append(rows, u.jointRows(j, seams)...)
	const snips, saw = 0, length.Inch / 8 // what a cut takes: nothing where the trade snips, a blade elsewhere
	cut("joints", "corner bead", "corner-bead/outside", plan.Tell("item.corner-bead"), cornerPieces(corners, pieces), snips, plan.Tell("finish.for-corners"), geometry)
	cut("joints", "edge trim", "corner-bead/trim", plan.Tell("item.edge-trim"), freeEdges(all, true), snips, plan.Tell("finish.for-free-edges"), geometry)
	cut("joints", "control joint", "control-joint", plan.Tell("item.control-joint"), jointPieces(all, plan.Control, true), snips, plan.Tell("finish.for-control-joints"), geometry)
	rows = append(rows, u.returnRows(p, pieces)...)
	rows = append(rows, u.paintRows(j, all)...)
	rows = append(rows, u.maskRows(j, all)...)
	cut("trim", "base trim", "trim/base", plan.Tell("item.base-trim"), basePieces(j, b), saw, plan.Tell("finish.for-base"), geometry)
	cut("trim", "casing", "trim/casing", plan.Tell("item.casing"), casingPieces(j, b), saw, plan.Tell("finish.for-casing"), told(casing))
	if panelStrip.Of(j) > 0 {
		cut("trim", "panel edge strip", "panel-edge", plan.Tell("item.panel-strip"), panelEdges(all), saw, plan.Tell("finish.for-panel-edges"), told(panelStrip))
	}
	if battens.Of(j) > 0 {
		cut("trim", "batten", "batten", plan.Tell("item.batten"), jointPieces(all, plan.PanelGap, false), saw, plan.Tell("finish.for-panel-joints"), told(battens))
	}
	cut("sundries", "blocking", "lumber", plan.Tell("item.blocking"), blockingPieces(p), saw, plan.Tell("finish.for-blocks"), plan.CiteRead("APA B360P p. 58"))
	rows = append(rows, u.backBlocks(p)...)
	rows = append(rows, u.shimRows(j, p)...)
	rows = append(rows, u.boxRows(j, b)...)
	rows = append(rows, u.sealRows(j, b)...)
	rows = append(rows, u.sandRows(j, seams)...)
	return rows
}

// ScrewNeed is how many screws of one kind a job takes.
type ScrewNeed struct {
	Supply  string // "" where none is for sale
	Long    length.Length
	Count   int // positions, those in returns among them
	Returns int
}

// WithLoss is how many are bought for it: whole ones.
func (n ScrewNeed) WithLoss(j *job.Job) float64 {
	const slack = 1e-6 // a whole number of screws is not rounded up
	return math.Ceil(float64(float64(n.Count)*(1+screwLoss.Of(j)/100)) - slack)
}

// ScrewNeeds counts screws by supply, or by length where none is for sale, the shortest first.
func ScrewNeeds(j *job.Job, p *plan.Plan) []ScrewNeed {
	type screw struct {
		supply string
		long   length.Length
	}
	counts, returns, faceScrew := map[screw]int{}, map[screw]int{}, map[string]screw{} // by surface and board, as returns are fixed like it
	for _, s := range p.Surfaces {
		for _, z := range s.Zones {
			counts[screw{z.Fasteners.Supply, z.Fasteners.Length}] += z.Fasteners.Count - z.Fasteners.Short - z.Fasteners.Laminating
			counts[screw{z.Fasteners.ShortSupply, z.Fasteners.ShortLength}] += z.Fasteners.Short
			counts[screw{z.Fasteners.LaminatingSupply, z.Fasteners.LaminatingLength}] += z.Fasteners.Laminating
			faceScrew[s.ID+" "+z.Product] = screw{z.Fasteners.Supply, z.Fasteners.Length}
		}
	}
	for _, r := range p.Returns {
		if k, ok := faceScrew[r.Surface+" "+r.Product]; ok {
			n := returnScrews(r.Size[0], j.Rules.Screws)
			returns[k] += n
			counts[k] += n
		}
	}
	var needs []ScrewNeed
	for k, n := range counts {
		if n > 0 {
			needs = append(needs, ScrewNeed{k.supply, k.long, n, returns[k]})
		}
	}
	slices.SortFunc(needs, func(a, b ScrewNeed) int { return cmp.Or(cmp.Compare(a.Long, b.Long), cmp.Compare(a.Supply, b.Supply)) })
	return needs
}

// screwRows are the screws of the takeoff.
func (u units) screwRows(j *job.Job, p *plan.Plan) []plan.Item {
	var rows []plan.Item
	for _, n := range ScrewNeeds(j, p) {
		basis := plan.Tell("finish.screws", "places", n.Count, "loss", plan.Share(screwLoss.Of(j)/100))
		if n.Returns > 0 {
			basis = plan.Tell("finish.screws-and-returns", "places", n.Count-n.Returns, "returns", n.Returns, "loss", plan.Share(screwLoss.Of(j)/100))
		}
		rows = append(rows, byCount("fasteners", screw(j, n.Supply, n.Long), n.Supply, n.WithLoss(j), basis, told(screwLoss)))
	}
	return rows
}

// screw is a screw of the takeoff, by what it is for.
func screw(j *job.Job, supply string, long length.Length) thing {
	record, kind := "screws", "item.screws"
	for _, s := range j.SuppliesOf("screw") {
		if s.ID == supply {
			switch s.Type {
			case "S":
				record, kind = "screws for steel", "item.screws-steel"
			case "P":
				record, kind = "screws for wood panels", "item.screws-panels"
			case "G":
				record, kind = "screws into board", "item.screws-board"
			}
		}
	}
	return thing{record + " " + long.Show(unitsOf(j).imperial), plan.Tell(kind, "long", long)}
}

// returnScrews holds a strip with one row along its edge at the working spacing, both ends fixed.
func returnScrews(long, spacing length.Length) int {
	spacing = max(spacing, length.Inch)
	return int((long+spacing-1)/spacing) + 1
}

// ScrewsPerPound is how many screws of a length weigh a pound.
func ScrewsPerPound(j *job.Job, long length.Length) float64 { return perPound.Of(j) / long.In() }

// OfJoints is what finishing some joints takes, whatever else is bought: compound, tape, sanding paper.
func OfJoints(j *job.Job, seams []Seams) []plan.Item {
	u := unitsOf(j)
	return append(u.jointRows(j, seams), u.sandRows(j, seams)...)
}

// jointRows are compound and tape.
func (u units) jointRows(j *job.Job, seams []Seams) []plan.Item {
	c := CompoundFor(j, seams)
	var rows []plan.Item
	basis := compoundBasis(j, seams, c)
	switch wet := c.Total(); {
	case wet == 0:
	case SettingMinutes.Of(j) > 0:
		pounds := wet / litresPerGallon / bagYield.Of(j)
		need, unit := pounds, "lb"
		if !u.imperial {
			need, unit = pounds*kilogramsPerPound, "kg"
		}
		rows = append(rows, row("joints", thing{"setting-type compound", plan.Tell("item.setting-compound")}, "setting-compound", need, unit,
			basis.Also(plan.Tell("finish.setting-compound", "wet", plan.Litres(wet), "powder", plan.Kilograms(pounds*kilogramsPerPound), "average", u.averagePowder())), told(bagYield)))
	default:
		rows = append(rows, u.byVolume("joints", thing{"joint compound", plan.Tell("item.joint-compound")}, "compound", wet, basis, plan.Tell("source.compound")))
	}
	if tape := taped(seams); tape > 0 {
		face := 0.0
		for _, s := range seams {
			if s.Level >= 1 {
				face += s.Face
			}
		}
		area := face / squareMetresPerFoot2
		published := length.Length(Allowances(area).Tape * float64(length.Foot))
		rows = append(rows, u.byLength("joints", thing{"joint tape", plan.Tell("item.joint-tape")}, "tape", length.Length(float64(tape)*(1+tapeWaste.Of(j)/100)),
			plan.Tell("finish.tape", "joints", plan.Run(tape), "waste", plan.Share(tapeWaste.Of(j)/100), "published", plan.Run(published), "area", squareMetres(face)), told(tapeWaste)))
	}
	return rows
}

// cornerPieces are the beads of outside corners and round returns of board, each corner once.
func cornerPieces(corners []corner, returns []plan.Return) (pieces []piece) {
	for _, c := range corners {
		if c.kind == plan.OutsideCorner && c.level >= 1 {
			pieces = append(pieces, piece{roomOf(c.a), c.long})
		}
	}
	for _, q := range returns {
		pieces = append(pieces, piece{roomOf(q.Surface), q.Size[0]})
	}
	return pieces
}

// jointPieces are the lengths of one kind of joint of gypsum or wood faces.
func jointPieces(all []face, kind plan.JointKind, gypsum bool) (pieces []piece) {
	for _, f := range all {
		if f.gypsum() != gypsum {
			continue
		}
		for _, x := range f.planned.Joints {
			if x.Kind == kind {
				pieces = append(pieces, piece{f.room, distance(x)})
			}
		}
	}
	return pieces
}

// Offcuts stands as the supply of rows that are cut from what is left over and not bought.
const Offcuts = "offcuts"

// geometry is the source of what is measured on the plan itself.
var geometry = plan.Tell("source.geometry-of-plan")

// returnRows says where the board of returns comes from; the sheets that it needs stand with the others.
func (u units) returnRows(p *plan.Plan, pieces []plan.Return) []plan.Item {
	if len(pieces) == 0 {
		return nil
	}
	panels := map[string]bool{} // sheets that also give panels
	for _, s := range p.Surfaces {
		for _, z := range s.Zones {
			for _, q := range z.Panels {
				panels[q.Sheet] = true
			}
		}
	}
	area, beside, none := 0.0, 0, 0
	for _, q := range pieces {
		area += q.Size[0].Times(q.Size[1]).SquareMetres()
		switch {
		case q.Sheet == "":
			none++
		case panels[q.Sheet]:
			beside++
		}
	}
	basis := plan.Tell("finish.returns", "count", len(pieces), "area", squareMetres(area), "beside", beside, "own", len(pieces)-beside-none)
	if none > 0 {
		basis = basis.Also(plan.Tell("finish.returns-too-large", "count", none))
	}
	return []plan.Item{u.byArea("sundries", thing{"board for returns", plan.Tell("item.return-board")}, Offcuts, area, basis, geometry)}
}

// byPlace lists openings from the left.
func byPlace(openings []job.Opening) []job.Opening {
	return slices.SortedStableFunc(slices.Values(openings), func(a, b job.Opening) int { return cmp.Compare(a.At, b.At) })
}

// blockingPieces are the blocks behind joints that run across the members, bay by bay.
func blockingPieces(p *plan.Plan) (pieces []piece) {
	for _, s := range p.Surfaces {
		for _, z := range s.Zones {
			for _, x := range z.Joints {
				if x.Support != plan.OnBlocking {
					continue
				}
				from, to := min(x.From.X, x.To.X), max(x.From.X, x.To.X)
				if s.Members.Axis == string(job.AxisY) {
					from, to = min(x.From.Y, x.To.Y), max(x.From.Y, x.To.Y)
				}
				pieces = append(pieces, piecesOf(s.Room, bays(s.Members, from, to))...)
			}
		}
	}
	return pieces
}

// bays are the clear widths between members that a stretch touches.
func bays(m plan.Members, from, to length.Length) []length.Length {
	var clear []length.Length
	for i := 1; i < len(m.At); i++ {
		a, b := m.At[i-1]+m.Width/2, m.At[i]-m.Width/2
		if b > a && min(b, to) > max(a, from) {
			clear = append(clear, b-a)
		}
	}
	return clear
}

// backBlocked counts the joints of a surface that fall between members, on back-blocks.
func backBlocked(s *plan.Surface) (n int) {
	for _, z := range s.Zones {
		for _, x := range z.Joints {
			if x.Support == plan.OnBackBlock {
				n++
			}
		}
	}
	return n
}

// backBlocks are strips behind joints that fall between members.
func (u units) backBlocks(p *plan.Plan) []plan.Item {
	sum, n := length.Length(0), 0
	for i := range p.Surfaces {
		n += backBlocked(&p.Surfaces[i])
		for _, z := range p.Surfaces[i].Zones {
			for _, x := range z.Joints {
				if x.Support == plan.OnBackBlock {
					sum += distance(x)
				}
			}
		}
	}
	if n == 0 {
		return nil
	}
	return []plan.Item{u.byLength("sundries", thing{"back-block strips", plan.Tell("item.back-blocks")}, Offcuts, sum, plan.Tell("finish.back-blocked", "count", n), plan.Practice())}
}

func (u units) sandRows(j *job.Job, seams []Seams) []plan.Item {
	joint := length.Length(0)
	for _, s := range seams {
		if s.Level >= 3 { // lower levels are not sanded
			for _, kind := range finished {
				joint += s.ByKind[kind]
			}
		}
	}
	if joint == 0 {
		return nil
	}
	return []plan.Item{byCount("sundries", thing{"sanding paper", plan.Tell("item.sandpaper")}, "sandpaper", joint.Feet()/sanding.Of(j),
		plan.Tell("finish.sanded", "joint", plan.Run(joint), "each", plan.Run(length.Length(sanding.Of(j)*float64(length.Foot)))), told(sanding))}
}
