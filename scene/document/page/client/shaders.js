// The programs of the graphics card. Colours are as the screen shows them: all light is worked out on the way to a tone.

const toneOf = `
  // How bright a picture shows a brightness: the sRGB curve (IEC 61966-2-1), so that the picture's contrast is the wall's,
  // with a shoulder for what is brighter than it can show.
  float tone(float v) {
    const float shoulder = 0.60, k = 4.42 / (1.0 - shoulder);
    if (v > shoulder) v = shoulder + (1.0 - shoulder) * log(1.0 + k * (v - shoulder)) / log(1.0 + k * (8.0 - shoulder));
    return v <= 0.0031308 ? v * 12.92 : 1.055 * pow(v, 1.0 / 2.4) - 0.055;
  }`;

const faceVertex = `
  uniform mat4 projectionMatrix, viewMatrix;
  in vec3 position; // in the building
  in vec2 place;    // on the face's plane, metres
  in vec2 pattern;  // in the material's pattern
  in vec2 grid;     // in the plane's light map
  in vec4 map;      // where that lies among all light maps, and its size; none: 0
  in vec4 look;     // material, brightness, what it keeps under a lamp (a coat: -1), what a lamp throws on it
  out vec2 vPlace, vPattern, vGrid;
  out vec3 vPosition;
  flat out vec4 vMap, vLook;
  void main() {
    vPlace = place; vPattern = pattern; vGrid = grid; vMap = map; vLook = look; vPosition = position;
    gl_Position = projectionMatrix * viewMatrix * vec4(position, 1.0);
  }`;

const faceFragment = `
  precision highp float;
  precision highp sampler2DArray;
  uniform sampler2DArray patterns;
  uniform sampler2D maps, relief;
  uniform vec2 mapSize, reliefFrom, reliefSize;
  uniform vec3 dark[MATERIALS], light[MATERIALS];
  uniform int layer[MATERIALS], paint;
  uniform bool raking;
  uniform vec3 lamp, eye; // direction to the lamp, and the eye, in the axes of the body's faces
  uniform vec3 power;     // of the lamp, of its mirror image, and of light from all sides
  uniform vec2 gloss;     // strength and exponent of the coat's lobe
  in vec2 vPlace, vPattern, vGrid;
  in vec3 vPosition;
  flat in vec4 vMap, vLook;
  out vec4 colour;
  ${toneOf}
  // coat is the brightness of an uneven painted face: Lambert's light, and the lobe of J. Blinn (1977) about the mirror
  // direction. Where the slope turns away from the lamp it lies in its own shadow.
  float coat(float contact) {
    vec2 slope = (texture(relief, (vPlace - reliefFrom) / reliefSize).rg - 0.5) * 2.0 * FULL_SLOPE;
    float sum = power.z + power.x * max(0.0, lamp.z - dot(slope, lamp.xy));
    sum *= contact * contact;
    if (gloss.x > 0.0) {
      vec3 half_ = lamp + normalize(eye - vec3(vPlace, 0.0));
      vec2 off = half_.xy / max(half_.z, 1e-6) + slope;
      if (dot(off, off) < 1.0) sum += power.y * gloss.x * pow(1.0 + dot(off, off), -gloss.y / 2.0);
    }
    return sum;
  }
  void main() {
    float contact = 1.0;
    if (vMap.z > 0.0) contact = texture(maps, (vMap.xy + clamp(vGrid, vec2(0.0), vMap.zw - 1.0) + 0.5) / mapSize).r;
    int material = int(vLook.x + 0.5);
    if (raking && vLook.z < 0.0) {
      colour = vec4(mix(dark[paint], light[paint], min(1.0, tone(coat(contact)))), 1.0);
      return;
    }
    float t = texture(patterns, vec3(vPattern, float(layer[material]))).r;
    float bright = vLook.y;
    if (!raking || vLook.z < 0.0) bright *= contact;
    else if (vLook.z > 0.0) bright *= vLook.z * contact;
    else bright *= tone(vLook.w * contact * contact);
    colour = vec4(mix(dark[material], light[material], t) * bright, 1.0);
  }`;

const lineVertex = `
  uniform mat4 projectionMatrix, viewMatrix;
  uniform vec3 eye;        // in the building
  uniform vec2 picture;    // pixels
  uniform float focal, scale; // pixels to the picture plane; device pixels of a pen's pixel
  uniform vec4 pens[PENS]; // width, opacity, twofold, unused
  in vec3 position;        // corner of the stroke: along it 0 or 1, across it -1 or 1
  in vec3 from, to;
  in vec4 facing;          // normal of the plane that it is seen with, and the plane's distance; none: 0
  in vec2 pen;             // which, and the metres to the next such line
  out float vAcross, vRun, vLong, vFade;
  flat out int vPen;
  const float near = 0.02, faded = FADE_FROM, plain = FADE_TO;
  void main() {
    vPen = int(pen.x + 0.5);
    float wide = pens[vPen].x * scale;
    gl_Position = vec4(2.0, 2.0, 2.0, 1.0); // out of sight
    vAcross = vRun = vLong = vFade = 0.0;
    if (wide <= 0.0 || facing.xyz != vec3(0.0) && dot(facing.xyz, eye) < facing.w + 1e-4) return;
    vec3 a = (viewMatrix * vec4(from, 1.0)).xyz, b = (viewMatrix * vec4(to, 1.0)).xyz;
    if (a.z > -near && b.z > -near) return;
    if (a.z > -near) a = mix(a, b, (a.z + near) / (a.z - b.z));
    if (b.z > -near) b = mix(b, a, (b.z + near) / (b.z - a.z));
    vFade = 1.0;
    if (pen.y > 0.0) vFade = clamp((pen.y * focal / min(-a.z, -b.z) / scale - faded) / (plain - faded), 0.0, 1.0);
    vec2 pa = a.xy / -a.z * focal, pb = b.xy / -b.z * focal;
    vLong = length(pb - pa);
    if (vFade <= 0.0 || vLong < 1e-3) return;
    vec2 along = (pb - pa) / vLong, across = vec2(-along.y, along.x);
    float reach = wide / 2.0 + 1.0, end = position.x < 0.5 ? -reach : reach;
    vAcross = position.y * reach;
    vRun = position.x * vLong + end;
    vec2 p = (position.x < 0.5 ? pa : pb) + along * end + across * vAcross;
    // It has the depth of the plane that it lies on, or of its own axis where that is nearer, as in an inside corner; and
    // both a little nearer than they are. All is counted in the reciprocal, which runs straight over the picture.
    float axis = 1.0 / -(position.x < 0.5 ? a : b).z, deep = axis * (1.0 + 0.1 * (wide / 2.0 + 0.5) / focal);
    if (facing.xyz != vec3(0.0)) {
      float own = dot(mat3(viewMatrix) * facing.xyz, vec3(p / focal, -1.0)) / (facing.w - dot(facing.xyz, eye));
      deep = max(deep, min(own, axis * 1.5));
    }
    vec4 clip = projectionMatrix * vec4(0.0, 0.0, -1.0 / (deep * (1.0 + 2e-4)), 1.0);
    gl_Position = vec4(p / (picture / 2.0), clip.z / clip.w, 1.0);
  }`;

const lineFragment = `
  precision highp float;
  uniform float scale;
  uniform vec4 pens[PENS], dashes[PENS]; // pixels down, up, down, up; solid: 0
  uniform vec3 inks[PENS];
  in float vAcross, vRun, vLong, vFade;
  flat in int vPen;
  out vec4 colour;
  void main() {
    float wide = pens[vPen].x * scale, off = abs(vAcross);
    float cover = min(wide / 2.0 + 0.5 - off, min(1.0, wide));
    if (pens[vPen].z > 0.0) cover *= clamp(off - wide / 6.0 + 0.5, 0.0, 1.0);
    cover *= clamp(vRun + wide / 2.0 + 0.5, 0.0, 1.0) * clamp(vLong - vRun + wide / 2.0 + 0.5, 0.0, 1.0);
    vec4 dash = dashes[vPen] * scale;
    float period = dash.x + dash.y + dash.z + dash.w;
    if (period > 0.0) {
      float run = mod(vRun, period), first = dash.x + dash.y;
      float in_ = run < first ? run : run - first, down = run < first ? dash.x : dash.z;
      cover *= in_ < down ? min(1.0, min(in_, down - in_) + 0.5) : 0.0;
    }
    float alpha = max(0.0, cover) * pens[vPen].y * vFade;
    if (alpha <= 0.0) discard;
    colour = vec4(inks[vPen] * alpha, alpha);
  }`;
