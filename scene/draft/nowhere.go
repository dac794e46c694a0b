package draft

import "image/color"

// nowhere is a canvas that keeps nothing: drawing on it tells what a drawing has room for.
type nowhere struct{}

var _ Canvas = nowhere{}

func (nowhere) Size() (w, h float64)          { return 0, 0 }
func (nowhere) Fill(Path, color.NRGBA)        {}
func (nowhere) Hatch(Path, Hatch)             {}
func (nowhere) Stroke([]Pt, bool, Pen)        {}
func (nowhere) Disc(Pt, float64, color.NRGBA) {}
func (nowhere) Text(Pt, string, Type)         {}
func (nowhere) Clip(Rect)                     {}
func (nowhere) Unclip()                       {}
func (nowhere) Begin(string)                  {}
func (nowhere) End()                          {}
