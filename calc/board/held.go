package board

import "slices"

// holding gives one zone after another each of its other schemes, and holds it there until the other zones have come to
// terms with it; then it may be changed again too. What is better than all before is kept: some schemes pay only
// together, and changes of one zone at a time never get there.
func (s *search) holding(best value) (value, error) {
	open := s.zones[s.fixed:]
	cur, picks := make([]int, len(open)), make([][]int, len(open))
	for _, z := range open {
		for k := range z.schemes {
			if k == z.cur || z.schemes[k].breaks > z.schemes[z.cur].breaks {
				continue
			}
			for i, o := range open {
				cur[i], picks[i] = o.cur, slices.Clone(o.pick)
			}
			s.turn(z, k, slices.Clone(z.schemes[k].starts[0]))
			v, err := s.polish(s.evaluate(), z)
			if err == nil {
				v, err = s.polish(v, nil)
			}
			if err != nil {
				return best, err
			}
			if v.compare(best) < 0 {
				best = v
				continue
			}
			for i, o := range open {
				s.turn(o, cur[i], picks[i])
			}
		}
	}
	return s.evaluate(), nil
}
