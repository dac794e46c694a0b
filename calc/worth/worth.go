// Package worth is the bill in its linear form: what one foot of joint, one piece more come to in material and own hours.
// It asks the very functions that quantities, hours and prices of the bill come from, for a long stretch of one kind of joint,
// and knows no figure of its own, so that the search of layouts charges what the bill charges. What it leaves out is the
// rounding up to whole packs, and what hardly depends on the layout: screws, trim, paint.
//
// A further term of the bill that layouts should be chosen by is added in three places: here, to the sums that the search
// keeps (board's quantities), and to the bill itself.
package worth

import (
	"seamwright/calc/finish"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/price"
	"seamwright/calc/schedule"
)

// Joint is what one nanometre of joint comes to.
type Joint struct {
	Money float64 // hundredths of the currency
	Hours float64
}

// Joints are the joints of one face by kind.
type Joints struct{ Tapered, Butt, Mixed Joint }

// stretch is the length that is asked for: long enough that no rounding of a single length shows.
const stretch = 1000 * length.Foot

// Levels are the finish levels that differ, from 0 to 5.
const Levels = 6

// Book is what a job's layouts are charged by.
type Book struct {
	Piece  float64 // hours for one piece more
	levels [Levels]Joints
}

// Of reads the book of a job.
func Of(j *job.Job) *Book {
	b := &Book{Piece: schedule.PieceHours(j)}
	for level := range b.levels {
		of := func(kind plan.JointKind) Joint { return jointOf(j, level, kind) }
		b.levels[level] = Joints{of(plan.Tapered), of(plan.Butt), of(plan.Mixed)}
	}
	return b
}

// Face is what the joints of a layer are charged: nothing under another layer, nor between wood panels, which are not
// taped.
func (b *Book) Face(gypsum, seen bool, level int) Joints {
	if !gypsum || !seen {
		return Joints{}
	}
	return b.levels[min(max(level, 0), Levels-1)]
}

func jointOf(j *job.Job, level int, kind plan.JointKind) Joint {
	seams := []finish.Seams{{Level: level, ByKind: map[plan.JointKind]length.Length{kind: stretch}}}
	x := Joint{Hours: schedule.JointHours(j, seams) / float64(stretch)}
	for _, item := range finish.OfJoints(j, seams) {
		x.Money += price.ByContent(j, item) / float64(stretch)
	}
	return x
}
