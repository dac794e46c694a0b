package calc_test

import (
	"context"
	"flag"
	"fmt"
	"maps"
	"math"
	"runtime"
	"runtime/debug"
	"runtime/metrics"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamwright/planner"
)

var limitsInFull = flag.Bool("limits", false, "plan projects at the limits in full too, which takes some minutes")

// limits are projects just within what a file may ask for, each at another documented limit.
var limits = map[string]func() string{
	"1,000 pieces overhead":  func() string { return hall("62 m", "48 m", "gyp-12", "") },
	"1,000 pieces on a wall": func() string { return long("150 m", "20 m", "{product: gyp-12}") },
	"sheets 1 mm wide":       func() string { return narrow("2.4 m", "1 mm", "0.9 m") },
	"sheets of 30 mm":        func() string { return narrow("30 mm", "30 mm", "0.9 m") },
	"100,000 ways to part": func() string {
		return "defaults: {framing: {spacing: 4 in}}\n" + plank("10 m", "4 ft") + long("90 m", "10 m", "{product: plank}")
	},
	"a star of 200 corners":      func() string { return star(100) },
	"200 openings and 200 boxes": crowded,
	"12 zones of 4 layers":       layered,
	"40 courses": func() string {
		return long("40 m", "761 in", "{product: gyp-12, courses: ["+list(40, func(int) string { return "19 in" })+"]}")
	},
	"60 sizes":                    func() string { return sized() + long("60 m", "9 m", "{product: plank}") },
	"1,000 pieces of stock":       stocked,
	"50 alternatives":             varied,
	"468 rooms":                   func() string { return strings.TrimPrefix(string(village(468)), "seamwright: 1\n") },
	"200 joints fixed by hand":    pinned,
	"walls 3 m wide under stairs": stairs,
}

func list(n int, item func(int) string) string {
	items := make([]string, n)
	for i := range items {
		items[i] = item(i)
	}
	return strings.Join(items, ", ")
}

func lines(n int, item func(int) string) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(item(i))
	}
	return b.String()
}

func plank(l, w string) string {
	return fmt.Sprintf("catalog:\n  - {id: plank, kind: wood, name: Plank, thickness: 18 mm, sizes: [{size: [%s, %s], price: 10}]}\n", l, w)
}

func sized() string {
	return "catalog:\n  - {id: plank, kind: gypsum, name: Plank, thickness: 12.5 mm, edges: tapered, sizes: [" + list(60, func(i int) string {
		return fmt.Sprintf("{size: [%d mm, %d mm], price: %d}", 2000+60*i, 600+100*(i%7), 10+i)
	}) + "]}\n"
}

// hall is a room with a lined ceiling.
func hall(w, d, product, more string) string {
	return fmt.Sprintf("%srooms:\n  - {id: r, height: 4 m, corners: [[0, 0], [%s, 0], [%s, %s], [0, %s]], ceiling: {lining: [{product: %s}]}}\n", more, w, w, d, d, product)
}

// long is a room with one wall lined.
func long(w, h, lining string) string {
	return fmt.Sprintf("rooms:\n  - {id: r, height: %s, corners: [[0, 0], [%s, 0], [%s, 6 m], [0, 6 m]], walls: [{side: 1, id: south, lining: [%s]}]}\n", h, w, w, lining)
}

func narrow(l, w, wide string) string { return plank(l, w) + long(wide, "0.95 m", "{product: plank}") }

func star(points int) string {
	corners := list(2*points, func(i int) string {
		sin, cos := math.Sincos(math.Pi * float64(i) / float64(points))
		r := 6 - float64(i%2)*2
		return fmt.Sprintf("[%.3f m, %.3f m]", 7+r*cos, 7+r*sin)
	})
	return "rooms:\n  - {id: r, height: 2.5 m, corners: [" + corners + "], ceiling: {shape: {ridge: {along: x, at: 7 m, height: 5 m}}, lining: [{product: gyp-12.5}]}}\n"
}

func crowded() string {
	return "rooms:\n  - id: r\n    height: 4 m\n    corners: [[0, 0], [250 m, 0], [250 m, 6 m], [0, 6 m]]\n    walls:\n      - side: 1\n        lining: [{product: gyp-12}]\n        openings: [" +
		list(200, func(i int) string {
			return fmt.Sprintf("{id: w%d, kind: window, at: %d mm, width: 600 mm, height: 900 mm, sill: %d mm, reveal: 4 in, return: board}", i, 400+1240*i, 900+i%7*100)
		}) + "]\n        boxes: [" + list(200, func(i int) string {
		return fmt.Sprintf("{at: %d mm, up: 400 mm, width: 3 in, height: 4 in, kind: outlet}", 200+1240*i)
	}) + "]\n"
}

func layered() string {
	return long("24 m", "14 m", list(12, func(i int) string {
		to := fmt.Sprintf(", to: %d mm", 1150*(i+1))
		if i == 11 {
			to = ""
		}
		return "{product: [gyp-12, gyp-12, gyp-12, gyp-12]" + to + "}"
	}))
}

func stocked() string {
	return "stock: [" + list(1000, func(i int) string {
		return fmt.Sprintf("{product: gyp-12, size: [%d mm, %d mm], edges: cut, count: 3}", 500+13*(i%149), 300+7*(i%127))
	}) + "]\n" + strings.TrimPrefix(string(village(3)), "seamwright: 1\n")
}

func varied() string {
	return strings.TrimPrefix(string(village(2)), "seamwright: 1\n") + "alternatives:\n" + lines(50, func(i int) string {
		return fmt.Sprintf("  - {name: a%d, set: [{walls: [room0/w%d, room1/w%d], lining: [{product: %s}]}]}\n", i, 1+i%4, 1+i%6, []string{"ply-18", "gyp-16x", "open", "osb-11"}[i%4])
	})
}

func pinned() string {
	return "rooms:\n  - id: r\n    height: 4 m\n    corners: [[0, 0], [200 m, 0], [200 m, 6 m], [0, 6 m]]\n    walls:\n      - side: 1\n        lining: [{product: gyp-12}]\n        pins: [" +
		list(200, func(i int) string {
			return fmt.Sprintf("{zone: 1, layer: 1, course: %d, seam: %d in}", 1+i%3, 32*(i+1))
		}) + "]\n"
}

func stairs() string {
	return "rooms:\n" + lines(100, func(i int) string {
		return fmt.Sprintf("  - {id: r%d, height: 3 m, corners: [[%d m, 0], [%d m, 0], [%d m, 3 m], [%d m, 3 m]], walls: [{side: 1, bottom: [[0, 0], [3 m, 2 m]], lining: [{product: gyp-12}]}, {side: 2, top: [[0, 3 m], [1 m, 1 m], [2 m, 3 m], [3 m, 2 m]], lining: [{product: gyp-12}]}]}\n",
			i, 10*(i%25), 10*(i%25)+3, 10*(i%25)+3, 10*(i%25))
	})
}

// looked is a context that notes how much work is done between two looks at it, all on one processor.
type looked struct {
	context.Context
	looks      int
	last, most time.Duration
	where      string // after which the longest time without a look ended
}

func (c *looked) Err() error {
	c.note()
	return nil
}

func (c *looked) note() {
	c.looks++
	now := worked()
	if gap := now - c.last; gap > c.most {
		c.most, c.where = gap, ""
		var pcs [8]uintptr
		frames := runtime.CallersFrames(pcs[:runtime.Callers(3, pcs[:])])
		for more := true; more; {
			var f runtime.Frame
			f, more = frames.Next()
			c.where += fmt.Sprintf(" < %s:%d", f.Function[strings.LastIndex(f.Function, "/")+1:], f.Line)
		}
	}
	c.last = now
}

// meter watches what the program holds of memory while work is done, and gives the most.
func meter(work func()) (most uint64) {
	samples := []metrics.Sample{{Name: "/memory/classes/total:bytes"}, {Name: "/memory/classes/heap/released:bytes"}}
	var stop atomic.Bool
	done := make(chan uint64)
	go func() {
		var top uint64
		for !stop.Load() {
			metrics.Read(samples)
			top = max(top, samples[0].Value.Uint64()-samples[1].Value.Uint64())
			time.Sleep(5 * time.Millisecond)
		}
		done <- top
	}()
	work()
	stop.Store(true)
	return <-done
}

// Whatever a file may ask for at the limits is planned in bounded time and in less than 1 GB, or refused; how much work lies
// between two looks at the context is printed: as long, at most, a cancelled answer goes on.
func TestEveryLimit(t *testing.T) {
	for _, name := range slices.Sorted(maps.Keys(limits)) {
		t.Run(name, func(t *testing.T) {
			if strings.HasPrefix(name, "468") && !*limitsInFull {
				t.Skip("takes half a minute")
			}
			d, err := planner.Parse("f", []byte("seamwright: 1\n"+limits[name]()))
			require.NoError(t, err)
			defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
			for _, e := range efforts {
				if e.name != "prompt" && !*limitsInFull {
					continue
				}
				debug.FreeOSMemory()
				began := worked()
				c := &looked{Context: context.Background(), last: began}
				bytes := meter(func() { _, err = e.effort(c, d.Job(), nil) })
				c.note()
				require.NoError(t, err)
				require.Less(t, bytes>>20, uint64(1<<10), "MB")
				t.Logf("%s: %.2f s of work, %d MB, %d looks at the context; the longest without %v%s",
					e.name, (worked() - began).Seconds(), bytes>>20, c.looks, c.most.Round(time.Millisecond), c.where)
			}
		})
	}
}
