package board

import (
	"math"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/survey"
	"seamwright/calc/worth"
)

// charge is money and hours in units of the search.
type charge struct{ money, hours int64 }

// jointCharge is what a nanometre of joint comes to.
type jointCharge struct{ money, hours float64 }

func chargeOf(x worth.Joint) jointCharge { return jointCharge{x.Money * costUnit, x.Hours * hourUnit} }

func (c jointCharge) of(l length.Length) charge {
	return charge{int64(math.Round(float64(l) * c.money)), int64(math.Round(float64(l) * c.hours))}
}

// jointCharges are those of one layer of a zone.
type jointCharges struct{ tapered, butt, mixed jointCharge }

// charges are what the joints of a zone are charged.
func charges(b *worth.Book, z *survey.Zone) jointCharges {
	x := b.Face(z.Product.Kind == job.Gypsum, z.Layer == z.Layers, z.Finish)
	return jointCharges{chargeOf(x.Tapered), chargeOf(x.Butt), chargeOf(x.Mixed)}
}

// of charges the long joints of a scheme.
func (c *jointCharges) of(l jointLengths) charge {
	t, b, m := c.tapered.of(l.tapered), c.butt.of(l.butt), c.mixed.of(l.mixed)
	return charge{t.money + b.money + m.money, t.hours + b.hours + m.hours}
}
