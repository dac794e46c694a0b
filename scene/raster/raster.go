package raster

import (
	"image"
	"runtime"
	"sync"
	"sync/atomic"
)

// A tile's sides in samples. Depth, face numbers and colour of one tile take 48 KiB: they stay near the core, and its
// rows are long enough for the inner loops. Measured: 256 by 32 is the same within noise.
const (
	tileW = 128
	tileH = 32
)

// Renderer draws frames. It keeps its buffers, so drawing allocates nothing once they have grown to the scene's
// size. It draws one frame at a time.
type Renderer struct{ *core }

// core is the renderer's state, shared with its helpers; they do not hold the Renderer itself, so that one that is
// dropped lets them go.
type core struct {
	helpers int
	wake    chan int // the phase to help with
	done    sync.WaitGroup
	next    atomic.Int32
	count   int32

	frame   *Frame
	img     *image.RGBA
	view    View // in samples
	samples int  // a side of a pixel

	batches []batch
	shots   []shot
	seen    []bool
	polys   []poly
	strokes []stroke

	cols, rows int
	polyBins   bins
	strokeBins bins
	tiles      []*tile // one for each worker
	drawn      int     // faces in the last frame, for reports
	closed     bool
}

// batch is the part of the frame's arrays that one item fills.
type batch struct {
	item                   *Item
	plane, poly, stroke    int
	polyCount, strokeCount int
}

// New makes a renderer that works on so many cores; 0: all that the process may use.
func New(workers int) *Renderer {
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	c := &core{helpers: workers - 1, wake: make(chan int)}
	for range workers {
		c.tiles = append(c.tiles, new(tile))
	}
	for w := 1; w < workers; w++ {
		go c.help(w)
	}
	r := &Renderer{c}
	runtime.AddCleanup(r, func(c *core) { c.close() }, c)
	return r
}

// Close lets the helpers go; the renderer must not be used afterwards.
func (r *Renderer) Close() { r.core.close() }

func (c *core) close() {
	if !c.closed {
		c.closed = true
		close(c.wake)
	}
}

// The phases of a frame that are shared out: items are projected, then tiles are drawn.
const (
	projecting = iota
	drawing
)

// share has all workers take numbers from 0 to n-1 until none is left.
func (c *core) share(phase, n int) {
	c.next.Store(0)
	c.count = int32(n)
	help := min(c.helpers, n-1)
	if help > 0 {
		c.done.Add(help)
		for range help {
			c.wake <- phase
		}
	}
	c.work(phase, 0)
	c.done.Wait()
}

func (c *core) help(worker int) {
	for phase := range c.wake {
		c.work(phase, worker)
		c.done.Done()
	}
}

func (c *core) work(phase, worker int) {
	for {
		i := c.next.Add(1) - 1
		if i >= c.count {
			return
		}
		if phase == projecting {
			c.project(&c.batches[i])
		} else {
			c.draw(c.tiles[worker], int(i))
		}
	}
}

// Draw draws the frame into the whole of img, whose size is the view's.
func (r *Renderer) Draw(img *image.RGBA, f *Frame) {
	c := r.core
	c.frame, c.img, c.view, c.samples = f, img, f.View, 1
	if f.Sharp {
		c.samples = 2
		c.view = f.View.times(2)
	}
	c.plan()
	c.share(projecting, len(c.batches))
	c.bin()
	c.share(drawing, c.cols*c.rows)
	c.frame, c.img = nil, nil
}

// plan gives every visible item its place in the frame's arrays.
func (c *core) plan() {
	c.batches = c.batches[:0]
	planes, polys, strokes := 0, 0, 0
	for i := range c.frame.Items {
		it := &c.frame.Items[i]
		m := it.Mesh
		if !c.view.sees(m.Min, m.Max) {
			continue
		}
		c.batches = append(c.batches, batch{item: it, plane: planes, poly: polys, stroke: strokes})
		planes += len(m.Planes)
		polys += len(m.Faces)
		strokes += len(m.Lines)
	}
	c.shots = grown(c.shots, planes)
	c.seen = grown(c.seen, planes)
	c.polys = grown(c.polys, polys)
	c.strokes = grown(c.strokes, strokes)
	c.cols = (c.view.W + tileW - 1) / tileW
	c.rows = (c.view.H + tileH - 1) / tileH
}

// grown is s with length n, its contents not kept.
func grown[T any](s []T, n int) []T {
	if n <= cap(s) {
		return s[:n]
	}
	return make([]T, n, n+n/4)
}

// bins lists, for each tile, what reaches it, in drawing order.
type bins struct {
	start []int32 // of each tile's part of the list, and the end
	list  []int32
}

// of is the list of one tile.
func (b *bins) of(tile int) []int32 { return b.list[b.start[tile]:b.start[tile+1]] }

// bin sorts polygons and strokes into tiles by counting, so that order is kept and nothing is allocated.
func (c *core) bin() {
	n := c.cols * c.rows
	for _, b := range []*bins{&c.polyBins, &c.strokeBins} {
		b.start = grown(b.start, n+2)
		clear(b.start)
	}
	// Counts stand two places on, so that after the running sum the filling pass leaves every start in place.
	c.drawn = 0
	for i := range c.batches {
		b := &c.batches[i]
		c.drawn += b.polyCount
		for k := b.poly; k < b.poly+b.polyCount; k++ {
			p := &c.polys[k]
			for ty := int(p.ty0); ty <= int(p.ty1); ty++ {
				for tx := int(p.tx0); tx <= int(p.tx1); tx++ {
					c.polyBins.start[ty*c.cols+tx+2]++
				}
			}
		}
		for k := b.stroke; k < b.stroke+b.strokeCount; k++ {
			c.reach(&c.strokes[k], func(t int) { c.strokeBins.start[t+2]++ })
		}
	}
	for _, b := range []*bins{&c.polyBins, &c.strokeBins} {
		for i := 2; i < len(b.start); i++ {
			b.start[i] += b.start[i-1]
		}
		b.list = grown(b.list, int(b.start[n+1]))
	}
	for i := range c.batches {
		b := &c.batches[i]
		for k := b.poly; k < b.poly+b.polyCount; k++ {
			p := &c.polys[k]
			for ty := int(p.ty0); ty <= int(p.ty1); ty++ {
				for tx := int(p.tx0); tx <= int(p.tx1); tx++ {
					t := ty*c.cols + tx + 1
					c.polyBins.list[c.polyBins.start[t]] = int32(k)
					c.polyBins.start[t]++
				}
			}
		}
		for k := b.stroke; k < b.stroke+b.strokeCount; k++ {
			c.reach(&c.strokes[k], func(t int) {
				c.strokeBins.list[c.strokeBins.start[t+1]] = int32(k)
				c.strokeBins.start[t+1]++
			})
		}
	}
}
