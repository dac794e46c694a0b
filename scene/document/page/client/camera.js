// The camera is a plain value: where the eye is, its heading (yaw: 0 looks north, a quarter turn east), its pitch above the
// horizon, its vertical field of view and the reach to what it looks at. The building stands z up; metres and radians.
// Every movement gives a new camera.

const steepest = 89.9 * Math.PI / 180;
const nearest = 0.15, farthest = 5000; // metres of reach
const framed = 0.90; // part of the picture that the framed building fills

const clamp = (v, lo, hi) => Math.min(hi, Math.max(lo, v));
const dot = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const along = (a, b, t) => [a[0] + b[0] * t, a[1] + b[1] * t, a[2] + b[2] * t];

function axesOf(c) {
  const sy = Math.sin(c.yaw), cy = Math.cos(c.yaw), sp = Math.sin(c.pitch), cp = Math.cos(c.pitch);
  return { right: [cy, -sy, 0], up: [-sy * sp, -cy * sp, cp], forward: [sy * cp, cy * cp, sp] };
}

const targetOf = (c) => along(c.eye, axesOf(c).forward, c.reach);

// orbit turns the camera about a point, which keeps its place in the picture.
function orbit(c, about, turn, tilt) {
  const from = axesOf(c), d = along(about, c.eye, -1);
  const x = dot(d, from.right), y = dot(d, from.up), z = dot(d, from.forward);
  const next = { ...c, yaw: c.yaw + turn, pitch: clamp(c.pitch + tilt, -steepest, steepest) };
  const to = axesOf(next);
  next.eye = along(along(along(about, to.right, -x), to.up, -y), to.forward, -z);
  return next;
}

// look turns the head without moving the eye.
const look = (c, turn, tilt) => ({ ...c, yaw: c.yaw + turn, pitch: clamp(c.pitch + tilt, -steepest, steepest) });

// pan moves the camera so that what lies at its reach follows a pointer by so many pixels of a picture so high.
function pan(c, dx, dy, high) {
  const perPixel = 2 * c.reach * Math.tan(c.fov / 2) / high, a = axesOf(c);
  return { ...c, eye: along(along(c.eye, a.right, -dx * perPixel), a.up, dy * perPixel) };
}

// zoom moves the eye towards what it looks at: a factor of 2 halves the distance.
function zoom(c, factor) {
  const reach = clamp(c.reach / factor, nearest, farthest);
  return { ...c, eye: along(targetOf(c), axesOf(c).forward, -reach), reach };
}

// walk moves along the floor.
function walk(c, forward, right) {
  const sy = Math.sin(c.yaw), cy = Math.cos(c.yaw);
  return { ...c, eye: [c.eye[0] + sy * forward + cy * right, c.eye[1] + cy * forward - sy * right, c.eye[2]] };
}

// frame keeps the direction and moves the eye so that all points just fit a picture of that shape. With a point at
// x, y, z in the camera's axes and the eye at (ex, ey, -d), each asks |x - ex| <= tx (z + d), and so for y.
function frame(c, points, wide, high) {
  const ty = Math.tan(c.fov / 2) * framed, tx = ty * wide / high, a = axesOf(c);
  let loX = Infinity, hiX = -Infinity, loY = Infinity, hiY = -Infinity, near = Infinity, far = -Infinity;
  for (const p of points) {
    const x = dot(p, a.right), y = dot(p, a.up), z = dot(p, a.forward);
    loX = Math.min(loX, x + tx * z); hiX = Math.max(hiX, x - tx * z);
    loY = Math.min(loY, y + ty * z); hiY = Math.max(hiY, y - ty * z);
    near = Math.min(near, z); far = Math.max(far, z);
  }
  const d = Math.max((hiX - loX) / (2 * tx), (hiY - loY) / (2 * ty), 0.2 - near);
  let eye = along([0, 0, 0], a.right, (loX + hiX) / 2);
  eye = along(along(eye, a.up, (loY + hiY) / 2), a.forward, -d);
  return { ...c, eye, reach: (near + far) / 2 + d };
}

// between is the camera a part t of the way to another, the shorter way round, easing in and out; what is looked at
// travels in a straight line.
function between(c, to, t) {
  if (t >= 1) return to;
  t = t * t * (3 - 2 * t);
  const mix = (a, b) => a + (b - a) * t;
  const turn = Math.atan2(Math.sin(to.yaw - c.yaw), Math.cos(to.yaw - c.yaw));
  const next = { yaw: c.yaw + turn * t, pitch: mix(c.pitch, to.pitch), fov: mix(c.fov, to.fov), reach: mix(c.reach, to.reach) };
  const a = targetOf(c), b = targetOf(to);
  next.eye = along(a.map((v, i) => mix(v, b[i])), axesOf(next).forward, -next.reach);
  return next;
}
