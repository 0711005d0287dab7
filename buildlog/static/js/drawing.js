// Every drawing can be looked at more closely; without script it is a plain picture.
//   Larger, Smaller, Whole under it; + - 0 and the arrow keys while one of them or the drawing has the focus
//   the wheel with Ctrl, or while the drawing has the focus; two fingers; one finger or the mouse moves it
// The drawing stays lines: only its viewBox changes. It says "drawing-view" when it does.

const LARGEST = 32;
const STEP = 1.5;
const PAN = 0.15; // of what is seen, by an arrow key
const TURNS = { "+": STEP, "=": STEP, "-": 1 / STEP, _: 1 / STEP, 0: 0 };
const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
const known = new WeakSet();

class View {
  constructor(svg) {
    const box = svg.viewBox.baseVal;
    this.svg = svg;
    this.whole = { x: box.x, y: box.y, width: box.width, height: box.height };
    this.now = { ...this.whole };
    this.fingers = new Map();
    svg.tabIndex = -1;
    svg.classList.add("looked-at");
    this.tools();
    this.listen();
  }
  get isWhole() {
    return this.now.width > this.whole.width * 0.999;
  }
  tools() {
    const bar = document.createElement("div");
    bar.className = "drawing-tools";
    bar.setAttribute("role", "group");
    bar.setAttribute("aria-label", "Size of the drawing");
    this.buttons = ["Larger", "Smaller", "Whole"].map((word) => {
      const button = document.createElement("button");
      button.type = "button";
      button.className = "button plain";
      button.textContent = word;
      button.addEventListener("click", () => this.zoom({ Larger: STEP, Smaller: 1 / STEP, Whole: 0 }[word]));
      bar.append(button);
      return button;
    });
    this.svg.after(bar);
    this.show();
  }
  show() {
    const [larger, smaller, whole] = this.buttons;
    const had = document.activeElement;
    smaller.hidden = whole.hidden = this.isWhole;
    larger.disabled = this.now.width <= this.whole.width / (LARGEST * 0.999);
    if (had?.hidden || (had === larger && larger.disabled)) (larger.disabled ? smaller : larger).focus({ preventScroll: true });
    this.svg.classList.toggle("zoomed", !this.isWhole);
  }
  // Where a point of the screen lies on the drawing.
  point(event) {
    const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(this.svg.getScreenCTM().inverse());
    return [at.x, at.y];
  }
  look(box) {
    const { whole } = this;
    const width = Math.min(whole.width, Math.max(whole.width / LARGEST, box.width));
    const height = (width / whole.width) * whole.height;
    const within = (at, least, room) => Math.min(Math.max(at, least), least + room);
    this.now = {
      x: within(box.x, whole.x, whole.width - width),
      y: within(box.y, whole.y, whole.height - height),
      width,
      height,
    };
    const { x, y } = this.now;
    this.svg.setAttribute("viewBox", [x, y, width, height].map((each) => +each.toFixed(4)).join(" "));
    this.show();
    this.svg.dispatchEvent(new CustomEvent("drawing-view", { bubbles: true }));
  }
  zoom(times, about) {
    if (!times) return this.look(this.whole);
    const [x, y] = about ?? [this.now.x + this.now.width / 2, this.now.y + this.now.height / 2];
    const width = Math.min(this.whole.width, Math.max(this.whole.width / LARGEST, this.now.width / times));
    const share = width / this.now.width;
    return this.look({ x: x - (x - this.now.x) * share, y: y - (y - this.now.y) * share, width });
  }
  pan(right, down) {
    this.look({ ...this.now, x: this.now.x + right, y: this.now.y + down });
  }
  listen() {
    const { svg, fingers } = this;
    svg.addEventListener(
      "wheel",
      (event) => {
        if (!event.ctrlKey && !svg.contains(document.activeElement)) return;
        event.preventDefault();
        this.zoom(Math.exp(-Math.max(-60, Math.min(60, event.deltaY)) / 150), this.point(event));
      },
      { passive: false },
    );
    svg.parentElement.addEventListener("keydown", (event) => this.key(event));
    svg.addEventListener("pointerdown", (event) => {
      if (event.button !== 0) return;
      fingers.set(event.pointerId, this.point(event));
      if (!this.isWhole && fingers.size === 1) svg.setPointerCapture(event.pointerId);
    });
    svg.addEventListener("pointermove", (event) => {
      if (!fingers.has(event.pointerId)) return;
      if (fingers.size === 2) this.pinch(event);
      else if (!this.isWhole && fingers.size === 1) {
        const [from, to] = [fingers.get(event.pointerId), this.point(event)];
        this.pan(from[0] - to[0], from[1] - to[1]);
        fingers.set(event.pointerId, this.point(event));
      }
    });
    for (const end of ["pointerup", "pointercancel", "lostpointercapture", "pointerleave"]) {
      svg.addEventListener(end, (event) => fingers.delete(event.pointerId));
    }
    // One finger moves the page while the whole is seen; two are for the drawing.
    for (const touch of ["touchstart", "touchmove"]) {
      const mine = (event) => event.touches.length > 1 && event.cancelable && event.preventDefault();
      svg.addEventListener(touch, mine, { passive: false });
    }
  }
  pinch(event) {
    const other = [...this.fingers].find(([id]) => id !== event.pointerId)[1];
    const [from, to] = [this.fingers.get(event.pointerId), this.point(event)];
    const apart = (one) => Math.hypot(one[0] - other[0], one[1] - other[1]);
    if (apart(from) < 1e-6) return;
    this.zoom(apart(to) / apart(from), other);
    this.fingers.set(event.pointerId, this.point(event));
  }
  key(event) {
    if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey || event.target.matches("input, select, textarea")) return;
    const arrow = ARROWS[event.key];
    if (event.key in TURNS) this.zoom(TURNS[event.key]);
    else if (arrow && !this.isWhole) this.pan(arrow[0] * PAN * this.now.width, arrow[1] * PAN * this.now.height);
    else return;
    event.preventDefault();
  }
}

function begin(root) {
  for (const svg of root.querySelectorAll("div.drawing > svg")) {
    if (known.has(svg) || !svg.viewBox.baseVal?.width) continue;
    known.add(svg);
    const view = new View(svg);
    svg.addEventListener("drawing-look", (event) => view.look(event.detail));
  }
}
begin(document);
document.addEventListener("htmx:load", (event) => event.target !== document.body && begin(event.target.parentElement ?? document));
