package ui

import (
	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/planner"
	"seamwright/scene/draft"
)

// Change says what of the model is new, so that a view redraws only what it shows.
type Change uint

// What can be new.
const (
	DocumentChanged Change = 1 << iota // the project: drawing, linings, prices, site
	PlanChanged                        // an answer has arrived
	SelectionChanged
	HandChanged    // another finish, tool or preview
	ViewChanged    // tabs, toggles, colours
	EverythingElse = ^Change(0)
)

// Model is the state of the window without a single widget: the document, the answer that stands, what is picked,
// and the finish in hand. All of it is used on the window's goroutine only; the calculation runs elsewhere and hands
// its results in through post.
type Model struct {
	Doc *planner.Document
	// Plan is the last answer, nil before the first one. It may be older than the document: Stale says so.
	Plan  *plan.Plan
	Stale bool
	// Fault is why the calculation gave no answer.
	Fault error
	// Before is the answer that stood before the last change: what the ledger compares with. It was found with the effort
	// of Plan, so that what is compared is the change and not the search.
	Before *plan.Plan

	// Selected is what is picked, in every view at once.
	Selected draft.Target
	Finish   []string // layers in hand, nil: none
	Preview  *Preview

	post      func(func()) // runs a function on the window's goroutine
	listeners []func(Change)
	prompt    planner.Calculate // for an answer within a frame; nil: none
	full      planner.Calculate // for the answer to keep
	first     *plan.Plan        // the prompt answer to the job that the engine was asked about, nil before it
	was       [2]*plan.Plan     // the answers that stood before the last change: prompt and full
	found     []func()          // what waits for the full answer
	engine    *planner.Engine
	trial     *planner.Engine
	asked     uint64 // revision that the engine was asked about
	shown     string // alternative that the engine was asked about
	waits     uint64 // generation of the answer that is waited for; an older one that still comes in is dropped
	flying    bool   // an answer is under way
	stopped   bool   // the user wants no better answer than the one that stands
	gesture   bool   // a drag is under way: one undo step, one comparison
}

// NewModel makes the state for a document. Post must run its argument on the goroutine that draws the window.
func NewModel(doc *planner.Document, prompt, full planner.Calculate, post func(func())) *Model {
	m := &Model{Doc: doc, prompt: prompt, full: full, post: post}
	m.engine = planner.NewEngine(func(r planner.Result) { post(func() { m.answer(r) }) })
	m.trial = planner.NewEngine(func(r planner.Result) { post(func() { m.tried(r) }) })
	m.recalculate()
	return m
}

// Listen calls f after every change.
func (m *Model) Listen(f func(Change)) { m.listeners = append(m.listeners, f) }

// Announce tells every listener what is new.
func (m *Model) Announce(c Change) {
	for _, f := range m.listeners {
		f(c)
	}
}

// Close ends the calculation.
func (m *Model) Close() {
	m.engine.Close()
	m.trial.Close()
}

// Wait returns when nothing is being calculated; for tests, which have no window to keep alive.
func (m *Model) Wait() {
	m.engine.Wait()
	m.trial.Wait()
}

// Show replaces the document: a file was opened, or a new project begun.
func (m *Model) Show(doc *planner.Document) {
	m.Doc = doc
	m.Plan, m.Before, m.Fault, m.found = nil, nil, nil, nil
	m.was = [2]*plan.Plan{}
	m.Selected, m.Finish, m.Preview = draft.Target{}, nil, nil
	m.gesture = false
	m.asked = ^uint64(0)
	m.recalculate()
	m.Announce(EverythingElse)
}

// Do makes an edit. On an error nothing has changed.
func (m *Model) Do(e planner.Edit) error {
	revision := m.Doc.Revision()
	if err := m.Doc.Apply(e); err != nil {
		return err
	}
	m.edited(revision)
	return nil
}

// DoMerged makes an edit that joins the one before under the same key into one undo step.
func (m *Model) DoMerged(key string, e planner.Edit) error {
	revision := m.Doc.Revision()
	if err := m.Doc.ApplyMerged(key, e); err != nil {
		return err
	}
	m.edited(revision)
	return nil
}

// Begin starts a gesture: what is done until End is one undo step.
func (m *Model) Begin(label string) {
	m.Doc.BeginGroup(label)
	m.compareFromHere()
	m.gesture = true
}

// End ends the gesture.
func (m *Model) End() {
	m.Doc.EndGroup()
	m.gesture = false
	if m.Stale {
		m.recalculate()
	} else {
		m.goOn()
	}
	m.Announce(DocumentChanged)
}

// Instead does edits in place of what the gesture has done so far. On an error the gesture has done nothing.
func (m *Model) Instead(label string, edits ...planner.Edit) error {
	revision := m.Doc.Revision()
	m.Doc.CancelGroup()
	m.Doc.BeginGroup(label)
	var fault error
	for _, e := range edits {
		if fault = m.Doc.Apply(e); fault != nil {
			m.Doc.CancelGroup()
			m.Doc.BeginGroup(label)
			break
		}
	}
	m.edited(revision)
	return fault
}

// Cancel ends the gesture and takes back what it did.
func (m *Model) Cancel() {
	revision := m.Doc.Revision()
	m.Doc.CancelGroup()
	m.gesture = false
	m.edited(revision)
}

// Undo takes back the last step.
func (m *Model) Undo() bool { return m.step(m.Doc.Undo) }

// Redo does the last undone step again.
func (m *Model) Redo() bool { return m.step(m.Doc.Redo) }

func (m *Model) step(move func() bool) bool {
	revision := m.Doc.Revision()
	if !move() {
		return false
	}
	m.gesture = false
	m.edited(revision)
	return true
}

// edited follows a change of the document: the answer that stood is what the next one is compared with.
func (m *Model) edited(before uint64) {
	if m.Doc.Revision() == before {
		return
	}
	if !m.gesture {
		m.compareFromHere()
	}
	m.dropLostSelection()
	m.recalculate()
	m.Announce(DocumentChanged)
}

// compareFromHere keeps the answer that stands as what changes are counted from, unless it is still being worked out:
// then the older one stays, so that two quick edits are compared with what the user last saw at rest.
func (m *Model) compareFromHere() {
	if m.settled() {
		m.was = [2]*plan.Plan{m.first, m.Plan}
		m.Before = m.Plan
	}
}

// settled tells whether the full answer to the document as it is stands.
func (m *Model) settled() bool { return !m.Stale && m.Plan != nil && !m.Plan.Summary.Searching }

// searching tells whether a better answer than the one that stands is being looked for.
func (m *Model) searching() bool {
	return !m.stopped && !m.Stale && m.Fault == nil && m.Plan != nil && m.Plan.Summary.Searching
}

// StopSearch keeps the prompt answer that stands: a lawful plan with its bound. What waited for a better one is not done.
func (m *Model) StopSearch() {
	if !m.searching() {
		return
	}
	m.engine.Drop()
	m.waits, m.flying, m.stopped, m.found = 0, false, true, nil // no answer is of generation 0
	m.Announce(PlanChanged)
}

// SearchOn looks for the better answer after all.
func (m *Model) SearchOn() {
	if m.stopped {
		m.stopped = false
		m.goOn()
		m.Announce(PlanChanged)
	}
}

// WhenFound runs f on the full answer: at once where it stands, else as soon as it does.
func (m *Model) WhenFound(f func()) {
	if m.settled() {
		f()
		return
	}
	m.found = append(m.found, f)
	m.SearchOn()
}

// Activate shows an alternative, "" the project as drawn.
func (m *Model) Activate(name string) error {
	if err := m.Doc.Activate(name); err != nil {
		return err
	}
	m.Before, m.was = nil, [2]*plan.Plan{}
	m.recalculate()
	m.Announce(DocumentChanged | ViewChanged)
	return nil
}

// Pick selects something; every view shows it.
func (m *Model) Pick(t draft.Target) {
	if t.Same(m.Selected) {
		return
	}
	m.Selected = t
	m.Announce(SelectionChanged)
}

// Hold takes a finish in hand, nil puts it back.
func (m *Model) Hold(layers []string) {
	m.Finish = layers
	m.dropPreview()
	m.Announce(HandChanged)
}

// Refreshed follows a change that the document made by itself: its file was read again.
func (m *Model) Refreshed() {
	m.compareFromHere()
	m.dropLostSelection()
	m.recalculate()
	m.Announce(EverythingElse)
}

// recalculate asks for a new answer where document or alternative are new. The old one stays until it comes.
func (m *Model) recalculate() {
	if m.asked == m.Doc.Revision() && m.shown == m.Doc.Active() && m.Plan != nil {
		return
	}
	m.Stale = true
	if m.gesture && m.flying { // while the hand moves, let the answer under way arrive: cancelling it each time would show none
		return
	}
	m.asked, m.shown = m.Doc.Revision(), m.Doc.Active()
	m.flying, m.stopped, m.first = true, false, nil
	var efforts []planner.Calculate
	if m.prompt != nil {
		efforts = append(efforts, m.prompt)
	}
	if m.prompt == nil || !m.gesture { // while the hand moves, prompt answers are all that it could wait for
		efforts = append(efforts, m.full)
	}
	m.waits = m.engine.Ask(alone(m.Doc.Job()), efforts...)
}

// answer takes a finished calculation in.
func (m *Model) answer(r planner.Result) {
	if r.Generation != m.waits {
		return
	}
	if len(r.Job.Alternatives) > 0 { // the same answer again, with its alternatives' numbers
		if r.Err == nil && m.settled() {
			m.Plan.Alternatives = r.Plan.Alternatives
			m.Announce(PlanChanged)
		}
		return
	}
	m.flying = false
	m.Stale = m.asked != m.Doc.Revision()
	m.Fault = m.Doc.Placed(r.Err)
	if r.Err == nil {
		m.take(r.Plan)
	} else {
		m.found = nil // it will not come
	}
	m.Announce(PlanChanged)
	if m.settled() {
		found := m.found
		m.found = nil
		for _, f := range found {
			f()
		}
	}
	switch {
	case m.Stale:
		m.recalculate()
	case r.Last:
		m.goOn()
	}
}

// take puts a new answer in the place of the one that stands. Until the numbers of the alternatives and of other airs are
// worked out anew, the last known stay.
func (m *Model) take(p *plan.Plan) {
	if m.Plan != nil && len(p.Alternatives) == 0 {
		p.Alternatives = m.Plan.Alternatives
	}
	if m.Plan != nil && p.Summary.Searching {
		p.WhatIf = m.Plan.WhatIf
	}
	m.Plan = p
	if p.Summary.Searching {
		m.first, m.Before = p, m.was[0]
		return
	}
	m.Before = m.was[1]
	m.weigh()
}

// goOn has what is still missing worked out once the hand rests: the full answer, then the numbers of the other
// alternatives.
func (m *Model) goOn() {
	switch j := m.Doc.Job(); {
	case m.gesture || m.stopped || m.Stale || m.Fault != nil || m.Plan == nil:
	case m.Plan.Summary.Searching:
		m.waits = m.engine.Ask(alone(j), m.full)
	case len(j.Alternatives) > 0:
		m.waits = m.engine.Ask(j, m.full)
	}
}

// alone is the job without its alternatives: what is on the screen is worked out first.
func alone(j *job.Job) *job.Job {
	if len(j.Alternatives) == 0 {
		return j
	}
	one := *j
	one.Alternatives = nil
	return &one
}

// Surface is a surface of the answer by id, or nil.
func (m *Model) Surface(id string) *plan.Surface {
	if m.Plan == nil {
		return nil
	}
	for i := range m.Plan.Surfaces {
		if m.Plan.Surfaces[i].ID == id {
			return &m.Plan.Surfaces[i]
		}
	}
	return nil
}

// dropLostSelection lets go of what an edit has taken away. A seam or panel goes with every edit: the next answer may
// hang them elsewhere.
func (m *Model) dropLostSelection() {
	t := m.Selected
	if t.Kind == draft.Nothing {
		return
	}
	j := m.Doc.Job()
	room := findRoom(j, t.Room)
	if room == nil || t.Corner >= len(room.Corners) {
		m.Selected = draft.Target{}
		return
	}
	wall, ceiling := findSurface(j, t.Surface)
	if t.Surface != "" && wall == nil && ceiling == nil {
		m.Selected = draft.Target{Kind: draft.OnRoom, Room: t.Room}
		return
	}
	whole := draft.Target{Kind: draft.OnSurface, Room: t.Room, Surface: t.Surface}
	switch t.Kind {
	case draft.OnOpening:
		if t.Index >= len(openingsOf(wall, ceiling)) {
			m.Selected = whole
		}
	case draft.OnBox:
		if t.Index >= len(boxesOf(wall, ceiling)) {
			m.Selected = whole
		}
	case draft.OnSeam, draft.OnPanel, draft.OnPin, draft.OnCheck:
		m.Selected = whole
	}
}

// bounds is the lower left and upper right corner of the bounding box.
func bounds(p []shape.Point) (low, high shape.Point) {
	for i, c := range p {
		if i == 0 {
			low, high = c, c
			continue
		}
		low = shape.Point{X: min(low.X, c.X), Y: min(low.Y, c.Y)}
		high = shape.Point{X: max(high.X, c.X), Y: max(high.Y, c.Y)}
	}
	return low, high
}
