package light

import (
	"math"
	"sort"
)

// Kind is a joint as it is finished.
type Kind int

// Kinds of joint.
const (
	Tapered Kind = iota
	Butt
)

// Level is a finish level, 3 to 5.
type Level int

// Sheen is how glossy the paint is, dull to bright.
type Sheen int

// Paint sheens.
const (
	Flat Sheen = iota
	Eggshell
	Satin
	SemiGloss
	Gloss
	sheens
)

const (
	inch = 0.0254
	// A crown of 1/16 in over a butt joint and a hollow of 1/64 in over tapered edges; common practice, no source.
	crown  = inch / 16
	hollow = -inch / 64
	// A skim coat over the whole wall takes about half of the height away; common practice, no source.
	skim = 0.5
)

// Usual is the section of a joint at a finish level: a butt joint is feathered over 6, 9 and 12 in to either side
// at level 3, 4 and 5, a tapered one over 4, 5 and 6 in; common practice, no source.
func Usual(k Kind, l Level) Joint {
	i := int(math.Max(0, math.Min(2, float64(l-3))))
	j := Joint{crown, [...]float64{6, 9, 12}[i] * inch}
	if k == Tapered {
		j = Joint{hollow, [...]float64{4, 5, 6}[i] * inch}
	}
	if l >= 5 {
		j.Height *= skim
	}
	return j
}

// Paint is a sheen's reflection. The lobes are a choice of this program that puts the sheens in their order; no source.
func (s Sheen) Paint() Paint {
	return [sheens]Paint{
		{Diffuse: 0.85},
		{Diffuse: 0.84, Lobe: 0.02, Exponent: 8},
		{Diffuse: 0.82, Lobe: 0.05, Exponent: 20},
		{Diffuse: 0.80, Lobe: 0.10, Exponent: 60},
		{Diffuse: 0.78, Lobe: 0.20, Exponent: 200},
	}[s.known()]
}

func (s Sheen) known() Sheen { return max(Flat, min(s, Gloss)) }

// String names the sheen.
func (s Sheen) String() string {
	return [sheens]string{"flat", "eggshell", "satin", "semi-gloss", "gloss"}[s.known()]
}

// SheenNamed finds a sheen by its name; "matte" is flat. False where there is none of the name.
func SheenNamed(name string) (Sheen, bool) {
	for s := Flat; s < sheens; s++ {
		if s.String() == name {
			return s, true
		}
	}
	return Flat, name == "matte"
}

// Scene is what a joint is judged in.
type Scene struct {
	Light    Light
	Sheen    Sheen
	Level    Level
	Distance float64 // of the viewer, metres
	Instead  []Other // other lights that the joint could stand in
}

// Other is the light after a change to lamp or joint, and the words for the change.
type Other struct {
	What  string
	Light Light
}

// Verdict says how plainly a joint shows.
type Verdict struct {
	Kind      Kind
	Contrast  float64
	Threshold float64
	Mends     []Mend
}

// Times is the contrast over the threshold: above 1 the joint is seen.
func (v Verdict) Times() float64 { return v.Contrast / v.Threshold }

// Mend is one change and how plainly the joint would show after it, as Times.
type Mend struct {
	What  string
	Times float64
}

// Judge finds how plainly a joint of a kind shows, and what would mend it, the most helpful first; changes that do
// not help are left out.
func Judge(k Kind, s Scene) Verdict {
	j := Usual(k, s.Level)
	v := verdict(k, j, s)
	try := func(what string, j Joint, s Scene) {
		if t := verdict(k, j, s).Times(); t < v.Times()*0.99 {
			v.Mends = append(v.Mends, Mend{what, t})
		}
	}
	wide := j
	wide.Half *= 1.5
	try("feather half as wide again", wide, s)
	if s.Level < 5 {
		level5 := s
		level5.Level = 5
		try("finish to level 5", Usual(k, 5), level5)
	}
	if s.Sheen > Flat {
		flat := s
		flat.Sheen = Flat
		try("paint flat", j, flat)
	}
	for _, o := range s.Instead {
		moved := s
		moved.Light = o.Light
		try(o.What, j, moved)
	}
	if k == Butt {
		v.Mends = append(v.Mends, Mend{"longer sheets, without this joint", 0})
	}
	sort.SliceStable(v.Mends, func(a, b int) bool { return v.Mends[a].Times < v.Mends[b].Times })
	return v
}

func verdict(k Kind, j Joint, s Scene) Verdict {
	return Verdict{Kind: k, Contrast: Contrast(j.Slope(), s.Light, s.Sheen.Paint()), Threshold: j.Threshold(s.Distance)}
}
