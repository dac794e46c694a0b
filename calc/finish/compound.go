package finish

import (
	"math"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
)

// Coats are the passes of compound that a finish level asks for at each place (GA-214 and ASTM C840; levels 0, 1, 2, 4
// and 5 read on makers' pages, heads and accessories of level 3 from memory). The first pass of a joint beds the tape.
type Coats struct {
	Joint, Angle, Head, Bead int
	Skim                     bool
}

// CoatsOf are the coats of a finish level; none below 1 and for wood panels.
func CoatsOf(level int) Coats {
	switch {
	case level <= 0:
		return Coats{}
	case level == 1:
		return Coats{Joint: 1, Angle: 1}
	case level == 2:
		return Coats{Joint: 1, Angle: 1, Head: 1, Bead: 1}
	case level == 3:
		return Coats{Joint: 2, Angle: 2, Head: 2, Bead: 2}
	}
	return Coats{Joint: 3, Angle: 2, Head: 3, Bead: 3, Skim: level >= 5}
}

// Passes is how many coats the most treated place gets: what the sequence must wait for.
func (c Coats) Passes() int { return max(c.Joint, c.Angle, c.Head, c.Bead) }

// Section is the dry cross-section of a joint coat by coat, in square inches.
type Section [3]float64

// SectionOf is the dry cross-section of a kind of joint, all coats, from the shape of the joint:
//
//	tapered   two triangles of the recess less the tape; then thin films feathered to nothing
//	butt      the bed, then a parabolic crown (2/3 of height times width) at 14 in, then at its full width
//	mixed     a butt joint and one half recess
//	inside    a bed on both sides less the tape; then a film feathered to nothing on both
//	outside   triangles beside the bead's nose, wider with each coat; trim has one side, a control joint two
func SectionOf(j *job.Job, kind plan.JointKind) Section {
	tape := float64(tapeWidth.Of(j) * tapeThick.Of(j))
	recess := float64(taperDepth.Of(j) * taperWidth.Of(j))
	full, _ := ButtWidth(j)
	crown := 2.0 / 3 * buttCrown.Of(j)
	bed := float64(bedFilm.Of(j) * bedWidth.Of(j))
	second, third := float64(crown*buttSecond.Of(j)), float64(crown*(full.In()-buttSecond.Of(j)))
	butt := Section{bed, math.Max(second-bed-tape, 0), math.Max(third, 0)}
	bead := Section{beadNose.Of(j) * beadFirst.Of(j), beadNose.Of(j) * beadStep.Of(j), beadNose.Of(j) * beadStep.Of(j)}
	switch kind {
	case plan.Tapered:
		return Section{math.Max(recess-tape, 0), secondFlat.Of(j) * secondFilm.Of(j) / 2, thirdFlat.Of(j) * thirdFilm.Of(j) / 2}
	case plan.Butt:
		return butt
	case plan.Mixed:
		return Section{butt[0] + float64(recess/2), butt[1], butt[2]}
	case plan.InsideCorner:
		return Section{math.Max(float64(2*angleFirst.Of(j)*bedFilm.Of(j))-tape, 0), angleSecond.Of(j) * bedFilm.Of(j), 0}
	case plan.OutsideCorner, plan.Control:
		return bead
	case plan.Trim:
		return Section{bead[0] / 2, bead[1] / 2, bead[2] / 2}
	}
	return Section{}
}

// head is the dry volume over one screw head coat by coat, in cubic inches: half the dish's cylinder (a bowl), and a
// spot feathered to nothing, 1 in wider each time.
func head(j *job.Job) Section {
	disc := func(d float64) float64 { return math.Pi / 4 * d * d }
	var s Section
	for k := range s {
		s[k] = disc(spotFirst.Of(j)+float64(k)) * spotFilm.Of(j) / 2
	}
	s[0] += float64(disc(dimpleWidth.Of(j)) * dimpleDepth.Of(j) / 2)
	return s
}

// litresPerCubicInch is exact: 2.54³ cm³.
const litresPerCubicInch = 2.54 * 2.54 * 2.54 / 1000

// Compound is the wet compound of a job, coat by coat and for the skim, in litres, shrinkage and loss counted.
type Compound struct {
	Coat [3]float64
	Skim float64
}

// Total is all compound, in litres.
func (c Compound) Total() float64 { return c.Coat[0] + c.Coat[1] + c.Coat[2] + c.Skim }

// kinds that take compound, in the order in which they are summed.
var finished = []plan.JointKind{plan.Tapered, plan.Mixed, plan.Butt, plan.InsideCorner, plan.OutsideCorner, plan.Trim, plan.Control}

// CompoundFor is the compound of joints at their finish levels.
func CompoundFor(j *job.Job, seams []Seams) Compound {
	var c Compound
	wet := litresPerCubicInch / (1 - shrinkage.Of(j)/100) * (1 + loss.Of(j)/100)
	spots := head(j)
	for _, s := range seams {
		coats := CoatsOf(s.Level)
		for _, kind := range finished {
			section := SectionOf(j, kind)
			for k := range coats.at(kind) {
				c.Coat[k] += float64(section[k] * s.ByKind[kind].In() * wet)
			}
		}
		for k := range coats.Head {
			c.Coat[k] += float64(spots[k] * float64(s.Heads) * wet)
		}
		if coats.Skim { // its film is given wet
			squareInches := s.Face / (0.0254 * 0.0254)
			c.Skim += float64(squareInches * skimFilm.Of(j) * litresPerCubicInch * (1 + loss.Of(j)/100))
		}
	}
	return c
}

// averagePowder is a maker's average of lightweight setting-type compound (read: submittal): 52 lb per 1,000 ft².
func (u units) averagePowder() plan.Fact {
	if u.imperial {
		return plan.Tell("finish.average-powder", "weight", plan.Kilograms(52*kilogramsPerPound), "area", 1000*length.SquareFoot)
	}
	return plan.Tell("finish.average-powder", "weight", plan.Kilograms(25.3), "area", 100*length.SquareMetre)
}

// Published are the allowances by area that books print, for comparison with what the geometry gives.
type Published struct {
	Textbook  float64 // gallons of compound: 5 gal per 1,000 ft² (read: textbook of building estimating)
	Low, High float64 // 9 to 11 gal per 1,000 ft² by other accounts (from memory)
	Tape      float64 // feet: 380 per 1,000 ft² (read: the same textbook)
	Screws    float64 // 1,000 per 1,000 ft² (read: the same textbook)
}

// Allowances are the published allowances for an area of board in square feet.
func Allowances(squareFeet float64) Published {
	k := squareFeet / 1000
	return Published{Textbook: 5 * k, Low: 9 * k, High: 11 * k, Tape: 380 * k, Screws: 1000 * k}
}

// taped is the length of joint that gets tape: all flat joints and inside corners from level 1.
func taped(seams []Seams) (sum length.Length) {
	for _, s := range seams {
		if s.Level < 1 {
			continue
		}
		for _, kind := range []plan.JointKind{plan.Tapered, plan.Mixed, plan.Butt, plan.InsideCorner} {
			sum += s.ByKind[kind]
		}
	}
	return sum
}

// compoundBasis explains the volume, and sets the published allowances beside it.
func compoundBasis(j *job.Job, seams []Seams, c Compound) plan.Fact {
	var parts []plan.Fact
	area, heads := 0.0, 0
	for _, s := range seams {
		if s.Level >= 1 {
			area += s.Face
			heads += s.Heads
		}
	}
	for _, kind := range finished {
		sum := length.Length(0)
		for _, s := range seams {
			if s.Level >= 1 {
				sum += s.ByKind[kind]
			}
		}
		if sum > 0 {
			s := SectionOf(j, kind)
			parts = append(parts, plan.Tell("finish.joint-section", "kind", plan.JointName(kind), "long", plan.Run(sum), "section", section(s[0]+s[1]+s[2])))
		}
	}
	width, unseen := ButtWidth(j)
	p := Allowances(area / squareMetresPerFoot2)
	wet := c.Total() / litresPerGallon
	gallons := func(n float64) plan.Litres { return plan.Litres(n * litresPerGallon) }
	return plan.Tell("finish.compound", "joints", parts, "heads", heads,
		"first", plan.Litres(c.Coat[0]), "second", plan.Litres(c.Coat[1]), "third", plan.Litres(c.Coat[2]), "skim", plan.Litres(c.Skim),
		"shrinkage", plan.Share(shrinkage.Of(j)/100), "loss", plan.Share(loss.Of(j)/100)).
		Also(plan.Tell("finish.feathered", "width", width, "unseen", unseen, "angle", lightAngle.Of(j))).
		Also(plan.Tell("finish.published", "area", squareMetres(area), "textbook", gallons(p.Textbook), "low", gallons(p.Low), "high", gallons(p.High))).
		Also(why(j, seams, wet, p)).
		Also(plan.Tell("finish.powder-instead", "weight", plan.Kilograms(wet/bagYield.Of(j)*kilogramsPerPound)))
}

// why says what takes the volume out of the range of the published allowances.
func why(j *job.Job, seams []Seams, gallons float64, p Published) plan.Fact {
	if gallons >= p.Textbook && gallons <= p.High {
		return plan.Tell("finish.within-published")
	}
	share := map[plan.JointKind]float64{}
	skim, level := false, 0
	for _, s := range seams {
		skim = skim || CoatsOf(s.Level).Skim && s.Face > 0
		if s.Face > 0 {
			level = max(level, s.Level)
		}
		for _, kind := range finished {
			section := SectionOf(j, kind)
			for k := range CoatsOf(s.Level).at(kind) {
				share[kind] += float64(section[k] * s.ByKind[kind].In())
			}
		}
	}
	most := finished[0]
	for _, kind := range finished {
		if share[kind] > share[most] {
			most = kind
		}
	}
	switch {
	case gallons > p.High && skim:
		return plan.Tell("finish.more-skim")
	case gallons > p.High:
		return plan.Tell("finish.more-joint", "kind", plan.JointName(most))
	case level < 4:
		return plan.Tell("finish.less-coats", "level", level)
	}
	return plan.Tell("finish.less-joint")
}
