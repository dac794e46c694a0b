// Package schedule makes the sequence of the work from the plan itself, wall by wall and course by course, and gives
// every task its time: hours from productivity figures and geometry, waits from the drying of compound and paint,
// inspections in workdays, one crew on a calendar of workdays, other work while something dries, critical path and
// slack. It is a list schedule, good but not proven shortest.
package schedule

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"seamwright/calc/finish"
	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/calc/survey"
)

// Schedule fills the plan's sequence and the hours, days and finishing date of its summary. Hours of work are
// person-hours, hours of waits are of the clock, slack is in hours of work for work and of the clock for waits.
func Schedule(j *job.Job, b *survey.Building, p *plan.Plan) {
	var rooms []Room
	for i := range j.Rooms {
		rooms = append(rooms, OfRoom(j, &j.Rooms[i], b, p))
	}
	Join(j, b, p, rooms, true)
}

// Room is the tasks of one room by itself, without times. Links are places in its own list.
type Room struct {
	tasks  []plan.Task
	nodes  []node
	split  int   // the tasks from here on come when the rooms that share its air are sanded
	clean  int   // the first that must meet no more dust: dusting off before paint; -1 for none
	sanded links // the last that makes dust before it
}

// OfRoom makes the tasks of a room out of what is planned for its surfaces.
func OfRoom(j *job.Job, r *job.Room, b *survey.Building, p *plan.Plan) Room {
	s := newSequence(j)
	s.b, s.p = b, p
	s.split, s.clean = -1, -1
	s.room(r, finish.Rooms(j, b, p)[r.ID])
	if s.split < 0 {
		s.split = len(s.tasks)
	}
	return Room{s.tasks, s.nodes, s.split, s.clean, s.sanded}
}

// Join is Schedule with the tasks made room by room already; the end of the job in other airs only where it is asked for,
// since it takes as long as all the rest.
func Join(j *job.Job, b *survey.Building, p *plan.Plan, rooms []Room, otherAirs bool) {
	s := newSequence(j)
	n := 0
	for _, r := range rooms {
		n += len(r.tasks)
	}
	s.tasks, s.nodes, s.index = make([]plan.Task, 0, n), make([]node, 0, n), make(map[string]int, n) // an empty list, never null
	for _, group := range sharedAir(j, b) {
		s.group(rooms, group)
	}
	c := newCalendar(j.Site)
	var first []node // the network before anything was ticked off, where that is another
	if len(j.Progress) > 0 {
		first = slices.Clone(s.nodes)
	}
	start := s.markDone(c)
	pace := s.goAtPace()
	p.WhatIf = []plan.WhatIf{}
	if otherAirs {
		p.WhatIf = s.whatIf(c, start)
	}
	end, order := solve(c, s.nodes, start)
	promised, stamp := true, c.stamps()
	for i := range s.nodes {
		n, t := &s.nodes[i], &s.tasks[i]
		t.Done = n.done
		t.Slack = round(n.slack(c))
		if n.promised {
			t.Start, t.Finish = stamp(n.start), stamp(n.finish)
			t.Day, _, _ = strings.Cut(t.Start, "T")
		}
		promised = promised && n.promised
	}
	s.meanwhile(order)
	p.Schedule = s.tasks
	p.Summary.Hours = Hours(rooms)
	if promised && len(s.tasks) > 0 {
		p.Summary.Finish = stamp(end)
		p.Summary.Days = c.days(0, end)
	}
	p.Progress = s.progress(pace)
	p.Progress.FirstFinish = p.Summary.Finish
	if first != nil {
		p.Progress.FirstFinish = ""
		if end, promised := inAir(j, c, followersOf(first), first, s.air, 0); promised && len(first) > 0 {
			p.Progress.FirstFinish = stamp(end)
		}
	}
}

// Hours is the work of all rooms, as Join sums it up.
func Hours(rooms []Room) (sum float64) {
	for _, r := range rooms {
		for i := range r.nodes {
			if r.nodes[i].kind == work {
				sum += r.tasks[i].Hours
			}
		}
	}
	return round(sum)
}

func newSequence(j *job.Job) *sequence {
	return &sequence{crew: crew{j: j}, j: j, air: airOf(j), index: map[string]int{}}
}

// names are the ids of tasks.
func (s *sequence) names(tasks []int) []string {
	ids := []string{}
	for _, a := range tasks {
		ids = append(ids, s.tasks[a].ID)
	}
	return ids
}

// sequence collects tasks in the order of the trade.
type sequence struct {
	crew
	j     *job.Job
	b     *survey.Building
	p     *plan.Plan
	air   air
	in    string     // room that tasks are added for
	on    string     // surface that they are about, "" for the whole room
	of    string     // product that they hang, "" where they hang none
	up    []string   // pieces that they hang or fix
	trade plan.Trade // that they belong to, "" for that of their step

	split, clean int // of Room
	sanded       links
	tasks        []plan.Task
	nodes        []node
	index        map[string]int
}

// links are the tasks that something follows; empty where it follows nothing.
type links []int

// work adds a task for the crew; one of no hours is left out, and what would follow it follows what it followed.
func (s *sequence) work(step plan.Step, id string, name plan.Fact, e effort, after ...links) links {
	if e.hours <= 0 {
		return merge(after)
	}
	people := max(s.j.Site.People, 1)
	minutes := minute(math.Ceil(e.hours * 60 / float64(people)))
	return s.add(plan.Task{ID: id, Name: name, Step: step, Hours: round(e.hours), Basis: e.basis, Source: e.source}, node{kind: work, minutes: max(minutes, 1)}, after)
}

// wait adds a wait of the clock; one whose end nobody can promise holds back every date behind it.
func (s *sequence) wait(step plan.Step, id string, name plan.Fact, hours float64, promised bool, basis, source plan.Fact, after ...links) links {
	return s.add(plan.Task{ID: id, Name: name, Step: step, Hours: round(hours), Basis: basis, Source: source},
		node{kind: wait, minutes: atLeastOne(hours), unknown: !promised}, after)
}

// inspect adds a wait for somebody from outside, in workdays.
func (s *sequence) inspect(id string, name, basis plan.Fact, after ...links) links {
	minutes := minute(visitDays.Of(s.j) * float64(newCalendar(s.j.Site).day))
	return s.add(plan.Task{ID: id, Name: name, Step: plan.InspectStep, Hours: round(float64(minutes) / 60), Basis: basis, Source: cite(visitDays)},
		node{kind: inspect, minutes: max(minutes, 1)}, after)
}

func (s *sequence) add(t plan.Task, n node, after []links) links {
	t.Kind, t.Room, t.Surface, t.Product, t.Pieces, t.Meanwhile = string(n.kind), s.in, s.on, s.of, s.up, []string{}
	if t.Trade = s.trade; t.Trade == "" {
		t.Trade = t.Step.Trade()
	}
	if t.Pieces == nil {
		t.Pieces = []string{}
	}
	t.ID = s.unique(t.ID)
	n.after = merge(after)
	t.After = s.names(n.after)
	s.tasks, s.nodes = append(s.tasks, t), append(s.nodes, n)
	s.index[t.ID] = len(s.tasks) - 1
	return links{len(s.tasks) - 1}
}

// merge is every link once, in the order of the trade.
func merge(sets []links) links {
	all := slices.Concat(sets...)
	slices.Sort(all)
	return slices.Compact(all)
}

// unique keeps ids apart where a surface has two courses of one number.
func (s *sequence) unique(id string) string {
	for name, n := id, 2; ; n++ {
		if _, taken := s.index[name]; !taken {
			return name
		}
		name = id + "-" + strconv.Itoa(n)
	}
}

// markDone ticks off what the project says is done, and gives the minute from which the rest can go on: the day
// after the last tick. A tick without a day counts as done with the last one that has one, or before the job began.
func (s *sequence) markDone(c calendar) (start minute) {
	var undated []int
	for _, d := range s.j.Progress {
		i, ok := s.index[d.Task]
		if !ok {
			continue
		}
		n := &s.nodes[i]
		n.done, s.tasks[i].Actual = true, d.Hours
		if d.On == (job.Date{}) {
			undated = append(undated, i)
			continue
		}
		n.doneAt = c.on(d.On) + c.start + c.day
		s.tasks[i].DoneOn = fmt.Sprintf("%04d-%02d-%02d", d.On.Year, d.On.Month, d.On.Day)
		start = max(start, n.doneAt)
	}
	for _, i := range undated {
		s.nodes[i].doneAt = max(start, c.start)
	}
	for i := range s.nodes {
		s.nodes[i].visit = start
	}
	return start
}
