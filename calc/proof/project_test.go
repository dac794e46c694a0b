package proof

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"
)

// lengthOf reads a length as the format page writes it, in millimetres.
func lengthOf(s string) (float64, error) {
	s = strings.Replace(strings.TrimSpace(s), ",", ".", 1)
	if s == "0" {
		return 0, nil
	}
	if below, ok := strings.CutPrefix(s, "-"); ok {
		v, err := lengthOf(below)
		return -v, err
	}
	if m := metric.FindStringSubmatch(s); m != nil {
		v, err := strconv.ParseFloat(m[1], 64)
		return v * map[string]float64{"mm": 1, "cm": 10, "m": 1000, "in": 25.4, "ft": 304.8}[m[2]], err
	}
	m := feetInches.FindStringSubmatch(s)
	if m == nil || s == "" {
		return 0, fmt.Errorf("not a length: %q", s)
	}
	number := func(s string) float64 { v, _ := strconv.ParseFloat(s, 64); return v }
	in := 12*number(m[1]) + number(m[2])
	if m[4] != "" {
		in += number(m[3]) / number(m[4])
	}
	return in * 25.4, nil
}

var (
	metric     = regexp.MustCompile(`^([0-9.]+) *(mm|cm|m|in|ft)$`)
	feetInches = regexp.MustCompile(`^(?:([0-9.]+)' *)?(?:([0-9.]+)? *(?:([0-9]+)/([0-9]+))?")?$`)
)

// dist is a length in a project file.
type dist float64

func (d *dist) UnmarshalYAML(n *yaml.Node) error {
	v, err := lengthOf(n.Value)
	*d = dist(v)
	return err
}

// names is one name or a list of names.
type names []string

func (s *names) UnmarshalYAML(n *yaml.Node) error {
	if n.Kind == yaml.ScalarNode {
		*s = names{n.Value}
		return nil
	}
	return n.Decode((*[]string)(s))
}

type project struct {
	Name  string
	Units string
	Aim   string
	Site  struct {
		Tax      string
		Workdays []string
	}
	Rooms []struct {
		ID      string
		Height  dist
		Corners [][2]dist
		Ceiling *struct {
			Shape    yaml.Node
			Framing  framing
			Lining   []zoneAsked
			Openings []hatch
		}
		Walls []wallAsked
	}
	Defaults struct {
		Framing framing
		Lining  []zoneAsked
		Trim    dist
	}
	Stock []struct {
		Product string
		Size    [2]dist
		Edges   string
		Count   int
	}
	Rules struct {
		Stagger, Opening, Backing, Fit dist
		LeastPiece                     dist `yaml:"least_piece"`
		FloorGap                       dist `yaml:"floor_gap"`
		Cutouts, Rakes                 string
		BackBlocking                   bool `yaml:"back_blocking"`
	}
	Catalog []struct {
		ID    string
		Edges string
		Kerf  dist
		Sizes []struct {
			Size  [2]dist
			Price string
		}
	}
}

type hatch struct {
	ID       string
	At, Size [2]dist
}

type framing struct {
	Spacing, First, Member dist
	Along                  string
	Also, Without          []dist
}

type zoneAsked struct {
	Product names
	To      dist
	Run     names
	Pattern string
	Courses []dist
}

type wallAsked struct {
	Side    int
	ID      string
	Framing *framing
	Backing *struct {
		Product string
		Seams   [][4]dist
	}
	Duty     []string
	Base     dist
	Trim     dist
	Top      [][2]dist
	Bottom   [][2]dist
	Lining   []zoneAsked
	Openings []struct {
		ID, Kind                string
		At, Width, Height, Sill dist
		Reveal                  dist
		Return                  string
	}
	Boxes []struct {
		At, Up, Width, Height, Diameter dist
	}
	Pins []struct {
		Zone, Layer, Course int
		Seam                dist
		Edge                *dist
	}
}

func readProject(src []byte) (*project, error) {
	p := &project{}
	p.Rules.Stagger, p.Rules.Opening, p.Rules.Backing, p.Rules.Fit = 16*25.4, 6*25.4, 2*25.4, 25.4/8
	p.Rules.LeastPiece, p.Rules.FloorGap = 16*25.4, 25.4/2
	if err := yaml.Unmarshal(src, p); err != nil {
		return nil, err
	}
	usual := framing{Spacing: 16 * 25.4, Member: 1.5 * 25.4}
	if p.Units == "metric" {
		usual = framing{Spacing: 400, Member: 45}
	}
	if p.Defaults.Framing.Spacing == 0 {
		p.Defaults.Framing.Spacing = usual.Spacing
	}
	if p.Defaults.Framing.Member == 0 {
		p.Defaults.Framing.Member = usual.Member
	}
	return p, nil
}

// thickness of the shipped products in millimetres, from their names in the format page: 3/8, 1/2, 5/8 in boards,
// 15/32 and 23/32 in plywood (PS 1 performance categories), 7/16 in OSB.
var thickness = map[string]float64{"gyp-10": 25.4 * 3 / 8, "gyp-12": 12.7, "gyp-12c": 12.7, "gyp-12m": 12.7, "gyp-16x": 25.4 * 5 / 8,
	"gyp-16m": 25.4 * 5 / 8, "ply-12": 25.4 * 15 / 32, "ply-18": 25.4 * 23 / 32, "osb-11": 25.4 * 7 / 16, "gyp-12.5": 12.5, "gyp-15x": 15,
	"ply-18-metric": 18}

func isGypsum(product string) bool { return strings.HasPrefix(product, "gyp") }

// side is one wall as the file draws it: its width and its left end as seen from inside.
type side struct {
	left, right pt
	wall        wallAsked
	framing     framing
}

func (s side) width() float64 { return math.Hypot(s.right.x-s.left.x, s.right.y-s.left.y) }

// sides lists the walls of a room; a side that is not listed takes the defaults.
func (p *project) sides(room int) []side {
	r := p.Rooms[room]
	n := len(r.Corners)
	var outline poly
	for _, c := range r.Corners {
		outline = append(outline, pt{float64(c[0]), float64(c[1])})
	}
	all := make([]side, n)
	for i := range all {
		all[i] = side{left: outline[i], right: outline[(i+1)%n], framing: p.Defaults.Framing}
		if outline.area() > 0 {
			all[i].left, all[i].right = all[i].right, all[i].left
		}
		all[i].wall.Lining, all[i].wall.Trim = p.Defaults.Lining, p.Defaults.Trim
	}
	nameSides(all)
	for _, w := range r.Walls {
		s := &all[w.Side-1]
		if w.Lining == nil {
			w.Lining = p.Defaults.Lining
		}
		if w.Trim == 0 {
			w.Trim = p.Defaults.Trim
		}
		if w.ID == "" {
			w.ID = s.wall.ID
		}
		s.wall = w
		if w.Framing != nil {
			s.framing = *w.Framing
			if s.framing.Spacing == 0 {
				s.framing.Spacing = p.Defaults.Framing.Spacing
			}
			if s.framing.Member == 0 {
				s.framing.Member = p.Defaults.Framing.Member
			}
		}
	}
	return all
}

// nameSides gives the names that sides have where the file gives none: that of the quarter which the outside of the first
// such side faces squarely, else its number.
func nameSides(all []side) {
	taken := map[string]bool{}
	for i := range all {
		s := &all[i]
		s.wall.ID = fmt.Sprintf("side-%d", i+1)
		quarter := ""
		switch x, y := s.right.x-s.left.x, s.right.y-s.left.y; {
		case y == 0 && x > 0:
			quarter = "north"
		case y == 0:
			quarter = "south"
		case x == 0 && y > 0:
			quarter = "west"
		case x == 0:
			quarter = "east"
		}
		if quarter != "" && !taken[quarter] {
			s.wall.ID, taken[quarter] = quarter, true
		}
	}
}
