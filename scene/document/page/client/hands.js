// Hands on the picture: one finger or the mouse turns, two fingers move and zoom, the wheel zooms while the picture has
// the focus, keys do all of it. Seen from outside the room turns about its middle; inside it the eye looks round.

const perPixel = 0.008; // radians that a pixel turns
const perKey = Math.PI / 24;
const step = 0.4; // metres of a step inside

// takeHands calls move with a change of the camera for whatever hands do. view tells the size and the camera.
function takeHands(canvas, view, move) {
  const turn = (dx, dy) => move((c) => view.inside() ? look(c, -dx * perPixel / 2, dy * perPixel / 2) : orbit(c, targetOf(c), dx * perPixel, -dy * perPixel));
  const nearer = (factor) => move((c) => view.inside() ? walk(c, Math.log2(factor) * 2, 0) : zoom(c, factor));
  const fingers = new Map();
  canvas.addEventListener("pointerdown", (e) => {
    canvas.setPointerCapture(e.pointerId);
    fingers.set(e.pointerId, [e.clientX, e.clientY]);
  });
  canvas.addEventListener("pointermove", (e) => {
    const before = fingers.get(e.pointerId);
    if (!before) return;
    const dx = e.clientX - before[0], dy = e.clientY - before[1];
    if (fingers.size === 1) {
      if (e.shiftKey || e.buttons === 2) move((c) => pan(c, dx, dy, canvas.clientHeight));
      else turn(dx, dy);
    } else {
      const other = [...fingers].find(([id]) => id !== e.pointerId)[1];
      const gap = (p) => Math.max(1, Math.hypot(p[0] - other[0], p[1] - other[1]));
      nearer(gap([e.clientX, e.clientY]) / gap(before));
      move((c) => pan(c, dx / 2, dy / 2, canvas.clientHeight));
    }
    fingers.set(e.pointerId, [e.clientX, e.clientY]);
  });
  for (const kind of ["pointerup", "pointercancel", "lostpointercapture"]) {
    canvas.addEventListener(kind, (e) => fingers.delete(e.pointerId));
  }
  canvas.addEventListener("contextmenu", (e) => e.preventDefault());
  canvas.addEventListener("wheel", (e) => {
    if (document.activeElement !== canvas) return; // the page scrolls on
    e.preventDefault();
    nearer(Math.exp(-clamp(e.deltaY, -100, 100) / 400));
  }, { passive: false });
  const keys = {
    ArrowLeft: () => turn(-perKey / perPixel, 0), ArrowRight: () => turn(perKey / perPixel, 0),
    ArrowUp: () => turn(0, -perKey / perPixel), ArrowDown: () => turn(0, perKey / perPixel),
    "+": () => nearer(1.2), "=": () => nearer(1.2), "-": () => nearer(1 / 1.2), Home: () => view.reset(),
  };
  const strides = { ArrowLeft: [0, -step], ArrowRight: [0, step], ArrowUp: [step, 0], ArrowDown: [-step, 0] };
  canvas.addEventListener("keydown", (e) => {
    if (e.ctrlKey || e.altKey || e.metaKey) return;
    const stride = view.inside() && e.shiftKey && strides[e.key];
    if (!stride && !keys[e.key]) return;
    e.preventDefault();
    if (stride) move((c) => walk(c, ...stride));
    else keys[e.key]();
  });
}
