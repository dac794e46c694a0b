package layout

import (
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
)

// A joint that is back-blocked lies between members, on strips fixed to the backs of both boards, best in the middle of
// the bay: there nothing holds the boards' ends proud of each other, and the joint can be drawn in a little and filled
// flat. Where the rules allow it, such places come before members of the same worth.

// blockReach is how far a back-blocked joint keeps from a member's centre: half of a strip 6 in wide and half a member.
// Common practice, no source.
const blockReach = 4 * length.Inch

// blockFits tells whether there is room for blocks behind a joint at a place along the members' axis.
func (f *Field) blockFits(at length.Length) bool {
	for i := range f.members {
		if (f.members[i].At - at).Abs() < blockReach {
			return false
		}
	}
	for i := range f.short {
		if (f.short[i].At - at).Abs() < blockReach {
			return false
		}
	}
	return true
}

// bays are the middles of the spaces between neighbouring members that are wide enough for blocks.
func (f *Field) bays() (mids []length.Length) {
	var at []length.Length
	for _, m := range f.members {
		at = append(at, m.At)
	}
	for _, m := range f.short {
		at = append(at, m.At)
	}
	slices.Sort(at)
	for i := 1; i < len(at); i++ {
		if at[i]-at[i-1] >= 2*blockReach {
			mids = append(mids, (at[i-1]+at[i])/2)
		}
	}
	return mids
}

// carried tells whether an end joint at u needs no member: it crosses the members, or backing or blocks carry it.
func (f *Field) carried(u length.Length) bool {
	return f.Run == job.RunAlong || f.Backed || f.Blocked && f.blockFits(u)
}
