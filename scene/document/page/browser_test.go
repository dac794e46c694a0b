package page_test

import (
	"encoding/json"
	"image"
	"image/draw"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/assets"
	"seamwright/assets/words"
	"seamwright/scene"
	"seamwright/scene/document/ask"
	"seamwright/scene/document/internal/reader"
)

// sight is what the browser saw.
type sight struct {
	Console, Requests []string
	Pictures          map[string]string
	Ready             float64 // milliseconds until the room can be turned
	Why               string  // it cannot
	Stage             [2]int
	Before, After     string
	Stills            []string // what is shown in the room's place
	Told              bool     // that it cannot be turned
	Axe, HTML         []string
	Overflow          int
}

// browse opens a page in Chromium at a size, with a finger or a mouse, in a light or dark scheme.
func browse(t *testing.T, page []byte, wide, high int, hand, scheme string, flags ...string) sight {
	t.Helper()
	dir := t.TempDir()
	file := filepath.Join(dir, "page.html")
	require.NoError(t, os.WriteFile(file, page, 0o600))
	pictures := dir
	if keep := os.Getenv("SEAMWRIGHT_PICTURES"); keep != "" {
		pictures = filepath.Join(keep, filepath.Base(t.Name())+"-"+strconv.Itoa(wide))
		require.NoError(t, os.MkdirAll(pictures, 0o755))
	}
	chromium, _ := exec.LookPath("chromium") // where there is none, the script says so
	out := reader.Node(t, nil, "testdata/browser.mjs", append([]string{chromium, file, pictures, strconv.Itoa(wide), strconv.Itoa(high), hand, scheme}, flags...)...)
	var s sight
	require.NoError(t, json.Unmarshal([]byte(out), &s))
	t.Logf("%d x %d: turns after %.0f ms", wide, high, s.Ready)
	return s
}

// The page in a true browser: nothing is said on its console, nothing is fetched, it turns by hand and by key, every switch
// changes the picture, axe-core (rules of WCAG 2 and good practice) and html-validate find nothing, and it draws the room as
// our own renderer does.
func TestInABrowser(t *testing.T) {
	for _, c := range []struct {
		name       string
		source     []byte
		language   words.Language
		wide, high int
		hand       string
	}{
		{"imperial", assets.KilnYardStudio, words.English, 1280, 800, "mouse"},
		{"imperial", assets.KilnYardStudio, words.Spanish, 390, 844, "touch"},
		{"metric", assets.LaneWorkshop, words.Spanish, 1280, 800, "mouse"},
		{"metric", assets.LaneWorkshop, words.English, 390, 844, "touch"},
	} {
		t.Run(c.name+"-"+string(c.language), func(t *testing.T) {
			r := request(t, c.source, c.language)
			s := browse(t, write(t, r), c.wide, c.high, c.hand, "light")
			require.Empty(t, s.Why)
			require.Empty(t, s.Console)
			require.Len(t, s.Requests, 1, "the page itself and nothing else")
			require.Empty(t, s.Axe)
			require.Empty(t, s.HTML)
			require.Zero(t, s.Overflow, "no scrolling sideways")
			require.Equal(t, []string{"0", "1"}, []string{s.Before, s.After}, "the dates follow the choice")
			p := map[string]*image.RGBA{}
			for name, file := range s.Pictures {
				p[name] = picture(t, file)
			}
			differ := func(a, b string, least float64) {
				t.Helper()
				require.Greater(t, mean(difference(p[a], p[b])), least, "%s and %s", a, b)
			}
			differ("outside", "turned", 2)
			differ("turned", "turned-by-key", 2)
			differ("outside", "other", 0.3)
			differ("outside", "without-joints", 0.2)
			differ("outside", "outside-light", 2)
			require.Less(t, mean(difference(p["outside"], p["home"])), 0.01, "Home brings the first view back")
			agrees(t, r, s.Stage, p)
		})
	}
}

// Without a graphics card a still picture of the chosen alternative stands in the room's place, and the page says so; in a
// dark scheme, and without scripts, it can be read as well.
func TestWhereNothingTurns(t *testing.T) {
	r := request(t, assets.LaneWorkshop, words.English)
	s := browse(t, write(t, r), 390, 844, "touch", "dark", "--disable-3d-apis")
	require.NotEmpty(t, s.Why)
	require.True(t, s.Told)
	require.Equal(t, []string{"0", "1"}, []string{s.Before, s.After})
	require.Len(t, s.Stills, 1)
	require.Contains(t, s.Stills[0], "Plywood up to the bench everywhere")
	require.Empty(t, s.Axe)
	require.Empty(t, s.Console)
}

// In a dark scheme the room is drawn in the window's dark colours, and letters keep their contrast.
func TestDarkScheme(t *testing.T) {
	r := request(t, assets.LaneWorkshop, words.English)
	s := browse(t, write(t, r), 1280, 800, "mouse", "dark")
	require.Empty(t, s.Why)
	require.Empty(t, s.Axe)
	require.Empty(t, s.Console)
	require.Empty(t, s.Stills)
	render := scene.NewRenderer(0)
	defer render.Close()
	ours := image.NewRGBA(image.Rect(0, 0, s.Stage[0], s.Stage[1]))
	room := scene.Build(r.Plan, r.Job, scene.Options{})
	from, _ := room.Camera("SE", s.Stage[0], s.Stage[1])
	style := scene.DefaultStyle()
	style.Sharp, style.Theme = true, scene.Ink
	render.Render(ours, room, from, style)
	require.Less(t, mean(difference(ours, picture(t, s.Pictures["outside"]))), meanApart)
}

// How well the browser's picture agrees with our renderer's, both as light in squares of block pixels: the mean difference
// and the one that no more than one square in fifty exceeds, of 255. Lines lie half a pixel off here and there, patterns went
// through a JPEG picture, and multisampling on the card is coarser. Measured are 0.5 to 1.9 and 3 to 8 on a desk, 2.3 and 16
// on a telephone, where lines are more of the picture.
const (
	block      = 4
	meanApart  = 3.0
	mostApart  = 20.0
	mostMember = 0.98
)

// agrees holds the browser's pictures against the renderer's.
func agrees(t *testing.T, r *ask.Request, size [2]int, seen map[string]*image.RGBA) {
	t.Helper()
	s := scene.Build(r.Plan, r.Job, scene.Options{})
	render := scene.NewRenderer(0)
	defer render.Close()
	outside, _ := s.Camera("SE", size[0], size[1])
	inside, ok := s.Stand(r.Job.Rooms[0].ID)
	require.True(t, ok)
	plain := scene.DefaultStyle()
	plain.Sharp = true
	lit := plain
	lit.Raking.On, lit.Raking.Marks = true, true
	lit.Raking.Sheen, _ = scene.SheenNamed(r.Job.Paint.Sheen)
	for _, c := range []struct {
		name  string
		from  scene.Camera
		style scene.Style
	}{{"outside", outside, plain}, {"outside-light", outside, lit}, {"inside", inside, plain}, {"inside-light", inside, lit}} {
		ours := image.NewRGBA(image.Rect(0, 0, size[0], size[1]))
		render.Render(ours, s, c.from, c.style)
		d := difference(ours, seen[c.name])
		most := part(d, mostMember)
		t.Logf("%s: %.2f apart in the mean, %.1f at most in %.0f %% of the squares", c.name, mean(d), most, 100*mostMember)
		if keep := os.Getenv("SEAMWRIGHT_PICTURES"); keep != "" {
			f, err := os.Create(filepath.Join(keep, filepath.Base(t.Name())+"-"+strconv.Itoa(size[0])+"-"+c.name+"-ours.png"))
			require.NoError(t, err)
			require.NoError(t, png.Encode(f, ours))
			require.NoError(t, f.Close())
		}
		require.Less(t, mean(d), meanApart, c.name)
		require.Less(t, most, mostApart, c.name)
		for _, other := range []string{"outside", "outside-light", "inside", "inside-light", "turned"} {
			if other != c.name { // what is another picture is told from it
				require.Greater(t, mean(difference(ours, seen[other])), 2*meanApart, "%s and %s", c.name, other)
			}
		}
	}
}

// part is the value that a part of the values does not exceed.
func part(v []float64, of float64) float64 {
	v = slices.Sorted(slices.Values(v))
	return v[int(of*float64(len(v)-1))]
}

// picture reads a PNG file.
func picture(t *testing.T, file string) *image.RGBA {
	t.Helper()
	f, err := os.Open(file)
	require.NoError(t, err)
	defer f.Close()
	img, err := png.Decode(f)
	require.NoError(t, err)
	out := image.NewRGBA(image.Rect(0, 0, img.Bounds().Dx(), img.Bounds().Dy()))
	draw.Draw(out, out.Rect, img, img.Bounds().Min, draw.Src)
	return out
}

// difference is how far two pictures are apart, square by square, in light of 255 (weights of ITU-R BT.601). The outermost
// squares are left out: a picture of the browser has the pane's border on them.
func difference(a, b *image.RGBA) (out []float64) {
	w, h := min(a.Rect.Dx(), b.Rect.Dx())/block, min(a.Rect.Dy(), b.Rect.Dy())/block
	light := func(img *image.RGBA, x, y int) float64 {
		sum := 0.0
		for dy := range block {
			for dx := range block {
				c := img.RGBAAt(x*block+dx, y*block+dy)
				sum += 0.299*float64(c.R) + 0.587*float64(c.G) + 0.114*float64(c.B)
			}
		}
		return sum / (block * block)
	}
	for y := 1; y < h-1; y++ {
		for x := 1; x < w-1; x++ {
			out = append(out, math.Abs(light(a, x, y)-light(b, x, y)))
		}
	}
	return out
}

func mean(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x
	}
	return sum / float64(len(v))
}
