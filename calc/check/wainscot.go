package check

import (
	"seamwright/calc/length"
	"seamwright/calc/plan"
)

// wainscotHeight finds lower zones whose height is that of whole sheets, so that all of them lose a strip to the floor gap:
// 48 in of wainscot take 47 1/2 in of a 48 in sheet, 48 1/2 in the whole of it.
func (s *site) wainscotHeight() (found []finding) {
	for _, l := range s.layers() {
		if l.surface.Wall == nil || l.asked.Product == nil || l.asked.FloorGap <= 0 || l.asked.Layer > 1 {
			continue
		}
		zones := l.surface.Wall.Lining
		if l.asked.Index > len(zones) || zones[l.asked.Index-1].To == 0 {
			continue
		}
		if sheet, n, ok := l.wholeSheets(); ok {
			to := zones[l.asked.Index-1].To + sheet*n + l.asked.FloorGap - l.asked.Outline.Bounds().H
			found = append(found, finding{where: l.surface.ID, at: l.asked.Outline[0], says: plan.Tell("check.wainscot-height", "to", to.Exact(s.imperial))})
		}
	}
	return found
}

// wholeSheets tells of which sheet side, and how many of them, a zone from the floor up is just so high that the gap at the
// floor costs a rip: what is left of the last sheet is no more than the gap. Upright sheets count by their length.
func (l layer) wholeSheets() (sheet, n length.Length, ok bool) {
	high := l.asked.Outline.Bounds().H
	for _, z := range l.asked.Product.Sizes {
		side := z.Width
		if !l.coursesLevel() {
			side = z.Length
		}
		if side <= 0 {
			continue
		}
		count := (high + side - 1) / side
		if lost := count*side - (high - l.asked.FloorGap); lost > 0 && lost <= l.asked.FloorGap && (l.coursesLevel() || count == 1) {
			return side, count, true
		}
	}
	return 0, 0, false
}
