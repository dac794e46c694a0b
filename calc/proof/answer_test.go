package proof

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
)

// mm is a length in a plan: a decimal with at most six places and no exponent.
type mm float64

func (m *mm) UnmarshalJSON(b []byte) error {
	s := string(b)
	_, places, _ := strings.Cut(s, ".")
	if len(places) > 6 || strings.ContainsAny(s, "eE") {
		return fmt.Errorf("%s is not written in at most six places", s)
	}
	v, err := strconv.ParseFloat(s, 64)
	*m = mm(v)
	return err
}

type point [2]mm

type outline []point

func (o outline) poly() poly {
	p := make(poly, len(o))
	for i, q := range o {
		p[i] = pt{float64(q[0]), float64(q[1])}
	}
	return p
}

func polys(os []outline) []poly {
	var ps []poly
	for _, o := range os {
		ps = append(ps, o.poly())
	}
	return ps
}

// answer is the part of the plan that is held against the project.
type answer struct {
	Format   string
	Version  int
	Surfaces []surface
	Sheets   []sheet
	Summary  struct {
		Bought  int `json:"sheets_bought"`
		Bound   int `json:"sheets_bound"`
		Stock   int `json:"stock_used"`
		Waste   float64
		Butt    mm `json:"butt_joint"`
		Tapered mm `json:"tapered_joint"`
		Mixed   mm `json:"mixed_joint"`
		Screws  int
		Hours   float64
		Weight  float64 `json:"weight_kg"`
	}
	Takeoff []struct {
		Item, Supply, Group, Unit, Basis, Source string
		Buy                                      int
		Need, Holds, Used, Price, Cost           float64
		StillBuy                                 int     `json:"still_buy"`
		StillPay                                 float64 `json:"still_pay"`
	}
	Sticks []struct {
		Supply string
		Length mm
		Pieces []mm
	}
	Cost struct {
		Material, Labour, Tax, Total float64
		BySurface                    []share `json:"by_surface"`
		ByRoom                       []share `json:"by_room"`
		ByTrade                      []share `json:"by_trade"`
	}
	Schedule []task
	Progress struct {
		LeftToBuy float64 `json:"left_to_buy"`
	}
	Handling struct {
		Delivery float64 `json:"delivery_kg"`
		Sheets   []struct {
			Count    int
			Together float64 `json:"kg_together"`
		}
	}
	Checks  []struct{ Rule, Level, Where, Message string }
	Returns []strip
}

// share is a named part of the cost; of a surface, with its sheets and hours.
type share struct {
	Cost   float64
	Sheets int
	Hours  float64
}

type task struct {
	ID, Kind, Room, Surface, Start, Finish, Basis, Source string
	After                                                 []string
}

// strip is a piece that lines a side of an opening.
type strip struct {
	ID, Surface, Opening, Side, Product, Sheet string
	Size                                       [2]mm
}

type surface struct {
	ID, Kind, Room string
	Outline        outline
	Holes          []outline
	Openings       []struct {
		ID, Kind string
		Outline  outline
	}
	Boxes   []outline
	Order   int `json:"hang_order"`
	Members struct {
		Axis  string
		At    []mm
		Width mm
	}
	Cripples []mm
	Zones    []zone
}

type zone struct {
	Zone, Layer           int
	Product, Run, Pattern string
	Outline               outline
	Panels                []panel
	Joints                []joint
	Fasteners             struct {
		Count  int
		Points []point
	}
}

type panel struct {
	ID      string
	Outline outline
	Holes   []outline
	Course  int
	Sheet   string
	Edges   [4]string
}

type joint struct {
	Kind     string
	From, To point
	Panels   []string
	Support  string
}

type sheet struct {
	ID, Product string
	Size        [2]mm
	Kerf        mm
	Source      string
	Price       float64
	Parts       []part
	Offcuts     [][4]mm
	Cuts        []struct {
		Order    int
		Kind     string
		From, To point
	}
}

type part struct {
	Panel  string
	Rect   [4]mm
	Turned bool
	Pair   *struct {
		Panel     string
		Turned    bool
		HalfRound [2]bool `json:"half_round"`
		Order     int
		From, To  point
		Measures  [2]mm
	}
}

func readAnswer(src []byte) (*answer, error) {
	a := &answer{}
	return a, json.NewDecoder(bytes.NewReader(src)).Decode(a)
}
