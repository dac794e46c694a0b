package survey_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/survey"
)

// framed is a wall of 16 ft under a flat head, lined up to a height and above it, with its framing.
func framed(t *testing.T, f job.Framing, openings ...job.Opening) *survey.Surface {
	r := room("r", 96*in, nil, 0, 0, 0, 120, 192, 120, 192, 0)
	w := &r.Walls[1]
	f.Member, f.Depth, f.Material = 3*in/2, 7*in/2, job.Wood
	w.Framing, w.Openings = f, openings
	w.Lining = []job.Zone{{To: 48 * in, Layers: []string{"gyp-12"}}, {Layers: []string{"gyp-12"}}}
	return surveyed(t, house(r))["r/b"]
}

// Studs at 32 in, written in five ways: the same members, so the same bays and the same member space.
func writings() map[string]job.Framing {
	at := func(inches ...length.Length) (ls []length.Length) {
		for _, x := range inches {
			ls = append(ls, x*in)
		}
		return ls
	}
	return map[string]job.Framing{
		"spacing":       {Spacing: 32 * in},
		"without":       {Spacing: 16 * in, Without: at(16, 48, 80, 112, 144, 176)},
		"first":         {Spacing: 64 * in, First: 32 * in, Also: at(64, 128)},
		"put by hand":   {Spacing: 96 * in, Also: at(32, 64, 128, 160)},
		"moved members": {Spacing: 24 * in, Without: at(24, 48, 72, 120, 144, 168), Also: at(32, 64, 128, 160)},
	}
}

func TestAWallIsTheSameHoweverItIsWritten(t *testing.T) {
	want := framed(t, job.Framing{Spacing: 32 * in})
	require.Equal(t, 32*in, want.Space())
	for name, f := range writings() {
		s := framed(t, f)
		require.Equal(t, want.Members, s.Members, name)
		require.Equal(t, want.Space(), s.Space(), name)
		for i, z := range s.Zones {
			require.Equal(t, want.Zones[i].Bays(), z.Bays(), name)
			require.Equal(t, 32*in, z.Widest().Width, name)
		}
	}
}

// A stud left out of a wall at 16 in: one bay of 32 in, though a member space stays 16 in.
func TestOneStudLeftOut(t *testing.T) {
	s := framed(t, job.Framing{Spacing: 16 * in, Without: []length.Length{96 * in}})
	require.Equal(t, survey.Bay{From: 80 * in, To: 112 * in, Width: 32 * in}, s.Zones[0].Widest())
	require.Equal(t, 16*in, s.Space())
	_, ok := s.Zones[0].Spans(job.RunAcross)
	require.False(t, ok, "1/2 in board carries over 24 in")
}

// Bays are those where the zone lies: a cripple left out over a window concerns the board above the sill alone.
func TestBaysOfAZone(t *testing.T) {
	window := job.Opening{ID: "w", Kind: job.Window, At: 64*in + 3*in/4, Width: 62*in + in/2, Height: 24 * in, Sill: 56 * in}
	s := framed(t, job.Framing{Spacing: 16 * in, Without: []length.Length{96 * in}}, window)
	widest := survey.Bay{From: 80 * in, To: 112 * in, Width: 32 * in}
	require.Equal(t, widest, s.Zones[0].Widest(), "below the sill")
	require.Equal(t, widest, s.Zones[1].Widest(), "over the head")
	door := job.Opening{ID: "d", Kind: job.Door, At: 64*in + 3*in/4, Width: 62*in + in/2, Height: 80 * in}
	s = framed(t, job.Framing{Spacing: 16 * in, Without: []length.Length{96 * in}}, door)
	require.Equal(t, 16*in, s.Zones[0].Widest().Width, "no board hangs in the door")
	require.Equal(t, widest, s.Zones[1].Widest())
	high := job.Opening{ID: "d", Kind: job.Door, At: 64 * in, Width: 64 * in, Height: 95 * in}
	s = framed(t, job.Framing{Spacing: 16 * in, Without: []length.Length{96 * in}}, high)
	require.LessOrEqual(t, s.Zones[1].Widest().Width, 16*in, "a strip of an inch under the plate spans nothing")
}

// A member that gives way to a jamb leaves a bay no wider than the spacing: openings have two members at their sides.
func TestBayBesideAnOpening(t *testing.T) {
	for shift := length.Length(-12); shift <= 12; shift++ {
		o := job.Opening{ID: "w", Kind: job.Window, At: 64*in + shift*in/8, Width: 40 * in, Height: 36 * in, Sill: 40 * in}
		s := framed(t, job.Framing{Spacing: 16 * in}, o)
		for _, z := range s.Zones {
			require.LessOrEqual(t, z.Widest().Width, 16*in, o.At.Show(true))
		}
	}
}

// Under a gable the bays are those of its studs, the highest of which have no neighbour as high.
func TestBaysOfAGable(t *testing.T) {
	r := room("r", 96*in, nil, 0, 0, 288, 0, 288, 192, 0, 192)
	r.Ceiling = ceiling()
	r.Ceiling.Shape, r.Ceiling.Along, r.Ceiling.At, r.Ceiling.High = job.Ridge, job.AxisX, 96*in, 144*in
	for i := range r.Walls {
		r.Walls[i].Lining = []job.Zone{{Layers: []string{"gyp-12"}}}
	}
	s := surveyed(t, house(r))["r/b"]
	require.Len(t, s.Zones[0].Bays(), len(s.Studs)-1)
	require.Equal(t, 16*in, s.Zones[0].Widest().Width)
}

// Whatever is left out, added or moved: bays lie between members that stand, none between them, and the widest stays the same
// when the wall is written by its members alone.
func TestBaysAreWhatStands(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		places := rapid.SliceOfN(rapid.IntRange(8, 760), 0, 14).Draw(rt, "quarter inches")
		quarters := func(xs []int) (ls []length.Length) {
			for _, x := range xs {
				ls = append(ls, length.Length(x)*in/4)
			}
			return ls
		}
		f := job.Framing{Spacing: rapid.SampledFrom([]length.Length{12 * in, 16 * in, 24 * in, 32 * in}).Draw(rt, "spacing"), Also: quarters(places),
			Without: quarters(rapid.SliceOfN(rapid.IntRange(8, 760), 0, 6).Draw(rt, "without"))}
		s := framed(t, f)
		by := job.Framing{Spacing: 8 * 12 * in, First: 191 * in}
		for _, m := range s.Studs {
			if m.Kind == survey.Common {
				by.Also = append(by.Also, m.At)
			}
		}
		again := framed(t, by)
		if !slices.Equal(s.Members.At, again.Members.At) {
			rt.Skip("the one stud of the grid stands")
		}
		if s.Space() != again.Space() {
			rt.Fatalf("member space %v and %v", s.Space(), again.Space())
		}
		for i, z := range s.Zones {
			bays := z.Bays()
			if !slices.Equal(bays, again.Zones[i].Bays()) {
				rt.Fatalf("bays %v and %v", bays, again.Zones[i].Bays())
			}
			if len(bays) != len(s.Studs)-1 {
				rt.Fatalf("%d bays between %d studs", len(bays), len(s.Studs))
			}
			for _, b := range bays {
				if slices.ContainsFunc(s.Studs, func(m survey.Member) bool { return m.At > b.From && m.At < b.To }) {
					rt.Fatalf("a stud stands within %v", b)
				}
			}
		}
	})
}
