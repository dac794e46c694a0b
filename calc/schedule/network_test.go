package schedule

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/calc/job"
)

// monday starts on Monday 1 March 2027 (a Monday by the Gregorian calendar), six hours a day, five days a week.
func monday() calendar {
	return newCalendar(job.Site{Start: job.Date{Year: 2027, Month: 3, Day: 1}, Hours: 6,
		Workdays: [7]bool{false, true, true, true, true, true, false}})
}

func TestCalendar(t *testing.T) {
	c := monday()
	require.Equal(t, "2027-03-01T08:00", c.stamp(c.next(0)))
	require.Equal(t, "2027-03-01T14:00", c.stamp(c.add(0, 360)))
	require.Equal(t, "2027-03-02T08:30", c.stamp(c.add(0, 390)))
	require.Equal(t, "2027-03-08T08:15", c.stamp(c.add(0, 5*360+15)), "the weekend is skipped")
	require.Equal(t, "2027-03-08T08:00", c.stamp(c.add(0, 5*360+7)), "told to the quarter of an hour")
	require.Equal(t, "2027-03-05T13:00", c.stamp(c.sub(c.next(7*minutesPerDay), 60)), "back over the weekend")
	require.EqualValues(t, 360, c.between(0, minutesPerDay))
	require.Equal(t, 5, c.days(0, 7*minutesPerDay))
	require.Equal(t, minute(2*minutesPerDay), c.on(job.Date{Year: 2027, Month: 3, Day: 3}))
}

// The quick writer of dates writes what the library does.
func TestStampsAreStamps(t *testing.T) {
	c := newCalendar(job.Site{Start: job.Date{Year: 2027, Month: 2, Day: 27}, Hours: 8})
	quick := c.stamps()
	for m := minute(-3 * minutesPerDay); m < 400*minutesPerDay; m += 977 {
		require.Equal(t, c.stamp(m), quick(m))
	}
}

func TestAddAndSubAreInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := monday()
		c.day = minute(rapid.IntRange(30, 900).Draw(t, "day"))
		c.workdays[rapid.IntRange(0, 6).Draw(t, "toggled")] = true
		c.off = map[minute]bool{}
		for _, d := range rapid.SliceOfN(rapid.IntRange(0, 60), 0, 20).Draw(t, "off") {
			c.off[minute(d)] = true
		}
		at := c.next(minute(rapid.IntRange(0, 30*minutesPerDay).Draw(t, "at")))
		length := minute(rapid.IntRange(1, 5000).Draw(t, "work"))
		end := c.add(at, length)
		require.Equal(t, length, c.between(at, end))
		require.Equal(t, length, c.between(c.sub(end, length), end))
	})
}

func TestNobodyWorksOnADayOff(t *testing.T) {
	site := job.Site{Start: job.Date{Year: 2027, Month: 3, Day: 1}, Hours: 6, Workdays: monday().workdays, Off: []job.Date{{Year: 2027, Month: 3, Day: 2}, {Year: 2027, Month: 3, Day: 5}}}
	c := newCalendar(site)
	require.Equal(t, "2027-03-03T09:00", c.stamp(c.add(0, 7*60)), "Monday's six hours, then Wednesday: Tuesday is off")
	require.Equal(t, "2027-03-08T08:00", c.stamp(c.next(4*minutesPerDay)), "Friday is off, the weekend too")
	require.Equal(t, 3, c.days(0, 7*minutesPerDay))
}

// Work fills the drying: two coats with 17 hours between them and other work at hand.
func TestOtherWorkFillsTheDrying(t *testing.T) {
	nodes := []node{
		{kind: work, minutes: 120}, {kind: wait, minutes: 17 * 60, after: []int{0}}, {kind: work, minutes: 60, after: []int{1}},
		{kind: work, minutes: 240},
	}
	c := monday()
	end, _ := solve(c, nodes, 0)
	require.Equal(t, "2027-03-01T10:00", c.stamp(nodes[3].start))
	require.Equal(t, "2027-03-02T08:00", c.stamp(nodes[2].start))
	require.Equal(t, "2027-03-02T09:00", c.stamp(end))
	require.Zero(t, nodes[2].latest-nodes[2].start, "the second coat is critical")
	require.Positive(t, nodes[1].slack(c), "five o'clock in the night is early enough for eight in the morning")
}

func TestNoDateIsPromisedBehindAnUnknownWait(t *testing.T) {
	nodes := []node{{kind: work, minutes: 60}, {kind: wait, unknown: true, after: []int{0}}, {kind: work, minutes: 60, after: []int{1}}, {kind: work, minutes: 30}}
	solve(monday(), nodes, 0)
	require.True(t, nodes[0].promised)
	require.False(t, nodes[2].promised)
	require.True(t, nodes[3].promised)
}

func network() *rapid.Generator[[]node] {
	return rapid.Custom(func(t *rapid.T) []node {
		nodes := make([]node, rapid.IntRange(1, 25).Draw(t, "tasks"))
		for i := range nodes {
			nodes[i].kind = rapid.SampledFrom([]kind{work, work, wait, inspect}).Draw(t, "kind")
			nodes[i].minutes = minute(rapid.IntRange(1, 900).Draw(t, "minutes"))
			for a := range i {
				if rapid.IntRange(0, 5).Draw(t, "link") == 0 {
					nodes[i].after = append(nodes[i].after, a)
				}
			}
			if i < 3 && rapid.IntRange(0, 3).Draw(t, "done") == 0 {
				nodes[i].done, nodes[i].after = true, nil
			}
		}
		return nodes
	})
}

// Whatever the network: no order is broken, nobody works outside working time or on two things at once, some
// task without slack runs through to the end, and a task that slips by its slack does not move the end.
func TestScheduleKeepsOrderAndCalendar(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := monday()
		nodes := network().Draw(t, "network")
		end, _ := solve(c, nodes, 0)
		var busy []node
		for i, n := range nodes {
			for _, a := range n.after {
				require.GreaterOrEqual(t, n.start, nodes[a].finish, "task %d after %d", i, a)
			}
			if n.done {
				continue
			}
			require.GreaterOrEqual(t, n.latest, n.start)
			switch n.kind {
			case work:
				require.Equal(t, n.start, c.next(n.start), "task %d starts in working time", i)
				require.Equal(t, n.minutes, c.between(n.start, n.finish))
				busy = append(busy, n)
			case wait:
				require.Equal(t, n.minutes, n.finish-n.start)
			}
		}
		for i := range busy {
			for k := range i {
				if busy[i].minutes > 0 && busy[k].minutes > 0 {
					require.True(t, busy[i].start >= busy[k].finish || busy[k].start >= busy[i].finish, "one crew")
				}
			}
		}
		late := append([]node(nil), nodes...)
		slipped := rapid.IntRange(0, len(nodes)-1).Draw(t, "slipped")
		if late[slipped].done {
			return
		}
		late[slipped].notFrom = late[slipped].latest
		require.LessOrEqual(t, replay(c, late, nodes), end, "slipping by the slack moves the end")
	})
}

// replay gives times to a network with the crew's order of another one kept.
func replay(c calendar, late, order []node) (end minute) {
	free := minute(0)
	for _, i := range byStart(order) {
		n := &late[i]
		at := ready(late, i, 0)
		if n.kind == work && !n.done {
			at = max(at, free)
		}
		if n.done {
			at = 0
		}
		n.place(c, at, true)
		if n.kind == work && !n.done {
			free = n.finish
		}
		end = max(end, n.finish)
	}
	return end
}

// The rule of the crew, looked for anew at every moment among all that is open: the queues must choose the same.
func TestQueuesChooseAsTheRuleSays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, nodes := monday(), network().Draw(t, "network")
		for i := range nodes {
			nodes[i].unknown = nodes[i].kind == wait && rapid.IntRange(0, 9).Draw(t, "unknown") == 0
		}
		_, crew := followersOf(nodes).forward(c, nodes, 0)
		tails, left, free := tail(c, nodes), map[int]bool{}, minute(0)
		for i, n := range nodes {
			left[i] = n.kind == work && !n.done
		}
		for _, chosen := range crew {
			best, at := -1, minute(0)
			for i := range nodes {
				if !left[i] || !nodes[i].promised || unplaced(nodes, left, i) {
					continue
				}
				if s := c.next(max(ready(nodes, i, 0), free)); best < 0 || s < at || s == at && tails[i] > tails[best] {
					best, at = i, s
				}
			}
			require.Equal(t, best, chosen)
			require.Equal(t, at, nodes[chosen].start)
			left[chosen], free = false, nodes[chosen].finish
		}
	})
}

// unplaced says whether something far before a node is still to be done.
func unplaced(nodes []node, left map[int]bool, i int) bool {
	return slices.ContainsFunc(nodes[i].after, func(a int) bool { return left[a] || unplaced(nodes, left, a) })
}
