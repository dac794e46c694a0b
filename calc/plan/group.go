package plan

import (
	"cmp"
	"slices"
)

// Group is the steps of one trade in one room that start on one day, in their order: what one is told to do next. A wait or a
// visit stands by itself.
type Group struct {
	Day    string // "" where none is promised
	Room   string
	Trade  Trade
	Kind   string // work, wait or inspect
	Start  string
	Finish string  // of the last
	Hours  float64 // of the crew; of a wait by the clock
	Slack  float64 // of the one that can slip least
	Done   int
	Tasks  []*Task
}

// Groups puts a sequence into groups, by their first start; what has no promised day stands last.
func Groups(tasks []Task) []Group {
	byStart := make([]*Task, len(tasks))
	for i := range tasks {
		byStart[i] = &tasks[i]
	}
	slices.SortStableFunc(byStart, func(a, b *Task) int {
		if (a.Start == "") != (b.Start == "") {
			return cmp.Compare(b.Start, a.Start)
		}
		return cmp.Compare(a.Start, b.Start)
	})
	type key struct {
		day, room string
		trade     Trade
	}
	var groups []Group
	at := map[key]int{}
	for _, t := range byStart {
		k := key{t.Day, t.Room, t.Trade}
		i, known := at[k]
		if !known || t.Kind != "work" {
			i = len(groups)
			groups = append(groups, Group{Day: t.Day, Room: t.Room, Trade: t.Trade, Kind: t.Kind, Start: t.Start, Slack: t.Slack})
			if t.Kind == "work" {
				at[k] = i
			}
		}
		g := &groups[i]
		g.Tasks = append(g.Tasks, t)
		g.Hours += t.Hours
		g.Finish, g.Slack = max(g.Finish, t.Finish), min(g.Slack, t.Slack)
		if t.Done {
			g.Done++
		}
	}
	return groups
}
