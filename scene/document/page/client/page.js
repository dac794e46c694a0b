// The page: its controls, and which of the alternatives its figures tell. Without this script, or without a graphics card,
// it is whole but for the turning: still pictures stand in the room's place.

document.documentElement.classList.add("lively");

const stage = document.getElementById("stage");
const canvas = document.getElementById("room");
const say = (words) => { document.getElementById("said").textContent = words; };
const chosen = (name) => document.querySelector(`input[name=${name}]:checked`);

// tell shows the figures, dates and the still picture of an alternative.
function tell(number) {
  for (const part of document.querySelectorAll("[data-variant]")) {
    part.hidden = part.dataset.variant !== String(number);
  }
  for (const cell of document.querySelectorAll("[data-column]")) {
    cell.classList.toggle("chosen", cell.dataset.column === String(number));
  }
}

for (const choice of document.querySelectorAll("input[name=variant]")) {
  choice.addEventListener("change", () => tell(Number(choice.value)));
}
tell(0);

// liven has the graphics card draw the room.
async function liven() {
  if (!document.createElement("canvas").getContext("webgl2")) throw new Error("no graphics card");
  const packed = await unpack("packed");
  const patterns = await unpackPatterns("patterns", packed.side);
  const room = new Room(canvas, packed, patterns);
  const dark = matchMedia("(prefers-color-scheme: dark)");
  const still = matchMedia("(prefers-reduced-motion: reduce)");
  let camera = packed.views[0].camera, place = 0, waiting = false, moved = false, motion = 0;
  const size = () => [stage.clientWidth, stage.clientHeight];
  const whole = (c) => frame(c, room.corners, ...size());

  function paint() {
    waiting = false;
    room.draw(camera, ...size(), Math.min(devicePixelRatio, 2));
    stage.dataset.drawn = String(Number(stage.dataset.drawn || 0) + 1);
  }
  function redraw() {
    if (waiting) return;
    waiting = true;
    requestAnimationFrame(paint);
  }
  // travel takes the eye to another camera: at once where motion is not wanted.
  function travel(to) {
    const from = camera, begin = performance.now(), mine = ++motion;
    const go = (now) => {
      if (mine !== motion) return;
      const t = still.matches ? 1 : clamp((now - begin) / 450, 0, 1);
      camera = between(from, to, t);
      redraw();
      if (t < 1) requestAnimationFrame(go);
    };
    go(still.matches ? Infinity : begin);
  }
  function stand(number) {
    place = number;
    moved = false;
    const v = packed.views[number];
    travel(v.inside ? v.camera : whole(v.camera));
    say(v.name);
  }
  takeHands(canvas, { inside: () => packed.views[place].inside, reset: () => stand(place) }, (change) => {
    motion++;
    moved = true;
    camera = change(camera);
    redraw();
  });
  for (const choice of document.querySelectorAll("input[name=variant]")) {
    choice.addEventListener("change", () => { room.show(Number(choice.value)); redraw(); });
  }
  for (const choice of document.querySelectorAll("input[name=place]")) {
    choice.addEventListener("change", () => stand(Number(choice.value)));
  }
  for (const [id, name] of [["joints", "joints"], ["light", "raking"]]) {
    const box = document.getElementById(id);
    const follow = () => {
      room[name] = box.checked;
      document.documentElement.classList.toggle("shows-" + id, box.checked);
      room.setLook();
      redraw();
    };
    box.addEventListener("change", follow);
    follow();
  }
  const scheme = () => { room.dark = dark.matches; room.setLook(); redraw(); };
  dark.addEventListener("change", scheme);
  scheme();
  new ResizeObserver(() => {
    if (!moved && !packed.views[place].inside) camera = whole(camera);
    redraw();
  }).observe(stage);
  canvas.addEventListener("webglcontextlost", () => document.documentElement.classList.remove("turning"));
  room.show(Number(chosen("variant")?.value ?? 0));
  camera = whole(camera);
  document.documentElement.classList.add("turning");
  paint();
  return { room, get camera() { return camera; }, set camera(c) { motion++; moved = true; camera = c; paint(); } };
}

if (typeof THREE !== "undefined") {
  liven().catch((why) => {
    document.documentElement.classList.remove("turning");
    document.getElementById("cannot").hidden = false;
    document.documentElement.dataset.why = String(why?.message ?? why); // for whoever is asked for help
  });
}
