package ui

import (
	"errors"
	"sort"
	"strings"

	"seamwright/calc/shape"
)

// Measured floor levels are written in one field: place along the wall and height, one pair after another.

const levelExample = `0: 0, 12': 3/8", 24': 1/4"`

// levelsWords writes measured levels as their field shows them.
func (w *Window) levelsWords(floor []shape.Point) string {
	parts := make([]string, len(floor))
	for i, p := range floor {
		parts[i] = p.X.Exact(w.imperial()) + ": " + p.Y.Exact(w.imperial())
	}
	return strings.Join(parts, ", ")
}

// parseLevels reads what levelsWords writes; an empty field means that nothing was measured.
func (w *Window) parseLevels(s string) ([]shape.Point, error) {
	var floor []shape.Point
	for _, pair := range strings.FieldsFunc(s, func(r rune) bool { return r == ',' || r == ';' }) {
		if strings.TrimSpace(pair) == "" {
			continue
		}
		at, level, ok := strings.Cut(pair, ":")
		if !ok {
			return nil, errors.New("a level is a place along the wall and a height, like " + levelExample)
		}
		x, err := w.parseLength(at)
		if err != nil {
			return nil, err
		}
		y, err := w.parseLength(level)
		if err != nil {
			return nil, err
		}
		floor = append(floor, shape.Point{X: x, Y: y})
	}
	sort.SliceStable(floor, func(i, j int) bool { return floor[i].X < floor[j].X })
	if len(floor) == 1 {
		return nil, errors.New("one level says nothing yet: give at least two, like " + levelExample)
	}
	return floor, nil
}
