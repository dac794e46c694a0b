package board

import "slices"

// everyScheme gives one zone after another each of its other schemes, and holds it there until the other zones have come to
// terms with it; then it may be changed again too. What is better than all before is kept: some schemes pay only
// together, and changes of one zone at a time never get there.
func (s *search) everyScheme(best value) value {
	open := s.zones[s.fixed:]
	cur, picks := make([]int, len(open)), make([][]int, len(open))
	for _, z := range open {
		for k := range z.schemes {
			if s.spent() {
				break
			}
			if k == z.cur || z.schemes[k].breaks > z.schemes[z.cur].breaks {
				continue
			}
			for i, o := range open {
				cur[i], picks[i] = o.cur, slices.Clone(o.pick)
			}
			s.turn(z, k, slices.Clone(z.schemes[k].starts[0]))
			v := s.polish(s.polish(s.evaluate(), z), nil)
			if v.compare(best) < 0 {
				best = v
				continue
			}
			for i, o := range open {
				s.turn(o, cur[i], picks[i])
			}
		}
	}
	return s.evaluate()
}
