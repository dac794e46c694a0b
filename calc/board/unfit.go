package board

import (
	"errors"

	"seamwright/calc/guard"
	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/length"
	"seamwright/calc/nest"
)

// refused says of pieces that could not be cut which of them no sheet can give, with its surface and zone: the user may
// choose other sheets. Where every one could be cut, it is the program that is at fault.
func (d *Draft) refused(err error, p *job.Product, sizes []layout.Size, where [][2]int) error {
	var bad *nest.ProblemError
	if !errors.As(err, &bad) {
		return err
	}
	for n, z := range sizes {
		one := problem(p, d.job.Stock, false)
		one.Items = []nest.Item{{W: int64(z.L), H: int64(z.W), N: 1, Turn: z.Turn, Tapers: z.Tapers}}
		if one.Check() == nil {
			continue
		}
		zone := d.zones[where[n][0]]
		edges := ""
		if z.Tapers > 0 {
			edges = " with a tapered edge"
		}
		show := func(l length.Length) string { return l.Show(d.job.Units != job.Metric) }
		return job.Refuse(zone.Surface.ID, "choose another product here, or add a larger size to its sizes in the catalog",
			"a piece of %s, %s by %s%s, fits none of its sheets", p.ID, show(z.L), show(z.W), edges).At("lining", zone.Index)
	}
	return guard.Caught(err)
}
