package scene

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The file read back by hand: chunks add up, every sheet has its node, positions lie in their stated boxes, normals
// are units, and triangles run counter-clockwise about them.
func TestGLBReadBack(t *testing.T) {
	s := Build(handPlan(), handJob(), Options{})
	var out, again bytes.Buffer
	require.NoError(t, GLB(&out, s))
	require.NoError(t, GLB(&again, s))
	require.Equal(t, out.Bytes(), again.Bytes())
	if name := os.Getenv("SEAMWRIGHT_GLB"); name != "" { // for a validator
		require.NoError(t, os.WriteFile(name, out.Bytes(), 0o644))
	}
	b := out.Bytes()
	word := func(at int) int { return int(binary.LittleEndian.Uint32(b[at:])) }
	require.Equal(t, "glTF", string(b[:4]))
	require.Equal(t, len(b), word(8))
	text := word(12)
	require.Zero(t, text%4)
	bin := b[20+text+8:]
	require.Equal(t, len(bin), word(20+text))
	var doc gltf
	require.NoError(t, json.Unmarshal(b[20:20+text], &doc))
	require.Equal(t, len(bin), doc.Buffers[0].Length)
	vectors := func(accessor int) (out [][3]float64) {
		a := doc.Accessors[accessor]
		v := doc.BufferViews[a.View]
		for i := range a.Count {
			var p [3]float64
			for k := range p {
				p[k] = float64(math.Float32frombits(binary.LittleEndian.Uint32(bin[v.Offset+12*i+4*k:])))
			}
			out = append(out, p)
		}
		return
	}
	sheets, triangles := 0, 0
	for _, n := range doc.Nodes {
		if strings.Contains(n.Name, " of S") {
			sheets++
		}
	}
	panels := 0
	for _, q := range s.parts {
		panels += len(q.panels)
	}
	require.Equal(t, panels, sheets)
	for _, m := range doc.Meshes {
		for _, p := range m.Primitives {
			at, normal := vectors(p.Attributes["POSITION"]), vectors(p.Attributes["NORMAL"])
			box := doc.Accessors[p.Attributes["POSITION"]]
			for i, v := range at {
				for k := range v {
					require.True(t, v[k] >= float64(box.Min[k]) && v[k] <= float64(box.Max[k]))
				}
				n := normal[i]
				require.InDelta(t, 1, n[0]*n[0]+n[1]*n[1]+n[2]*n[2], 1e-5)
			}
			for i := 0; i < len(at); i += 3 {
				triangles++
				a, c, d, n := at[i], at[i+1], at[i+2], normal[i]
				u := [3]float64{c[0] - a[0], c[1] - a[1], c[2] - a[2]}
				w := [3]float64{d[0] - a[0], d[1] - a[1], d[2] - a[2]}
				facing := n[0]*(u[1]*w[2]-u[2]*w[1]) + n[1]*(u[2]*w[0]-u[0]*w[2]) + n[2]*(u[0]*w[1]-u[1]*w[0])
				require.Greater(t, facing, 0.0, m.Name)
			}
		}
	}
	require.Equal(t, s.Triangles(), triangles)
}
