package survey_test

import (
	"fmt"
	"testing"

	"seamwright/calc/internal/fact"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// Framing examples, the first layout mark and span tables of several countries.
func TestFacts(t *testing.T) {
	members := func(feet length.Length) []length.Length {
		r := room("r", 96*in, nil, 0, 0, 12*feet, 0, 12*feet, 120, 0, 120)
		return surveyed(t, house(r))["r/a"].Members.At
	}
	const book = "Peterson and Dagostino, Estimating in Building Construction, 7th ed., ex. "
	facts := []fact.Fact{
		fact.Is("studs of 148 ft at 16 in", float64(len(members(148))), 112, 0, book+"13-11", job.Read),
		fact.Is("studs of a gable of 24 ft at 16 in", float64(len(members(24))), 19, 0, book+"13-15", job.Read),
		fact.Is("near edge of the first common stud, in", members(24)[1].In()-0.75, 15.25, 0, "NAVEDTRA 14044 fig. 1-40: 15-1/4 in", job.Read),
	}
	type span struct {
		board   length.Length // tenths of a millimetre; 0: inches, see eighths
		eighths length.Length
		ceiling bool
		run     job.Run
		spacing length.Length // mm
		ok      bool
		source  string
		status  job.Status
	}
	const (
		nhbcWall    = "NHBC Standards 2020, 6.3.12"
		nhbcCeiling = "NHBC Standards 2022, 9.2.4 Table 5"
		din         = "DIN 18181: walls at 625 mm"
		maker       = "maker's submittal sheet, single layer"
		irc         = "IRC Table R702.3.5"
	)
	for _, c := range []span{
		{95, 0, false, job.RunAcross, 450, true, nhbcWall, job.Read},
		{95, 0, false, job.RunAcross, 600, false, nhbcWall, job.Read},
		{125, 0, false, job.RunAcross, 600, true, nhbcWall, job.Read},
		{125, 0, false, job.RunAcross, 625, true, din, job.Memory},
		{125, 0, true, job.RunAcross, 450, true, nhbcCeiling, job.Read},
		{125, 0, true, job.RunAcross, 600, false, nhbcCeiling + ": 600 mm only with noggings between", job.Read},
		{150, 0, false, job.RunAcross, 600, true, nhbcWall, job.Read},
		{150, 0, false, job.RunAcross, 625, true, din, job.Memory},
		{150, 0, true, job.RunAcross, 600, true, nhbcCeiling, job.Read},
		{150, 0, true, job.RunAcross, 625, false, nhbcCeiling, job.Read},
		{0, 4, false, job.RunAlong, 610, true, maker, job.Read},
		{0, 5, true, job.RunAcross, 610, true, maker, job.Read},
		{0, 4, true, job.RunAlong, 406, true, maker, job.Read},
		{0, 4, true, job.RunAlong, 610, false, maker, job.Read},
		{0, 3, true, job.RunAcross, 406, true, maker, job.Read},
		{0, 5, true, job.RunAlong, 406, true, irc, job.Memory},
		{0, 5, true, job.RunAlong, 610, false, irc, job.Memory},
		{0, 3, false, job.RunAcross, 610, false, irc, job.Memory},
		{0, 3, true, job.RunAlong, 406, false, irc, job.Memory},
	} {
		board := &job.Product{Kind: job.Gypsum, Thickness: c.board*length.Millimetre/10 + c.eighths*in/8}
		s := &survey.Surface{Surface: plan.Surface{Kind: plan.Wall}, Wall: &job.Wall{}}
		if c.ceiling {
			s = &survey.Surface{Surface: plan.Surface{Kind: plan.Ceiling}, Ceiling: &job.Ceiling{}}
		}
		s.Studs = []survey.Member{{To: 8 * 12 * in}, {At: c.spacing * mm, To: 8 * 12 * in}}
		z := &survey.Zone{Surface: s, Layer: 1, Layers: 1, Product: board, Outline: shape.Rect{W: c.spacing * mm, H: 8 * 12 * in}.Polygon()}
		_, ok := z.Spans(c.run)
		facts = append(facts, fact.Is(fmt.Sprintf("%.1f mm board, ceiling %v, %s, members at %d mm: allowed", board.Thickness.MM(), c.ceiling, c.run, c.spacing),
			truth(ok), truth(c.ok), 0, c.source, c.status))
	}
	fact.Check(t, facts)
}

func truth(b bool) float64 {
	if b {
		return 1
	}
	return 0
}
