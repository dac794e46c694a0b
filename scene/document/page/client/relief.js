// The unevenness of a finished face: slopes of its filled joints, of the spots over its screws and of board that stands
// back between the studs, added up on a grid. Under light along the wall these are what shows.

const feather = 0.75; // part of a section's half-width that is a parabola; beyond, its slope falls evenly to nothing
const endFeather = 0.6; // of the half-width: how far a joint's ends take to rise
const fullSlope = 0.04; // slope that a texture's full scale stands for; no joint is as steep

// slopeAt is a section's slope, rise over run, at x metres from its middle.
function slopeAt(height, half, x) {
  const t = Math.abs(x) / half;
  if (t >= 1) return 0;
  const s = 2 * height / half * Math.min(t / feather, (1 - t) / (1 - feather));
  return x > 0 ? -s : s;
}

// reliefOf is the relief of a body's coats as a texture of slopes along x and y, with the place of its first point. The
// spacing of its points grows with the building, as step says.
function reliefOf(coats, step) {
  const lo = [Infinity, Infinity], hi = [-Infinity, -Infinity];
  for (const c of coats) {
    for (const k of [0, 1]) {
      lo[k] = Math.min(lo[k], c.lo[k]);
      hi[k] = Math.max(hi[k], c.hi[k]);
    }
  }
  const w = Math.floor((hi[0] - lo[0]) / step) + 2, h = Math.floor((hi[1] - lo[1]) / step) + 2;
  const slopes = new Float32Array(2 * w * h);
  for (const c of coats) addCoat({ slopes, w, h, lo, step }, c);
  const packed = new Uint8Array(2 * w * h);
  for (let i = 0; i < packed.length; i++) packed[i] = Math.round(clamp(127.5 + 127.5 * slopes[i] / fullSlope, 0, 255));
  const texture = new THREE.DataTexture(packed, w, h, THREE.RGFormat);
  return { texture: smooth(texture), lo, size: [w * step, h * step] };
}

// addCoat adds the slopes of one zone's coat, which end at the zone's borders.
function addCoat(grid, coat) {
  // points calls visit for the grid's points in a box, as far as they lie in the zone.
  const points = (x0, y0, x1, y1, visit) => {
    const first = (v, lo, border) => Math.max(Math.ceil((border - lo) / grid.step), Math.floor((v - lo) / grid.step), 0);
    const last = (v, lo, border, n) => Math.min(Math.floor((border - lo) / grid.step), Math.ceil((v - lo) / grid.step), n - 1);
    const left = first(x0, grid.lo[0], coat.lo[0]), right = last(x1, grid.lo[0], coat.hi[0], grid.w);
    const low = first(y0, grid.lo[1], coat.lo[1]), high = last(y1, grid.lo[1], coat.hi[1], grid.h);
    for (let y = low; y <= high; y++) {
      for (let x = left; x <= right; x++) {
        visit(2 * (y * grid.w + x), grid.lo[0] + x * grid.step, grid.lo[1] + y * grid.step);
      }
    }
  };
  const s = grid.slopes;
  for (const [ax, ay, bx, by, height, half] of coat.joints) {
    const long = Math.hypot(bx - ax, by - ay);
    if (long === 0) continue;
    const ex = (bx - ax) / long, ey = (by - ay) / long;
    points(Math.min(ax, bx) - half, Math.min(ay, by) - half, Math.max(ax, bx) + half, Math.max(ay, by) + half, (i, x, y) => {
      const t = (x - ax) * ex + (y - ay) * ey;
      if (t < 0 || t > long) return;
      const end = clamp(Math.min(t, long - t) / (half * endFeather), 0, 1);
      const slope = slopeAt(height, half, (y - ay) * ex - (x - ax) * ey) * end * end * (3 - 2 * end);
      s[i] -= slope * ey;
      s[i + 1] += slope * ex;
    });
  }
  const [spotHeight, spotHalf] = coat.spot;
  for (const [px, py] of coat.spots.map((p) => p.map((v) => v / 1000))) {
    points(px - spotHalf, py - spotHalf, px + spotHalf, py + spotHalf, (i, x, y) => {
      const r = Math.hypot(x - px, y - py);
      if (r === 0) return;
      const slope = slopeAt(spotHeight, spotHalf, r) / r;
      s[i] += slope * (x - px);
      s[i + 1] += slope * (y - py);
    });
  }
  const [upward, first, spacing, height] = coat.bow;
  if (spacing > 0) {
    points(coat.lo[0], coat.lo[1], coat.hi[0], coat.hi[1], (i, x, y) => {
      const v = upward ? y : x;
      s[i + upward] -= height * Math.PI / spacing * Math.sin(2 * Math.PI * (v - first) / spacing);
    });
  }
}
