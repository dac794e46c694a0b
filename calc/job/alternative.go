package job

import "slices"

// With is the job with an alternative's linings in place. The receiver is not changed; what the alternative does
// not touch is shared.
func (j *Job) With(a Alternative) *Job {
	out := *j
	out.Rooms = slices.Clone(j.Rooms)
	for i := range out.Rooms {
		r := &out.Rooms[i]
		r.Walls = slices.Clone(r.Walls)
		for k := range r.Walls {
			if lining, ok := a.lining(r.ID + "/" + r.Walls[k].ID); ok {
				r.Walls[k].Lining = lining
			}
		}
		if r.Ceiling == nil {
			continue
		}
		if lining, ok := a.lining(r.ID + "/ceiling"); ok {
			ceiling := *r.Ceiling
			ceiling.Lining = lining
			r.Ceiling = &ceiling
		}
	}
	return &out
}

// lining is what the alternative gives a surface; a later change wins over an earlier one.
func (a Alternative) lining(surface string) (lining []Zone, ok bool) {
	for _, change := range a.Set {
		if slices.Contains(change.Surfaces, surface) {
			lining, ok = change.Lining, true
		}
	}
	return lining, ok
}
