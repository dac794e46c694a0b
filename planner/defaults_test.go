package planner

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/job"
	"seamwright/calc/length"
)

// A wainscot all round is written once: every wall takes the zones that lie between its curb and its head, the ceiling the
// uppermost one, and a wall with a lining of its own none of them.
func TestDefaultLiningWithZones(t *testing.T) {
	d, err := Parse("wainscot", []byte(`seamwright: 1
rooms:
  - id: shed
    height: 8'
    corners: [[0, 0], [12', 0], [12', 10'], [0, 10']]
    ceiling: {}
    walls:
      - {side: 2, top: [[0, 3'], [10', 3']]}
      - {side: 3, base: 50"}
      - {side: 4, lining: [{product: open}]}
defaults: {lining: [{product: ply-18, to: 4'}, {product: gyp-12}], finish: 3}
`))
	require.NoError(t, err)
	type zone struct {
		product string
		to      length.Length
	}
	of := func(zones []job.Zone) (list []zone) {
		for _, z := range zones {
			list = append(list, zone{z.Layers[0], z.To})
		}
		return list
	}
	r := d.Job().Rooms[0]
	require.Equal(t, []zone{{"ply-18", 4 * length.Foot}, {"gyp-12", 0}}, of(r.Walls[0].Lining))
	require.Equal(t, []zone{{"ply-18", 0}}, of(r.Walls[1].Lining), "lower than the wainscot")
	require.Equal(t, []zone{{"gyp-12", 0}}, of(r.Walls[2].Lining), "its curb is higher than the wainscot")
	require.Equal(t, []zone{{job.Open, 0}}, of(r.Walls[3].Lining))
	require.Equal(t, []zone{{"gyp-12", 0}}, of(r.Ceiling.Lining))
	require.Equal(t, 3, r.Walls[0].Lining[1].Finish)
}
