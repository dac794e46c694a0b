package span_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/internal/fact"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/span"
)

const (
	in = length.Inch
	mm = length.Millimetre
)

func board(eighths length.Length, more ...func(*job.Product)) *job.Product {
	p := &job.Product{Kind: job.Gypsum, Thickness: eighths * in / 8}
	for _, m := range more {
		m(p)
	}
	return p
}

func sag(p *job.Product)  { p.Sag = true }
func fire(p *job.Product) { p.FireType = true }

func ceiling(run job.Run, duties ...job.Duty) span.Use {
	return span.Use{Ceiling: true, Run: run, Duties: duties}
}

// Each use against the widest bay that a published table gives it; 0 where the table does not list it.
func TestFacts(t *testing.T) {
	const (
		maker = "a maker's submittal sheet"
		light = "a maker's sheet of lightweight ceiling board: 24 in across only, 16 in either way"
		irc   = "IRC Table R702.3.5"
		note  = "IRC Table R702.3.5, footnote d; Ontario 9.29.5.3 asks 12.7 mm under insulation (read)"
	)
	loaded := func(u span.Use) span.Use { u.Loaded = true; return u }
	plies := func(n int, u span.Use) span.Use { u.Plies = n; return u }
	wall := span.Use{Run: job.RunAlong}
	var facts []fact.Fact
	for _, c := range []struct {
		what   string
		board  *job.Product
		use    span.Use
		inches float64
		source string
		status job.Status
	}{
		{"1/2 in on walls", board(4), wall, 24, maker, job.Read},
		{"5/8 in on walls", board(5), wall, 24, maker, job.Read},
		{"3/8 in on walls", board(3), wall, 16, irc, job.Memory},
		{"1/4 in on walls", board(2), wall, 0, irc + " does not list it", job.Memory},
		{"3/8 in on ceilings across", board(3), ceiling(job.RunAcross), 16, maker, job.Read},
		{"3/8 in on ceilings along", board(3), ceiling(job.RunAlong), 0, irc, job.Memory},
		{"3/8 in on ceilings under insulation", board(3), loaded(ceiling(job.RunAcross)), 0, note, job.Memory},
		{"1/2 in on ceilings along", board(4), ceiling(job.RunAlong), 16, maker, job.Read},
		{"1/2 in on ceilings across, not sag-resistant", board(4), ceiling(job.RunAcross), 16, "another maker: 24 in joists take 5/8 in or 1/2 in ceiling board", job.Read},
		{"1/2 in sag-resistant on ceilings across", board(4, sag), ceiling(job.RunAcross), 24, light, job.Read},
		{"1/2 in sag-resistant on ceilings across under insulation", board(4, sag), loaded(ceiling(job.RunAcross)), 24, light + ", bearing 1.3 psf", job.Read},
		{"1/2 in sag-resistant on ceilings along", board(4, sag), ceiling(job.RunAlong), 16, light, job.Read},
		{"5/8 in on ceilings across", board(5), ceiling(job.RunAcross), 24, maker, job.Read},
		{"5/8 in on ceilings along", board(5), ceiling(job.RunAlong), 16, irc, job.Memory},
		{"5/8 in fire type under rooms, across", board(5, fire), ceiling(job.RunAcross, job.Separation), 24, irc, job.Memory},
		{"5/8 in fire type under rooms, along", board(5, fire), ceiling(job.RunAlong, job.Separation), 0, irc, job.Memory},
		{"5/8 in plain under an attic, along", board(5), ceiling(job.RunAlong, job.Separation), 16, irc, job.Memory},
		{"two 1/2 in on ceilings along", board(4), plies(2, ceiling(job.RunAlong)), 24, maker + ", double layer", job.Read},
		{"two 3/8 in on ceilings along", board(3), plies(2, ceiling(job.RunAlong)), 0, maker + ", double layer", job.Read},
		{"two 3/8 in on ceilings across", board(3), plies(2, loaded(ceiling(job.RunAcross))), 16, maker + ", double layer", job.Read},
		{"two 3/8 in on walls", board(3), plies(2, wall), 24, maker + ", double layer", job.Read},
	} {
		row, _ := span.Widest(c.board, c.use)
		facts = append(facts, fact.Is(c.what+", in", row.Bay.In(), c.inches, 0, c.source, c.status))
	}
	for _, c := range []struct {
		what string
		use  span.Use
		bay  float64
		psf  float64
	}{{"1/2 in ceiling board bears over 24 in", ceiling(job.RunAcross), 24, 1.3}, {"1/2 in ceiling board bears over 16 in", ceiling(job.RunAlong), 16, 2.2}} {
		c.use.Bay = length.Length(c.bay) * in
		row, _ := span.Find(board(4, sag), c.use)
		facts = append(facts, fact.Is(c.what+", psf", row.Bears, c.psf, 0, light, job.Read))
	}
	fact.Check(t, facts)
}

// Fire-type board under rooms that are lived in: 6 in apart (from memory), whatever else the same board is allowed.
func TestUnderRoomsLivedIn(t *testing.T) {
	use := ceiling(job.RunAcross, job.Separation)
	use.Bay = 16 * in
	row, ok := span.Find(board(5, fire), use)
	require.True(t, ok)
	require.Equal(t, 6*in, row.Screws)
	use.Glued = true
	row, _ = span.Find(board(5, fire), use)
	require.Equal(t, 6*in, row.Screws, "adhesive widens nothing there")
	metric := &job.Product{Kind: job.Gypsum, Thickness: 15 * mm, FireType: true}
	row, _ = span.Find(metric, use)
	require.Equal(t, 150*mm, row.Screws)
}

// A bay is as wide as it is: a little over a row's bay passes, an inch does not.
func TestReach(t *testing.T) {
	use := span.Use{Run: job.RunAcross}
	for bay, want := range map[length.Length]length.Length{16 * in: 16, 410 * mm: 16, 17 * in: 12, 24 * in: 12} {
		use.Bay = bay
		row, ok := span.Find(board(4), use)
		require.True(t, ok)
		require.Equal(t, want, row.Screws/in, bay.Show(true))
	}
	use.Bay = 25 * in
	_, ok := span.Find(board(4), use)
	require.False(t, ok)
}

// No row goes farther than one of the same board, place and load that asks less of how it lies.
func TestAcrossIsNeverWorse(t *testing.T) {
	for _, p := range []*job.Product{board(3), board(4), board(4, sag), board(5), board(5, fire), {Kind: job.Gypsum, Thickness: 25 * mm / 2}} {
		for _, u := range []span.Use{{}, {Ceiling: true}, {Ceiling: true, Loaded: true}, {Ceiling: true, Plies: 2}, {Glued: true}, {Ceiling: true, Glued: true}} {
			across, along := u, u
			across.Run, along.Run = job.RunAcross, job.RunAlong
			far, _ := span.Widest(p, across)
			near, _ := span.Widest(p, along)
			require.GreaterOrEqual(t, far.Bay, near.Bay)
		}
	}
}

// Mineral wool of 9-1/4 in at 2.5 lb/ft3 weighs 1.93 psf (derived from figures kept from memory).
func TestWeight(t *testing.T) {
	require.InDelta(t, 1.93, span.Weight(&job.Job{}, job.MineralWool, 37*in/4), 0.005)
	require.Zero(t, span.Weight(&job.Job{}, job.NoInsulation, 10*in))
}
