package scene

import (
	"fmt"
	"image"
	"math"
	"runtime"
	"slices"
	"sync"
	"testing"
	"time"

	"seamwright/calc/length"
	"seamwright/calc/plan"
)

// manyRooms sets copies of the studio side by side, until the scene holds at least so many triangles.
func manyRooms(triangles int) *Scene { return Build(manyRoomsPlan(triangles), handJob(), Options{}) }

func manyRoomsPlan(triangles int) *plan.Plan {
	one := handPlan()
	each := Build(one, handJob(), Options{}).Triangles()
	p := &plan.Plan{}
	side := 1
	for side*side*each < triangles {
		side++
	}
	for n := 0; n*each < triangles; n++ {
		for _, s := range one.Surfaces {
			s.ID, s.Room = fmt.Sprintf("%d-%s", n, s.ID), fmt.Sprintf("%d-%s", n, s.Room)
			s.Frame.Origin[0] += length.Length(n%side) * 26 * ft
			s.Frame.Origin[1] += length.Length(n/side) * 18 * ft
			p.Surfaces = append(p.Surfaces, s)
		}
	}
	return p
}

// BenchmarkRebuild changes the finish of one wall to and fro.
func BenchmarkRebuild(b *testing.B) {
	for _, c := range []struct {
		name      string
		triangles int
	}{{"room", 1}, {"600-walls", 90000}} {
		b.Run(c.name, func(b *testing.B) {
			one, two := manyRoomsPlan(c.triangles), manyRoomsPlan(c.triangles)
			w := &two.Surfaces[2]
			w.Zones = nil
			w.ID = "studio/north" // the letter of its sheets
			lay(w, 1, 1, "ply-18", 0, 8*ft, 4*ft, rect(0, in/2, 24*ft, 8*ft-in/2))
			w.ID = "0-studio/north"
			s, j := Build(one, handJob(), Options{}), handJob()
			b.ReportMetric(float64(len(one.Surfaces)), "surfaces")
			b.ResetTimer()
			for i := range b.N {
				p := one
				if i%2 == 0 {
					p = two
				}
				if n := s.Update(p, j); n != 1 {
					b.Fatal(n, "surfaces rebuilt")
				}
			}
		})
	}
}

// BenchmarkRaking draws one finished wall that fills the view.
func BenchmarkRaking(b *testing.B) {
	s := manyRooms(1)
	cam, _ := s.Facing("0-studio/north", 1920, 1080)
	cam = cam.ZoomTo(cam.Target(), 1.8)
	st := DefaultStyle()
	st.Raking = Raking{On: true, Angle: 0.15, Sheen: Satin}
	img := image.NewRGBA(image.Rect(0, 0, 1920, 1080))
	r := NewRenderer(0)
	defer r.Close()
	r.Render(img, s, cam, st)
	best := math.Inf(1)
	for b.Loop() {
		start := time.Now()
		r.Render(img, s, cam, st)
		best = min(best, time.Since(start).Seconds()*1000)
	}
	b.ReportMetric(best, "ms-best")
	b.ReportMetric(best/plainLoop(img), "times-plain")
}

// BenchmarkFrame draws 1920 by 1080 and sets it against a plain loop on the same cores that writes colour and depth
// once for every pixel. Best is set against best, since other work on the machine slows both.
func BenchmarkFrame(b *testing.B) {
	for _, c := range []struct {
		name      string
		triangles int
		view      string
		style     func(*Style)
	}{
		{"room", 1, "SE", nil},
		{"inside", 1, "inside", nil},
		{"5000", 5000, "SE", nil},
		{"5000-all", 5000, "SE", func(s *Style) { s.Members, s.SheetIDs, s.Seams = true, true, 1 }},
		{"50000", 50000, "SE", nil},
		{"room-sharp", 1, "SE", func(s *Style) { s.Sharp = true }},
	} {
		b.Run(c.name, func(b *testing.B) {
			s := manyRooms(c.triangles)
			cam, ok := s.Camera(c.view, 1920, 1080)
			if !ok {
				cam, _ = s.Stand("0-studio")
			}
			st := DefaultStyle()
			if c.style != nil {
				c.style(&st)
			}
			img := image.NewRGBA(image.Rect(0, 0, 1920, 1080))
			r := NewRenderer(0)
			defer r.Close()
			r.Render(img, s, cam, st)
			b.ReportAllocs()
			b.ResetTimer()
			frames := make([]float64, b.N)
			for i := range frames {
				start := time.Now()
				r.Render(img, s, cam, st)
				frames[i] = time.Since(start).Seconds() * 1000
			}
			b.StopTimer()
			slices.Sort(frames)
			b.ReportMetric(frames[len(frames)/2], "ms-median")
			b.ReportMetric(frames[0], "ms-best")
			b.ReportMetric(float64(s.Triangles()), "triangles")
			b.ReportMetric(frames[0]/plainLoop(img), "times-plain")
		})
	}
}

// plainLoop is the time in ms to write colour and depth once for every pixel, on all cores; the best of several.
func plainLoop(img *image.RGBA) float64 {
	n := len(img.Pix) / 4
	depth := make([]float32, n)
	workers := runtime.GOMAXPROCS(0)
	best := math.Inf(1)
	for range 40 {
		start := time.Now()
		var wg sync.WaitGroup
		for w := range workers {
			wg.Go(func() {
				lo, hi := n*w/workers, n*(w+1)/workers
				pix, z := img.Pix[4*lo:4*hi], depth[lo:hi]
				for i := range z {
					z[i] = float32(i)
					d := pix[4*i : 4*i+4 : 4*i+4]
					d[0], d[1], d[2], d[3] = uint8(i), uint8(i>>8), uint8(i>>16), 255
				}
			})
		}
		wg.Wait()
		best = min(best, time.Since(start).Seconds()*1000)
	}
	return best
}
