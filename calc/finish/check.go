package finish

import (
	"fmt"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// Checks are the findings on boxes that end up too deep or stand proud, on linings over a floor that is not level, and on butt joints
// that the light will show.
func Checks(j *job.Job, b *survey.Building, p *plan.Plan) []plan.Check {
	found := boxChecks(j, b)
	found = append(found, levelChecks(j, b, p)...)
	found = append(found, featherChecks(j, b, p)...)
	return append(found, unpaintedChecks(j, b, p)...)
}

// unpaintedChecks says why board stays unpainted where paint is asked for: its finish level is not meant for paint.
func unpaintedChecks(j *job.Job, b *survey.Building, p *plan.Plan) []plan.Check {
	if j.Paint.Primer+j.Paint.Coats == 0 {
		return nil
	}
	var found []plan.Check
	for _, f := range faces(b, p) {
		if f.gypsum() && f.zone.Finish >= 1 && f.zone.Finish < paintLevel {
			found = append(found, plan.Check{Rule: "paint-level", Level: plan.Note, Where: f.surface.ID, Source: "GA-214: levels 1 and 2 for plenums, garages, stores and under tile (read)",
				Message: fmt.Sprintf("finish level %d is taped and not painted; ask for level %d or more there to have it sanded, primed and painted, or for no paint at all", f.zone.Finish, paintLevel)})
		}
	}
	return found
}

func boxChecks(j *job.Job, b *survey.Building) []plan.Check {
	imperial := unitsOf(j).imperial
	var found []plan.Check
	for _, d := range Boxes(j, b) {
		kind := d.Box.Kind
		if kind == "" {
			kind = "box"
		}
		say := func(source, format string, args ...any) {
			found = append(found, plan.Check{Rule: "box-depth", Level: plan.Caution, Where: d.Surface, At: shape.Point{X: d.Box.At, Y: d.Box.Up},
				Message: kind + fmt.Sprintf(format, args...) + "; a licensed person judges the wiring", Source: source})
		}
		switch {
		case d.Extension > 0:
			say(told(boxGypsum), " stands %s behind the finished face and may stand %s: it needs an extender of %s at least",
				fraction(d.BuildUp-d.Box.SetOut, imperial), fraction(d.Allowance, imperial), fraction(d.Extension, imperial))
		case d.Proud > 0:
			say(told(boxProud), " stands %s out of the finished face, so that its plate does not lie flat: set it back before the lining goes up",
				fraction(d.Proud, imperial))
		}
	}
	return found
}

// thickShim is what a pair of tapered shims fills at most; common practice, no source.
const thickShim = length.Inch

func levelChecks(j *job.Job, b *survey.Building, p *plan.Plan) []plan.Check {
	imperial := unitsOf(j).imperial
	lap := lap(j)
	var found []plan.Check
	for _, l := range Level(b, p, lap) {
		say := func(rule string, level plan.Level, format string, args ...any) {
			found = append(found, plan.Check{Rule: rule, Level: level, Where: l.Surface, At: shape.Point{X: l.High.X},
				Message: fmt.Sprintf(format, args...), Source: "common practice, no source"})
		}
		shim, rip := length.Length(0), length.Length(0)
		for _, s := range l.Sheets {
			shim, rip = max(shim, s.Shim), max(rip, s.Rip)
		}
		if !l.Hangs {
			under, shorter := "shims", ""
			if shim > thickShim {
				under = "blocks and shims"
			}
			if rip > 0 {
				shorter = fmt.Sprintf("; sheets cut to the planned height are too long there by up to %s", fraction(rip, imperial))
			}
			say("level-line", plan.Note, "strike the level line %s above the floor's highest place, %s from the left end; %s under the sheets are up to %s thick%s",
				fraction(l.Line-l.High.Y, imperial), l.High.X.Show(imperial), under, fraction(shim, imperial), shorter)
		} else if rip > 0 {
			say("level-line", plan.Note, "the floor rises %s at %s from the left end: rip up to %s off the floor course, sheet by sheet",
				fraction(l.High.Y, imperial), l.High.X.Show(imperial), fraction(rip, imperial))
		}
		if !l.Covered && l.Largest > 0 {
			say("floor-cover", plan.Caution, "the gap at the floor is up to %s; base trim of %s does not cover it and lap %s onto the lining",
				fraction(l.Largest, imperial), l.Trim.Show(imperial), fraction(lap, imperial))
		}
	}
	return found
}

func featherChecks(j *job.Job, b *survey.Building, p *plan.Plan) []plan.Check {
	imperial := unitsOf(j).imperial
	width, unseen := ButtWidth(j)
	if unseen <= width {
		return nil
	}
	butt := length.Length(0)
	for _, s := range Joints(b, p) {
		if s.Level >= 3 && s.Level < 5 {
			butt += s.ByKind[plan.Butt] + s.ByKind[plan.Mixed]
		}
	}
	if butt == 0 {
		return nil
	}
	return []plan.Check{{Rule: "feather", Level: plan.Note,
		Message: fmt.Sprintf("in light at %.0f degrees %s paint will show %s of butt joint feathered to %s: %s would be needed; use longer sheets, flatter paint or level 5 there",
			lightAngle.Of(j), sheenName(j.Paint.Sheen), unitsOf(j).long(butt), width.Show(imperial), unseen.Show(imperial)),
		Source: "geometry of the crown; contrast that an eye picks out: " + told(threshold)}}
}

// lap is how far base trim must lap onto the lining.
func lap(j *job.Job) length.Length { return inches(j, trimLap) }

func sheenName(sheen string) string {
	if sheen == "" {
		return "flat"
	}
	return sheen
}
