// The room on the graphics card: what is drawn, and how it is lit.

const tenth = 1e-4; // places in the packed room are counted in tenths of a millimetre
const faceHead = 5; // numbers before a face's corners: plane, material, turned, shift of the pattern
const patternSize = 1.28; // metres of a pattern's side

// Room draws one of the packed room's variants at a time.
class Room {
  constructor(canvas, packed, patterns) {
    this.packed = packed;
    this.gl = new THREE.WebGLRenderer({ canvas, antialias: true, alpha: true, powerPreference: "low-power" });
    this.gl.setClearColor(0, 0);
    this.gl.sortObjects = false;
    this.camera = new THREE.PerspectiveCamera();
    this.scene = new THREE.Scene();
    const { heads, ...columns } = packed.bodies;
    const bodies = heads.map((head, i) => ({ ...head, ...Object.fromEntries(Object.entries(columns).map(([name, all]) => [name, all[i]])) }));
    this.maps = packLights(bodies);
    this.uniforms = this.commonUniforms(patterns);
    this.bodies = bodies.map((b, i) => this.build(b, this.maps.places[i]));
    this.joints = true;
    this.raking = false;
    this.show(0);
    this.setLook();
  }

  commonUniforms(patterns) {
    const p = this.packed;
    const each = (list) => ({ value: list });
    return {
      patterns: each(patterns), maps: each(this.maps.texture), mapSize: each(new THREE.Vector2(this.maps.wide, this.maps.high)),
      dark: each([]), light: each([]), layer: each(p.layers), paint: each(p.paint), raking: each(false),
      gloss: each(new THREE.Vector2(...p.gloss)), eyeAt: each(new THREE.Vector3()),
      pens: each([]), dashes: each([]), inks: each([]), picture: each(new THREE.Vector2()), focal: each(1), scale: each(1),
    };
  }

  // build makes a body's faces and lines.
  build(body, lights) {
    const u = this.uniforms, faces = faceGeometry(body, lights);
    const own = {
      relief: { value: null }, reliefFrom: { value: new THREE.Vector2() }, reliefSize: { value: new THREE.Vector2(1, 1) },
      lamp: { value: new THREE.Vector3(...body.lamp.slice(0, 3)) }, power: { value: new THREE.Vector3(...body.lamp.slice(3)) },
      eye: { value: new THREE.Vector3() },
    };
    const shared = (...names) => Object.fromEntries(names.map((n) => [n, u[n]]));
    const solid = new THREE.Mesh(faces, new THREE.RawShaderMaterial({
      glslVersion: THREE.GLSL3, vertexShader: faceVertex,
      fragmentShader: faceFragment.replaceAll("MATERIALS", this.packed.layers.length).replace("FULL_SLOPE", fullSlope.toFixed(4)),
      uniforms: { ...own, ...shared("patterns", "maps", "mapSize", "dark", "light", "layer", "paint", "raking", "gloss") },
    }));
    const ink = (lines, over) => {
      return new THREE.Mesh(lineGeometry(body, lines), new THREE.RawShaderMaterial({
        glslVersion: THREE.GLSL3, transparent: true, premultipliedAlpha: true, depthWrite: false, depthTest: !over, side: THREE.DoubleSide,
        vertexShader: lineVertex.replace("PENS", this.packed.pens).replace("FADE_FROM", this.packed.fade[0].toFixed(2)).replace("FADE_TO", this.packed.fade[1].toFixed(2)),
        fragmentShader: lineFragment.replaceAll("PENS", this.packed.pens),
        uniforms: { eye: u.eyeAt, ...shared("pens", "dashes", "inks", "picture", "focal", "scale") },
      }));
    };
    const coated = new Set(body.coats.map((c) => c.plane));
    const keeps = (line) => !coated.has(line[0]) || line[1] === this.packed.edge;
    const built = { body, own, solid, lines: ink(body.lines), painted: ink(body.lines.filter(keeps)), seen: ink(body.seen), ghost: ink(body.ghost, true) };
    const order = { solid: 0, lines: 1, painted: 1, seen: 2, ghost: 3 };
    for (const [name, at] of Object.entries(order)) {
      built[name].renderOrder = at;
      built[name].frustumCulled = false;
    }
    return built;
  }

  // show changes to another variant.
  show(number) {
    this.variant = number;
    this.scene.clear();
    this.shown = this.packed.variants[number].map((i) => this.bodies[i]);
    for (const b of this.shown) this.scene.add(b.solid, b.lines, b.painted, b.seen, b.ghost);
    this.corners = this.shown.flatMap((b) => b.body.corners);
  }

  // setLook takes the pens for joints shown or not, and the colours of the page's scheme.
  setLook() {
    const look = this.packed.looks[this.dark ? 1 : 0], u = this.uniforms;
    const colour = (hex) => new THREE.Vector3(hex >> 16, hex >> 8 & 255, hex & 255).divideScalar(255);
    u.dark.value = look.materials.map((m) => colour(m[0]));
    u.light.value = look.materials.map((m) => colour(m[1]));
    const pens = this.joints ? look.pens : look.plain;
    u.pens.value = pens.map((p) => new THREE.Vector4(p[0], p[2], p[7], 0));
    u.inks.value = pens.map((p) => colour(p[1]));
    u.dashes.value = pens.map((p) => new THREE.Vector4(...p.slice(3, 7)));
  }

  // light makes the reliefs when they are first asked for.
  light() {
    for (const b of this.shown) {
      if (b.own.relief.value || b.body.coats.length === 0) continue;
      const r = reliefOf(b.body.coats, this.packed.step);
      b.own.relief.value = r.texture;
      b.own.reliefFrom.value.set(...r.lo).addScalar(-this.packed.step / 2);
      b.own.reliefSize.value.set(...r.size);
    }
  }

  // draw draws the variant as the camera sees it, in a picture of that size at so many device pixels to a pixel.
  draw(camera, wide, high, scale) {
    const u = this.uniforms, c = this.camera;
    if (this.size !== `${wide} ${high} ${scale}`) {
      this.size = `${wide} ${high} ${scale}`;
      this.gl.setPixelRatio(scale);
      this.gl.setSize(wide, high); // whole pixels, also where the page gives it a fraction more
    }
    if (this.raking) this.light();
    u.raking.value = this.raking;
    u.picture.value.set(Math.floor(wide * scale), Math.floor(high * scale));
    u.scale.value = scale;
    u.focal.value = u.picture.value.y / 2 / Math.tan(camera.fov / 2);
    u.eyeAt.value.set(...camera.eye);
    c.fov = camera.fov * 180 / Math.PI;
    c.aspect = wide / high;
    c.near = Math.max(0.02, camera.reach / 200);
    c.far = camera.reach * 20 + 200;
    c.position.set(...camera.eye);
    c.up.set(...axesOf(camera).up);
    c.lookAt(...targetOf(camera));
    c.updateProjectionMatrix();
    for (const b of this.shown) {
      const away = cutAway(b.body, camera.eye);
      b.solid.visible = !away;
      b.lines.visible = !away && !this.raking;
      b.painted.visible = !away && this.raking;
      b.seen.visible = b.painted.visible && this.joints;
      b.ghost.visible = away;
      const d = along(camera.eye, b.body.frame.slice(0, 3), -1), axis = (k) => dot(d, b.body.frame.slice(k, k + 3));
      b.own.eye.value.set(axis(3), axis(6), axis(9));
    }
    this.gl.render(this.scene, c);
  }
}

// cutAway tells whether the eye is behind a body, which is then drawn as an outline; a sloped ceiling is also in the way of
// an eye above it.
function cutAway(body, eye) {
  if (body.kind === "") return false;
  const n = body.frame.slice(9, 12);
  return dot(n, along(eye, body.frame.slice(0, 3), -1)) < 0 || body.kind === "ceiling" && eye[2] > body.top;
}

// packLights lays all light maps beside and over each other in one texture.
function packLights(bodies) {
  const wide = 512;
  let x = 0, y = 0, row = 0;
  const places = bodies.map((b) => b.lights.map((l) => {
    if (x + l.w > wide) [x, y, row] = [0, y + row, 0];
    const at = [x, y];
    x += l.w;
    row = Math.max(row, l.h);
    return at;
  }));
  const high = Math.max(1, y + row), all = new Uint8Array(wide * high);
  bodies.forEach((b, i) => b.lights.forEach((l, k) => {
    const [ax, ay] = places[i][k];
    let v = 0;
    for (let n = 0; n < l.v.length; n++) {
      v += l.v[n]; // each is the step from the one before
      all[(ay + Math.floor(n / l.w)) * wide + ax + n % l.w] = v;
    }
  }));
  const texture = new THREE.DataTexture(all, wide, high, THREE.RedFormat);
  texture.magFilter = texture.minFilter = THREE.LinearFilter;
  texture.unpackAlignment = 1;
  texture.needsUpdate = true;
  return { places, texture, wide, high };
}

// faceGeometry gives the card a body's faces as triangles.
function faceGeometry(body, lights) {
  const parts = { position: [], place: [], pattern: [], grid: [], map: [], look: [] };
  const coated = new Set(body.coats.map((c) => c.plane));
  for (const f of body.faces) {
    const [number, material, turned, shiftX, shiftY] = f, p = body.planes[number];
    const corner = (k) => [f[faceHead + 2 * k] * tenth, f[faceHead + 1 + 2 * k] * tenth];
    const l = body.lights[p[13]], at = l ? lights[p[13]] : null;
    const keeps = coated.has(number) ? -1 : p[14];
    const add = ([x, y]) => {
      const q = [x + shiftX * tenth, y + shiftY * tenth];
      parts.position.push(p[0] + x * p[3] + y * p[6], p[1] + x * p[4] + y * p[7], p[2] + x * p[5] + y * p[8]);
      parts.place.push(x, y);
      parts.pattern.push(...(turned ? [q[1], q[0]] : q).map((v) => v / patternSize));
      parts.grid.push(...(l ? [(x - l.x) * l.per, (y - l.y) * l.per] : [0, 0]));
      parts.map.push(...(l ? [at[0], at[1], l.w, l.h] : [0, 0, 0, 0]));
      parts.look.push(material, p[12], keeps, p[15]);
    };
    const n = (f.length - faceHead) / 2;
    for (let k = 2; k < n; k++) [0, k - 1, k].forEach((i) => add(corner(i)));
  }
  const g = new THREE.BufferGeometry();
  const sizes = { position: 3, place: 2, pattern: 2, grid: 2, map: 4, look: 4 };
  for (const [name, size] of Object.entries(sizes)) g.setAttribute(name, new THREE.BufferAttribute(new Float32Array(parts[name]), size));
  return g;
}

// lineGeometry gives the card lines, each a rectangle that the program lays along it.
function lineGeometry(body, lines) {
  const from = [], to = [], facing = [], pen = [];
  for (const [number, which, next, ...ends] of lines) {
    const p = body.planes[number], n = p ? p.slice(9, 12) : [0, 0, 0];
    from.push(...ends.slice(0, 3).map((v) => v * tenth));
    to.push(...ends.slice(3).map((v) => v * tenth));
    facing.push(...n, p ? dot(n, p) : 0);
    pen.push(which, next / 1000);
  }
  const g = new THREE.InstancedBufferGeometry();
  g.setAttribute("position", new THREE.BufferAttribute(new Float32Array([0, -1, 0, 1, -1, 0, 1, 1, 0, 0, -1, 0, 1, 1, 0, 0, 1, 0]), 3));
  const each = (name, list, size) => g.setAttribute(name, new THREE.InstancedBufferAttribute(new Float32Array(list), size));
  each("from", from, 3);
  each("to", to, 3);
  each("facing", facing, 4);
  each("pen", pen, 2);
  g.instanceCount = lines.length;
  return g;
}
