package ui

import (
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/money"
	"seamwright/calc/plan"
	"seamwright/planner"
)

// Preview is what the finish in hand would do to a surface under the pointer.
type Preview struct {
	Surface string
	Zone    int
	Sheets  int
	Cost    money.Money
	Days    int
	Ready   bool
	found   *plan.Plan // the full answer with the finish there, nil before it
}

// Try works out what the finish in hand would do to a surface; "" ends the trial.
func (m *Model) Try(surface string, zone int) {
	if m.Finish == nil || surface == "" {
		if m.Preview != nil {
			m.dropPreview()
			m.Announce(HandChanged)
		}
		return
	}
	if m.Preview != nil && m.Preview.Surface == surface && m.Preview.Zone == zone {
		return
	}
	m.Preview = &Preview{Surface: surface, Zone: zone}
	m.trial.Ask(withLining(m.Doc.Job(), surface, m.touched(surface, zone)), m.full)
	m.Announce(HandChanged)
}

func (m *Model) dropPreview() {
	if m.Preview != nil && !m.Preview.Ready {
		m.trial.Drop()
	}
	m.Preview = nil
}

// tried takes a finished trial in, unless the pointer has moved on.
func (m *Model) tried(r planner.Result) {
	if m.Preview == nil || r.Err != nil || r.Plan == nil {
		return
	}
	m.Preview.found = r.Plan
	m.weigh()
}

// weigh compares the trial with the answer that stands, once both are found in full.
func (m *Model) weigh() {
	if m.Preview == nil || m.Preview.found == nil || m.Plan == nil || m.Plan.Summary.Searching {
		return
	}
	p := m.Preview
	p.Sheets = p.found.Summary.SheetsBought - m.Plan.Summary.SheetsBought
	p.Cost = p.found.Cost.Total - m.Plan.Cost.Total
	p.Days = p.found.Summary.Days - m.Plan.Summary.Days
	p.Ready = true
	m.Announce(HandChanged)
}

// Touch gives a surface the finish in hand; where it is divided by height and a zone (from 1) is named, only that.
func (m *Model) Touch(surface string, zone int) error {
	if m.Finish == nil {
		return nil
	}
	m.dropPreview()
	return m.Do(m.Doc.Lining([]string{surfaceName(surface)}, m.touched(surface, zone)))
}

// touched is the lining that a touch leaves. Run, pattern and finish level of what was there stay.
func (m *Model) touched(surface string, zone int) []job.Zone {
	wall, ceiling := findSurface(m.Doc.Job(), surface)
	was := liningOf(wall, ceiling)
	if len(was) > 1 && zone >= 1 && zone <= len(was) {
		zones := slices.Clone(was)
		zones[zone-1] = withLayers(zones[zone-1], m.Finish)
		return zones
	}
	if len(was) == 1 {
		return []job.Zone{withLayers(was[0], m.Finish)}
	}
	return []job.Zone{zoneOf(m.Finish)}
}
