// Package check holds the finished plan against the rule book. Each rule is one small value: its id, what it
// asks, how grave a breach is, where the rule comes from, and how a breach is found. The layout search obeys the
// same rules, but nothing here trusts it: every finding is read from the plan and the survey alone. A check is a
// help for the person who builds; it never stands in for the local code or a licensed person.
package check

import (
	"cmp"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// Rule is one rule of the book.
type Rule struct {
	ID     string
	Asks   string
	Level  plan.Level // of a breach, where the finding does not say otherwise
	Source plan.Fact
	find   func(*site) []finding
	looks  scope
}

// scope is what a rule must look at: one room at a time, or the building with all that is planned for it.
type scope int

const (
	room scope = iota
	building
)

// finding is one breach of a rule.
type finding struct {
	where  string
	at     shape.Point
	says   plan.Fact
	level  plan.Level // "" for the rule's own
	source plan.Fact  // none for the rule's own
}

// site is everything that a rule can look at.
type site struct {
	j        *job.Job
	b        *survey.Building
	p        *plan.Plan
	imperial bool
}

// Rules is the rule book in the order in which findings are shown.
func Rules() []Rule {
	return slices.Concat(coverRules, seamRules, pieceRules, supportRules, spanRules, boxRules, separationRules, fireRules, siteRules)
}

// Room is what the book finds in one room by itself: breaches rule by rule, and what to look at before covering.
type Room struct {
	found  [][]plan.Check
	before []plan.Look
}

// OfRoom holds a room against the rules that look at one room at a time; building and plan hold its surfaces alone.
func OfRoom(j *job.Job, b *survey.Building, p *plan.Plan) Room {
	s := newSite(j, b, p)
	r := Room{before: s.before()}
	for _, rule := range Rules() {
		var found []plan.Check
		if rule.looks == room {
			found = rule.breaches(s)
		}
		r.found = append(r.found, found)
	}
	return r
}

// Check adds the findings to the plan, gravest first, then in the order of the book and of the building, and lists what
// to look at before covering.
func Check(j *job.Job, b *survey.Building, p *plan.Plan) { Join(j, b, p, []Room{OfRoom(j, b, p)}) }

// Join is Check with what was found room by room already.
func Join(j *job.Job, b *survey.Building, p *plan.Plan, rooms []Room) {
	s := newSite(j, b, p)
	looks, found := 0, 0
	for _, r := range rooms {
		looks += len(r.before)
		for _, f := range r.found {
			found += len(f)
		}
	}
	p.Before, p.Checks = make([]plan.Look, 0, looks), slices.Grow(p.Checks, found)
	for _, r := range rooms {
		p.Before = append(p.Before, r.before...)
	}
	for i, rule := range Rules() {
		if rule.looks == building {
			p.Checks = append(p.Checks, rule.breaches(s)...)
			continue
		}
		for _, r := range rooms {
			p.Checks = append(p.Checks, r.found[i]...)
		}
	}
	slices.SortStableFunc(p.Checks, func(a, b plan.Check) int { return cmp.Compare(gravity(a.Level), gravity(b.Level)) })
}

func newSite(j *job.Job, b *survey.Building, p *plan.Plan) *site {
	return &site{j: j, b: b, p: p, imperial: j.Units != job.Metric}
}

// breaches are the findings of one rule.
func (r Rule) breaches(s *site) (found []plan.Check) {
	for _, f := range r.find(s) {
		level := f.level
		if level == "" {
			level = r.Level
		}
		source := f.source
		if source.None() {
			source = r.Source
		}
		found = append(found, plan.Check{Rule: r.ID, Level: level, Where: f.where, At: f.at, Says: f.says, Source: source})
	}
	return found
}

func gravity(l plan.Level) int {
	switch l {
	case plan.Error:
		return 0
	case plan.Caution:
		return 1
	}
	return 2
}

// layer is one layer of one zone: what was surveyed, and what was planned for it.
type layer struct {
	surface *survey.Surface
	asked   *survey.Zone
	planned *plan.Zone
}

// layers lists every layer of the building that has been planned.
func (s *site) layers() []layer {
	n := 0
	for _, surface := range s.b.Surfaces {
		n += len(surface.Zones)
	}
	all := make([]layer, 0, n)
	for i, surface := range s.b.Surfaces {
		for k, z := range surface.Zones {
			all = append(all, layer{surface, z, &s.p.Surfaces[i].Zones[k]})
		}
	}
	return all
}

func (l layer) has(d job.Duty) bool { return slices.Contains(duties(l.surface), d) }

func duties(s *survey.Surface) []job.Duty {
	if s.Wall != nil {
		return s.Wall.Duty
	}
	return s.Ceiling.Duty
}

func framing(s *survey.Surface) job.Framing {
	if s.Wall != nil {
		return s.Wall.Framing
	}
	return s.Ceiling.Framing
}

func linings(s *survey.Surface) []job.Zone {
	if s.Wall != nil {
		return s.Wall.Lining
	}
	return s.Ceiling.Lining
}

func insulation(s *survey.Surface) job.Insulation {
	if s.Wall != nil {
		return s.Wall.Insulation
	}
	return s.Ceiling.Insulation
}

// isOpen says whether a zone of a lining is left uncovered.
func isOpen(z job.Zone) bool { return len(z.Layers) == 0 || z.Layers[0] == job.Open }
