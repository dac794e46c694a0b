package raster

import (
	"image"
	"runtime"
	"sync/atomic"
	"time"
	"unsafe"

	"seamwright/calc/guard"
)

// A tile's sides in samples. Depth and face numbers of one tile take 32 KiB: they stay near the core, and its rows
// are long enough for the inner loops. Measured: 256 by 32 is the same within noise.
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
	helpers  int
	wake     chan struct{}
	ticket   atomic.Uint64               // phase, how many numbers it has, and the next number to take: see share
	finished atomic.Int32                // numbers of the phase that are done
	fault    atomic.Pointer[guard.Fault] // the first that a worker met in this frame

	frame   *Frame
	img     *image.RGBA
	pixels  []Colour // img's, as words
	view    View     // in samples
	samples int      // a side of a pixel

	batches []batch
	shots   []shot // planes by samples
	coarse  []shot // planes by pixels
	seen    []bool
	polys   []poly
	strokes []stroke
	dashes  []dashes // of the frame's pens
	grounds []Colour // of every row of pixels

	chunks []chunk // of reliefs to be lit

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
	c := &core{helpers: workers - 1, wake: make(chan struct{}, workers)}
	for range workers {
		c.tiles = append(c.tiles, new(tile))
	}
	for w := 1; w < workers; w++ {
		guard.Go(func() { c.help(w) }, c.note)
	}
	r := &Renderer{c}
	runtime.AddCleanup(r, func(c *core) { c.close() }, c)
	return r
}

// Spare lets go of what the last frame showed and of the picture that it was drawn into. The room for frames is kept.
func (r *Renderer) Spare() {
	c := r.core
	clear(c.batches[:cap(c.batches)])
	clear(c.shots[:cap(c.shots)])
	clear(c.coarse[:cap(c.coarse)])
	clear(c.chunks[:cap(c.chunks)])
	for _, t := range c.tiles {
		t.out, t.cover, t.plane = nil, nil, nil
	}
}

// Close lets the helpers go; the renderer must not be used afterwards.
func (r *Renderer) Close() { r.core.close() }

func (c *core) close() {
	if !c.closed {
		c.closed = true
		close(c.wake)
	}
}

// The phases of a frame that are shared out: reliefs are lit, items are projected, tiles are drawn. In none of them
// helpers sleep: waking one takes longer than most phases.
const (
	none = iota
	lighting
	projecting
	drawing
)

// A ticket holds the phase, its count and the next number in one word, so that whoever takes a number knows what
// it is a number of.
const (
	ticketBits = 28
	ticketMask = 1<<ticketBits - 1
)

// open begins a phase with numbers from 0 to n-1.
func (c *core) open(phase, n int) {
	c.finished.Store(0)
	c.ticket.Store(uint64(phase)<<(2*ticketBits) | uint64(n)<<ticketBits)
}

// share has all workers take numbers from 0 to n-1 until none is left, and waits until all are done. A fault in one of
// them is raised here, when no worker is in the frame any more.
func (c *core) share(phase, n int) {
	c.open(phase, n)
	for c.take(0) {
	}
	for spins := 0; int(c.finished.Load()) < n; spins++ {
		pause(spins)
	}
	if f := c.fault.Swap(nil); f != nil {
		c.open(none, 0)
		panic(f)
	}
}

// note keeps the first fault of a frame.
func (c *core) note(f *guard.Fault) { c.fault.CompareAndSwap(nil, f) }

// How often a worker looks for work before it lets others have its core, and before it sleeps: where other programs
// keep the cores busy, whoever is waited for may not be running.
const (
	patience = 200
	weary    = 5000
	nap      = 50 * time.Microsecond
)

// pause is what a worker does after it has looked in vain so many times.
func pause(spins int) {
	switch {
	case spins > weary:
		time.Sleep(nap)
	case spins > patience:
		runtime.Gosched()
	}
}

// take does one number of the open phase; false where none is left.
func (c *core) take(worker int) bool {
	if t := c.ticket.Load(); t&ticketMask >= t>>ticketBits&ticketMask {
		return false
	}
	t := c.ticket.Add(1) - 1
	i := int(t & ticketMask)
	if i >= int(t>>ticketBits&ticketMask) {
		return false
	}
	c.do(worker, int(t>>(2*ticketBits)), i)
	return true
}

// do does one number of a phase; it is done, too, where it fails, so that nobody waits for it for ever.
func (c *core) do(worker, phase, i int) {
	defer c.finished.Add(1)
	defer guard.Catch(c.note)
	switch phase {
	case lighting:
		c.light(i)
	case projecting:
		c.project(&c.batches[i])
	case drawing:
		c.draw(c.tiles[worker], i)
	}
}

// help works on frames until the renderer is closed.
func (c *core) help(worker int) {
	for range c.wake {
		for spins := 0; c.ticket.Load()>>(2*ticketBits) != none; spins++ {
			if c.take(worker) {
				spins = 0
			}
			pause(spins)
		}
	}
}

// Draw draws the frame into the whole of img, whose size is the view's.
func (r *Renderer) Draw(img *image.RGBA, f *Frame) {
	c := r.core
	if f.View.W <= 0 || f.View.H <= 0 {
		return
	}
	c.open(projecting, 0)
	for range c.helpers {
		select {
		case c.wake <- struct{}{}:
		default: // awake still
		}
	}
	c.frame, c.img, c.view, c.samples = f, img, f.View, 1
	c.pixels = unsafe.Slice((*Colour)(unsafe.Pointer(&img.Pix[0])), len(img.Pix)/4)
	if f.Sharp {
		c.samples = 2
		c.view = f.View.times(2)
	}
	c.plan()
	c.share(lighting, c.stale())
	c.share(projecting, len(c.batches))
	c.bin()
	c.share(drawing, c.cols*c.rows)
	c.open(none, 0)
	c.frame, c.img, c.pixels = nil, nil, nil
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
	c.dashes = grown(c.dashes, len(c.frame.Pens))
	for i := range c.dashes {
		c.dashes[i].fill(&c.frame.Pens[i])
	}
	c.prepareGround()
	c.shots, c.coarse = grown(c.shots, planes), grown(c.coarse, planes)
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
