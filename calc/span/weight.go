package span

import (
	"seamwright/calc/job"
	"seamwright/calc/length"
)

// What insulation weighs, in lb/ft³; from memory. Batts lie on the board that closes their bays.
var (
	battWeight = job.Figure{ID: "batt-weight", Value: 0.75, Unit: "lb/ft3", Source: "makers' data", Status: job.Memory}
	woolWeight = job.Figure{ID: "mineral-wool-weight", Value: 2.5, Unit: "lb/ft3", Source: "makers' data", Status: job.Memory}
	foamWeight = job.Figure{ID: "foam-weight", Value: 2, Unit: "lb/ft3", Source: "makers' data", Status: job.Memory}
)

// Figures are the adjustable numbers of the span table.
var Figures = []job.Figure{battWeight, woolWeight, foamWeight}

// Weight is what insulation as deep as its members weighs on the board below, in psf.
func Weight(j *job.Job, insulation job.Insulation, depth length.Length) float64 {
	feet := depth.In() / 12
	switch insulation {
	case job.UnfacedBatt, job.KraftBatt:
		return battWeight.Of(j) * feet
	case job.MineralWool:
		return woolWeight.Of(j) * feet
	case job.FoamPlastic:
		return foamWeight.Of(j) * feet
	}
	return 0
}
