package finish_test

import (
	"fmt"
	"testing"

	"seamwright/calc/finish"
	"seamwright/calc/internal/fact"
	"seamwright/calc/internal/sample"
	"seamwright/calc/job"
	"seamwright/calc/plan"
)

// Air and drying, compound and tape, joints' widths, paint, boxes: the program's numbers beside published ones.
func TestFacts(t *testing.T) {
	const (
		magnus  = "Magnus formula of WMO-No. 8, check table"
		wet     = "vapour-pressure deficit from the same table"
		setting = "makers' published setting times, longest"
		book    = "textbook of building estimating, ex. 16-2: 346 ft of partition, 10 ft high, taken as 7,000 ft2"
		level4  = "GA-214 as a paint maker restates it"
		guide   = "maker's how-to guide on joints"
		en520   = "EN 520 recess as a maker prints it: 40 to 80 mm wide, 0.6 to 2.5 mm deep"
		c1396   = "ASTM C1396: edge 0.020 to 0.090 in thinner"
		nec     = "NEC 314.20: 1/4 in behind what does not burn, flush with wood"
	)
	figure := map[string]float64{}
	for _, f := range finish.Figures {
		figure[f.ID] = f.Value
	}
	dry := func(fahrenheit, humidity float64) float64 {
		h, _ := finish.Drying((fahrenheit-32)/1.8, humidity, finish.TableCoat)
		return h
	}
	promised := func(fahrenheit float64) float64 {
		if _, ok := finish.Drying((fahrenheit-32)/1.8, 0.5, finish.TableCoat); ok {
			return 1
		}
		return 0
	}
	humid := 1.0
	if _, ok := finish.Drying(21, 0.99, finish.TableCoat); !ok {
		humid = 0
	}
	whole, _ := finish.Drying(20, 0.5, inch/16)
	thin, _ := finish.Drying(20, 0.5, inch/32)
	allowed := finish.Allowances(7000)
	j := sample.Job()
	width, _ := finish.ButtWidth(j)
	jr, br, pr := room(t, 4)
	ordinary := finish.CompoundFor(jr, finish.Joints(br, pr)).Total() / litresPerGallon
	section := func(kind plan.JointKind) float64 {
		s := finish.SectionOf(j, kind)
		return s[0] + s[1] + s[2]
	}
	facts := []fact.Fact{
		fact.Is("steam over water at 20 C, hPa", finish.VapourPressure(20), 23.388, 0.1, "NIST steam tables", job.Memory),
		fact.Is("steam over water at 30 C, hPa", finish.VapourPressure(30), 42.467, 0.2, "NIST steam tables", job.Memory),
		fact.Between("coat at 70 F and 50 %, h", dry(70, 0.5), 17, 19, "graph of drying times for 1/16 in, band of 17 to 19 h", job.Read),
		fact.Between("coat at 60 F and 70 %, h", dry(60, 0.7), 24, 48, "the same graph, fair up to 48 h", job.Read),
		fact.Between("coat at 75 F and 35 %, h", dry(75, 0.35), 6, 17, "the same graph, best above 70 F and below 40 %", job.Read),
		fact.Between("coat in an ordinary room, h", dry(65, 0.55), 18, 26, "makers' guides: about 24 h a coat", job.Read),
		fact.Is("promised at 50 F", promised(50), 1, 0, "maker's guide: 50 F from 48 h before until dry; Ontario 9.29.5.10: 10 C", job.Read),
		fact.Is("promised at 49 F", promised(49), 0, 0, "the same", job.Read),
		fact.Is("promised at 70 F and 99 %", humid, 0, 0, "the drying table ends at 98 %", job.Memory),
		fact.Is("a coat half as thick against a whole one", thin/whole, 0.5, 1e-9, "thickness counts in proportion, a model of our own", job.Derived),
		fact.Is("coldest for setting-type, F", finish.ColdestSetting*1.8+32, 45, 0.1, "maker's submittal: 45 F for surface, water, mix and air", job.Read),
		fact.Is("tape, ft", allowed.Tape, 2660, 0, book, job.Read),
		fact.Is("compound, gal", allowed.Textbook, 35, 0, book, job.Read),
		fact.Is("screws", allowed.Screws, 7000, 0, book, job.Read),
		fact.Is("setting-type compound from a bag of 18 lb, gal", figure["setting-yield"]*18, 2.8, 0, "maker's submittal", job.Read),
		fact.Between("compound of a room of 640 ft2 at level 4, gal per 1,000 ft2", ordinary/0.64, 5, 11, "5 gal in the textbook (read) to 11 by other accounts (from memory)", job.Memory),
		fact.Between("the same as setting-type powder, lb per 1,000 ft2", ordinary/0.64/figure["setting-yield"], 35, 75, "52 lb per 1,000 ft2, maker's average (read), conventional about 72 (from memory)", job.Memory),
		fact.Between("screws of the same room, per 1,000 ft2", float64(pr.Summary.Screws)/0.64, 900, 1300, "the textbook's 1,000 per 1,000 ft2", job.Read),
		fact.Between("recess at a tapered edge, in", figure["taper-depth"], 0.020, 0.090, c1396, job.Memory),
		fact.Between("recess at a tapered edge, mm deep", figure["taper-depth"]*25.4, 0.6, 2.5, en520, job.Read),
		fact.Between("recess at a tapered edge, mm wide", figure["taper-width"]*25.4, 40, 80, en520, job.Read),
		fact.Is("under the tape, in", figure["bed-film"], 1.0/32, 0, "makers' sheets of tape and compound", job.Read),
		fact.Is("bed under the tape, in", figure["bed-width"], 4, 0, "NAVEDTRA 14044 and a maker's guide", job.Read),
		fact.Between("second coat of a flat joint, in", figure["second-coat"], 7, 10, guide, job.Read),
		fact.Between("third coat of a flat joint, in", figure["third-coat"], 10, 12, guide+", knife", job.Read),
		fact.Is("second coat of a butt joint, in", figure["butt-second"], 14, 0, guide, job.Read),
		fact.Between("finished butt joint, in", width.In(), 16, 24, "practice: 16 to 24 in; about 18 by a handbook (read)", job.Memory),
		fact.Between("bead's first coat, in", figure["bead-first"], 4, 6, "maker's handbook: at least 4 in, paper-faced 5 to 6", job.Read),
		fact.Is("tapered joint, two triangles less the tape, in2", finish.SectionOf(j, plan.Tapered)[0], 0.05*2.5-2.0625*0.009, 0, "area of a triangle", job.Derived),
		fact.Is("butt joint, crown less the tape, in2", section(plan.Butt), 2.0/3*width.In()/16-2.0625*0.009, 0, "area under a parabola, Archimedes", job.Derived),
		fact.Is("film of 37 % solids, ft2 a gallon at 1 mil", 231.0/144*12*1000/12*0.37, 593, 1, "eggshell data sheet: 593", job.Read),
		fact.Between("later coats, ft2 a gallon", figure["coat-coverage"], 300, 400, "eggshell data sheet: 300 to 400", job.Read),
		fact.Between("first coat on new board, ft2 a gallon", figure["first-coat-coverage"], 250, 400, "painters' guides: 250 to 400, the lower half on new board", job.Read),
		fact.Is("primer recoat at 77 F and 50 %, h", finish.Recoat(1, 25, 0.5), 1, 1e-9, "primer product page", job.Read),
		fact.Is("box behind 5/8 in board and 23/32 in plywood, set out 1/2 in: extension, in", finish.Extension(5*inch/8+23*inch/32, inch/2, 0).In(), 27.0/32, 0, nec, job.Read),
		fact.Is("box 1/4 in behind board", finish.Extension(inch/2, inch/4, inch/4).In(), 0, 0, nec, job.Read),
		fact.Is("box 1/4 in behind wood", finish.Extension(inch/2, inch/4, 0).In(), 0.25, 0, nec, job.Read),
		fact.Is("screws of 1 1/4 in in a pound", finish.ScrewsPerPound(j, 5*inch/4), 280, 0, "counts on boxes", job.Memory),
	}
	for _, c := range []struct{ celsius, want float64 }{{5, 8.717}, {10, 12.260}, {15, 17.017}, {20, 23.326}, {25, 31.601}, {30, 42.337}} {
		facts = append(facts, fact.Is(fmt.Sprintf("saturation pressure at %g C, hPa", c.celsius), finish.VapourPressure(c.celsius), c.want, 0.0006, magnus, job.Derived))
	}
	for _, c := range []struct{ celsius, humidity, want float64 }{{20, 0.5, 11.66}, {20, 0.8, 4.67}, {10, 0.5, 6.13}, {10, 0.8, 2.45}} {
		facts = append(facts, fact.Is(fmt.Sprintf("deficit at %g C and %g %%, hPa", c.celsius, 100*c.humidity), finish.Deficit(c.celsius, c.humidity), c.want, 0.006, wet, job.Derived))
	}
	for _, c := range []struct{ celsius, humidity, want float64 }{{20, 0.8, 2.5}, {10, 0.5, 1.90}, {10, 0.8, 4.76}} {
		facts = append(facts, fact.Is(fmt.Sprintf("drying at %g C and %g %% against 20 C and 50 %%", c.celsius, 100*c.humidity), finish.Recoat(1, c.celsius, c.humidity)/finish.Recoat(1, 20, 0.5), c.want, 0.006, wet, job.Derived))
	}
	for _, c := range []struct{ nominal, minutes float64 }{{5, 12}, {20, 30}, {45, 80}, {90, 130}, {210, 240}, {30, 80}, {60, 130}, {100, 240}} {
		facts = append(facts, fact.Is(fmt.Sprintf("setting time of the %g-minute compound, minutes", c.nominal), 60*finish.SettingHours(c.nominal), c.minutes, 1e-9, setting, job.Read))
	}
	for _, c := range []struct {
		level                    int
		joint, angle, head, bead float64
		status                   job.Status
	}{{1, 1, 1, 0, 0, job.Read}, {2, 1, 1, 1, 1, job.Read}, {3, 2, 2, 2, 2, job.Memory}, {4, 3, 2, 3, 3, job.Read}} {
		n := finish.CoatsOf(c.level)
		facts = append(facts, fact.Is(fmt.Sprintf("level %d: coats on joints, angles, heads and beads, as digits", c.level),
			float64(1000*n.Joint+100*n.Angle+10*n.Head+n.Bead), 1000*c.joint+100*c.angle+10*c.head+c.bead, 0, level4, c.status))
	}
	fact.Check(t, facts)
}
