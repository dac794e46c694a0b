package scene

import (
	"image"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestPictures writes pictures to the directory in SEAMWRIGHT_PICTURES, to be looked at.
func TestPictures(t *testing.T) {
	dir := os.Getenv("SEAMWRIGHT_PICTURES")
	if dir == "" {
		t.Skip("set SEAMWRIGHT_PICTURES to a directory to look at the room")
	}
	s := Build(handPlan(), handJob(), Options{})
	t.Log(s.Triangles(), "triangles")
	r := NewRenderer(0)
	defer r.Close()
	shot := func(name string, cam Camera, st Style) {
		img := image.NewRGBA(image.Rect(0, 0, 1440, 900))
		r.Render(img, s, cam, st)
		f, err := os.Create(filepath.Join(dir, name+".png"))
		require.NoError(t, err)
		defer f.Close()
		require.NoError(t, png.Encode(f, img))
	}
	se, _ := s.Camera("SE", 1440, 900)
	ne, _ := s.Camera("NE", 1440, 900)
	above, _ := s.Camera("above", 1440, 900)
	inside, _ := s.Stand("studio")
	st := DefaultStyle()
	shot("se", se, st)
	st.SheetIDs, st.Seams = true, 1
	shot("ne", ne, st)
	shot("above", above, st)
	st = DefaultStyle()
	shot("inside", inside, st)
	st.Sharp, st.Seams = true, 0
	shot("inside-sharp", inside, st)
	st = DefaultStyle()
	st.Raking = Raking{On: true, Angle: 10 * math.Pi / 180, Sheen: Eggshell}
	shot("raking", inside, st)
	shot("raking-se", se, st)
	wall, _ := s.Facing("studio/north", 1440, 900)
	st.Raking.Sheen = SemiGloss
	shot("raking-wall", wall, st)
	st = DefaultStyle()
	st.Theme, st.Selected, st.Hovered = Ink, []Ref{{"studio/north", "N2"}}, Ref{"studio/north", "N3"}
	st.Members = true
	shot("dark", se, st)
	st.Theme = HighContrast
	shot("contrast", se, st)
}
