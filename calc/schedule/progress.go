package schedule

import (
	"maps"
	"math"
	"slices"
	"sort"

	"seamwright/calc/plan"
)

// meanwhile names, for every wait, the work that is planned while it runs. order is the nodes by their start.
func (s *sequence) meanwhile(order []int) {
	crew := make([]int, 0, len(order)) // work in the order in which it is done; one crew does one task at a time
	for _, i := range order {
		if n := &s.nodes[i]; n.kind == work && n.promised && !n.done {
			crew = append(crew, i)
		}
	}
	for i := range s.nodes {
		n := &s.nodes[i]
		if n.kind != wait || !n.promised || n.done {
			continue
		}
		from := sort.Search(len(crew), func(k int) bool { return s.nodes[crew[k]].finish > n.start })
		to := from
		for to < len(crew) && s.nodes[crew[to]].start < n.finish {
			to++
		}
		if to > from {
			ids := make([]string, 0, to-from)
			for _, k := range crew[from:to] {
				ids = append(ids, s.tasks[k].ID)
			}
			s.tasks[i].Meanwhile = ids
		}
	}
}

// progress sets recorded hours against the estimate; the outlook is the work to come at the pace of its trade, as the dates are.
func (s *sequence) progress(paces map[plan.Trade]pace) plan.Progress {
	p := plan.Progress{}
	for i, t := range s.tasks {
		p.Tasks++
		switch {
		case s.nodes[i].done:
			p.Done++
			if t.Actual > 0 && s.nodes[i].kind == work {
				p.Estimated += t.Hours
				p.Actual += t.Actual
			}
		case s.nodes[i].kind == work:
			p.Left += t.Hours
			if q, known := paces[t.Trade]; known {
				p.Outlook += float64(t.Hours * float64(q.actual) / float64(q.estimated))
			} else {
				p.Outlook += t.Hours
			}
		}
	}
	p.Estimated, p.Actual, p.Left, p.Outlook = round(p.Estimated), round(p.Actual), round(p.Left), round(p.Outlook)
	p.Basis = plan.Tell("schedule.progress", "done", p.Done, "tasks", p.Tasks, "actual", p.Actual, "estimated", p.Estimated, "left", p.Left)
	for _, trade := range slices.Sorted(maps.Keys(paces)) {
		p.Basis = p.Basis.Also(plan.Tell("schedule.pace", "trade", plan.TradeName(trade), "pace", float64(paces[trade].actual)/float64(paces[trade].estimated)))
	}
	return p
}

func hundredths(hours float64) int64 { return int64(math.Round(hours * 100)) }

// round keeps a hundredth of an hour.
func round(hours float64) float64 { return math.Round(hours*100) / 100 }
