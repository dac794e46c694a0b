package scene

import (
	"github.com/go-gl/mathgl/mgl64"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// look is what a surface's picture takes from the job rather than from the plan.
type look struct {
	products   map[string]productLook
	insulation job.Insulation
	boxes      []string   // kinds of the surface's boxes, where the job tells
	layers     int        // Options.Layers
	mitre      [2]float64 // metres by which the back of the framing runs past the left and right end, per metre of depth
}

// productLook is a product as it looks.
type productLook struct {
	material  uint16
	thickness length.Length
	wood      bool
}

// usual thickness where the product is not known, 1/2 in; only seen when the job is not given.
const usualThickness = 12_700_000 * length.Nanometre

// productOf finds how a product looks; one that the job does not know looks like board.
func productOf(j *job.Job, id string) productLook {
	l := productLook{thickness: usualThickness, material: matBoard}
	if j == nil {
		return l
	}
	p := j.Product(id)
	if p == nil {
		return l
	}
	l.thickness, l.wood = p.Thickness, p.Kind == job.WoodPanel
	switch {
	case l.wood && p.Strand:
		l.material = matStrand
	case l.wood:
		l.material = matPly
	case p.Moisture:
		l.material = matWet
	case p.FireType:
		l.material = matFire
	}
	return l
}

// lookOf gathers what the job says about a surface.
func (s *Scene) lookOf(surf *plan.Surface, mitres map[string][2]float64) *look {
	l := &look{products: map[string]productLook{}, layers: s.opt.Layers, mitre: mitres[surf.ID]}
	for i := range surf.Zones {
		id := surf.Zones[i].Product
		if _, ok := l.products[id]; !ok && id != job.Open {
			l.products[id] = productOf(s.job, id)
		}
	}
	if s.job != nil {
		for i := range s.job.Rooms {
			r := &s.job.Rooms[i]
			if r.ID != surf.Room {
				continue
			}
			if surf.Kind == plan.Ceiling && r.Ceiling != nil {
				l.insulation = r.Ceiling.Insulation
			}
			for k := range r.Walls {
				if r.ID+"/"+r.Walls[k].ID == surf.ID {
					l.insulation = r.Walls[k].Insulation
					for _, b := range r.Walls[k].Boxes {
						l.boxes = append(l.boxes, b.Kind)
					}
				}
			}
		}
	}
	return l
}

// mixer folds values into one number (multiply and fold, in the manner of FNV, on whole words).
type mixer uint64

func (m *mixer) word(v uint64) {
	x := (uint64(*m) ^ v) * 0x9E3779B97F4A7C15
	*m = mixer(x ^ x>>29)
}

func (m *mixer) text(s string) {
	m.word(uint64(len(s)))
	for i := 0; i < len(s); i++ {
		m.word(uint64(s[i]))
	}
}

func (m *mixer) polygon(p shape.Polygon) {
	m.word(uint64(len(p)))
	for _, v := range p {
		m.word(uint64(v.X))
		m.word(uint64(v.Y))
	}
}

func (m *mixer) vector(v mgl64.Vec3) {
	for _, c := range v {
		m.word(uint64(length.FromMM(c * 1e6)))
	}
}

// sign is a number that changes when anything changes that the surface's part is built from.
func (l *look) sign(s *plan.Surface) uint64 {
	m := mixer(1)
	m.text(string(s.Kind))
	m.polygon(s.Outline)
	for _, h := range s.Holes {
		m.polygon(h)
	}
	for _, o := range s.Openings {
		m.text(o.Kind)
		m.text(o.Return)
		m.word(uint64(o.Reveal))
		m.word(uint64(o.Casing))
		m.polygon(o.Outline)
	}
	for _, b := range s.Boxes {
		m.polygon(b)
	}
	m.text(s.Members.Axis)
	m.text(s.Members.Material)
	m.word(uint64(s.Members.Width))
	m.word(uint64(s.Members.Depth))
	for _, at := range s.Members.At {
		m.word(uint64(at))
	}
	for _, at := range s.Cripples {
		m.word(uint64(at))
	}
	for _, o := range s.Frame.Origin {
		m.word(uint64(o))
	}
	m.vector(s.Frame.X)
	m.vector(s.Frame.Y)
	m.text(string(l.insulation))
	m.word(uint64(s.BaseTrim.Foot))
	m.word(uint64(s.BaseTrim.Height))
	for _, r := range s.BaseTrim.Runs {
		m.word(uint64(r[0]))
		m.word(uint64(r[1]))
	}
	for _, k := range l.boxes {
		m.text(k)
	}
	m.word(uint64(l.layers))
	m.vector(mgl64.Vec3{l.mitre[0], l.mitre[1]})
	for i := range s.Zones {
		z := &s.Zones[i]
		m.word(uint64(z.Zone)<<32 | uint64(z.Layer))
		m.text(z.Product)
		m.text(z.Run)
		m.word(uint64(z.Depth))
		m.word(uint64(z.Finish)<<32 | uint64(z.Fasteners.Count))
		m.word(uint64(l.products[z.Product].thickness)<<8 | uint64(l.products[z.Product].material))
		m.polygon(z.Outline)
		for k := range z.Panels {
			m.text(z.Panels[k].ID)
			m.polygon(z.Panels[k].Outline)
			for _, h := range z.Panels[k].Holes {
				m.polygon(h)
			}
		}
		for k := range z.Joints {
			j := &z.Joints[k]
			m.text(string(j.Kind))
			m.polygon(shape.Polygon{j.From, j.To})
		}
	}
	return uint64(m)
}
