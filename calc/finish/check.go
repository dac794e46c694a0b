package finish

import (
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
			found = append(found, plan.Check{Rule: "paint-level", Level: plan.Note, Where: f.surface.ID, Source: plan.Tell("source.unpainted-levels"),
				Says: plan.Tell("finish.not-painted", "level", f.zone.Finish, "required", paintLevel)})
		}
	}
	return found
}

func boxChecks(j *job.Job, b *survey.Building) []plan.Check {
	var found []plan.Check
	for _, d := range Boxes(j, b) {
		say := func(source, what plan.Fact) {
			found = append(found, plan.Check{Rule: "box-depth", Level: plan.Caution, Where: d.Surface, At: shape.Point{X: d.Box.At, Y: d.Box.Up}, Says: what, Source: source})
		}
		box := plan.Box(d.Box.Kind)
		switch {
		case d.Extension > 0:
			say(told(boxGypsum), plan.Tell("finish.box-deep", "box", box, "behind", plan.Fine(d.BuildUp-d.Box.SetOut), "allowed", plan.Fine(d.Allowance), "extender", plan.Fine(d.Extension)))
		case d.Proud > 0:
			say(told(boxProud), plan.Tell("finish.box-proud", "box", box, "out", plan.Fine(d.Proud)))
		}
	}
	return found
}

// thickShim is what a pair of tapered shims fills at most; common practice, no source.
const thickShim = length.Inch

func levelChecks(j *job.Job, b *survey.Building, p *plan.Plan) []plan.Check {
	lap := lap(j)
	var found []plan.Check
	for _, l := range Level(b, p, lap) {
		say := func(rule string, level plan.Level, what plan.Fact) {
			found = append(found, plan.Check{Rule: rule, Level: level, Where: l.Surface, At: shape.Point{X: l.High.X}, Says: what, Source: plan.Practice()})
		}
		shim, rip := length.Length(0), length.Length(0)
		for _, s := range l.Sheets {
			shim, rip = max(shim, s.Shim), max(rip, s.Rip)
		}
		if !l.Hangs {
			under := "finish.level-line-shims"
			if shim > thickShim {
				under = "finish.level-line-blocks"
			}
			what := plan.Tell(under, "above", plan.Fine(l.Line-l.High.Y), "at", l.High.X, "thick", plan.Fine(shim))
			if rip > 0 {
				what = what.Also(plan.Tell("finish.sheets-too-long", "by", plan.Fine(rip)))
			}
			say("level-line", plan.Note, what)
		} else if rip > 0 {
			say("level-line", plan.Note, plan.Tell("finish.floor-rises", "rise", plan.Fine(l.High.Y), "at", l.High.X, "rip", plan.Fine(rip)))
		}
		if !l.Covered && l.Largest > 0 {
			say("floor-cover", plan.Caution, plan.Tell("finish.gap-uncovered", "gap", plan.Fine(l.Largest), "trim", l.Trim, "lap", plan.Fine(lap)))
		}
	}
	return found
}

func featherChecks(j *job.Job, b *survey.Building, p *plan.Plan) []plan.Check {
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
		Says: plan.Tell("finish.butt-shows", "angle", lightAngle.Of(j), "sheen", plan.Tell("sheen."+sheenName(j.Paint.Sheen)), "joint", plan.Run(butt),
			"feathered", width, "needed", unseen),
		Source: plan.Tell("source.crown", "contrast", told(threshold))}}
}

// lap is how far base trim must lap onto the lining.
func lap(j *job.Job) length.Length { return inches(j, trimLap) }

func sheenName(sheen string) string {
	if sheen == "" {
		return "flat"
	}
	return sheen
}
