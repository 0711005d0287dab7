// Holes on the plan of a face, picked and moved with the hand. Without script the plan is a picture and places are typed.
//   [data-plan]     the ground of a plan: data-part, data-face, data-unit, data-bare; data-move where it may be changed
//   .at-hole        a hole, with its names and its u, v; [data-number] its number beside it
//   tr[data-of]     its row, which follows while it moves
// A move is sent like a form; the page that answers is put in the place of this one's, with what the check says now.

const STEPS = { mm: ["0.1", "0.5", "1", "5"], in: ["1/64", "1/32", "1/16", "1/8"] };
const FIRST_STEP = { mm: "1", in: "1/16" };
const STEP_KEPT = "oddleg step ";
const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
const THUMB_PX = 14; // half of what a thumb can hit
const STILL_PX = 4;
const PAUSE_MS = 900;
const SETTLED_MS = 1500;
const HINT = "plan-hint";
const HINT_WORDS =
  "Drag a hole (with a finger, tap it first), or pick it and press the arrow keys: Shift is ten steps, Alt is free, Page Down the next hole, Escape lets go.";
const SVG = "http://www.w3.org/2000/svg";
const plans = new Set();
let carried = null; // keys that were pressed while a move was being saved

const live = document.createElement("div");
live.className = "unseen";
live.setAttribute("role", "status");
document.body.append(live);
const tell = (words) => {
  live.textContent = words;
};

// ---- numbers as a person reads and types them
function fraction(mm) {
  const parts = Math.round((mm / 25.4) * 64);
  if (Math.abs((parts * 25.4) / 64 - mm) > 1e-4) return String(+(mm / 25.4).toFixed(4));
  const [whole, rest] = [Math.trunc(parts / 64), Math.abs(parts % 64)];
  if (!rest) return String(whole);
  let [top, bottom] = [rest, 64];
  while (top % 2 === 0) [top, bottom] = [top / 2, bottom / 2];
  return `${whole ? `${whole} ` : parts < 0 ? "-" : ""}${top}/${bottom}`;
}
const sizeOf = (text, unit) => {
  const [top, bottom] = text.split("/").map(Number);
  return (bottom ? top / bottom : top) * (unit === "in" ? 25.4 : 1);
};
function kept(key, fallback) {
  try {
    return localStorage.getItem(key) ?? fallback;
  } catch {
    return fallback;
  }
}
function keep(key, value) {
  try {
    localStorage.setItem(key, value);
  } catch {
    /* then it is not kept */
  }
}
function make(tag, words, options = {}) {
  const one = Object.assign(document.createElement(tag), options);
  one.append(...[words].flat());
  return one;
}

class Hole {
  constructor(plan, group) {
    const { data } = { data: group.dataset };
    Object.assign(this, { plan, group, number: data.hole, key: data.key ?? "", joint: data.joint ?? "", place: data.place ?? "" });
    Object.assign(this, { follows: data.follows ?? "", seen: data.seen ?? "", words: data.words, isFree: "free" in data && plan.mayMove });
    this.u = this.wasU = Number(data.u);
    this.v = this.wasV = Number(data.v);
    this.reach = Number(data.reach) || 0;
    this.label = plan.svg.querySelector(`[data-number="${data.hole}"]`);
    const [x, y] = plan.at(this.u, this.v);
    this.hit = document.createElementNS(SVG, "circle");
    for (const [name, value] of Object.entries({ class: "hit", cx: x, cy: y, fill: "transparent" })) this.hit.setAttribute(name, value);
    group.append(this.hit);
    group.setAttribute("role", "button");
    group.setAttribute("tabindex", "-1");
    if (plan.hint) group.setAttribute("aria-describedby", plan.hint.id);
    this.name();
  }
  get id() {
    return this.key ? `own ${this.key}` : `${this.joint} ${this.place}`;
  }
  get row() {
    const of = (text) => document.querySelector(`tr[data-of="${CSS.escape(text)}"]`);
    return of(`${this.plan.part}/${this.number}`) ?? (this.joint && !this.follows ? of(`${this.joint}/${this.place}`) : null);
  }
  get hasMoved() {
    return Math.hypot(this.u - this.wasU, this.v - this.wasV) > 1e-6;
  }
  get where() {
    return `${this.plan.say(this.u)}, ${this.plan.sayV(this.v)}`;
  }
  name() {
    this.group.setAttribute("aria-label", `${this.words}, at ${this.where}`);
  }
  // Put it somewhere: the drawing, its row and the read-out follow.
  put(u, v) {
    const within = (value, [least, most]) => Math.min(Math.max(value, least), most);
    this.u = within(u, this.plan.uRange);
    this.v = within(v, this.plan.vRange);
    const { scale } = this.plan;
    const by = `translate(${((this.u - this.wasU) * scale).toFixed(4)} ${((this.wasV - this.v) * scale).toFixed(4)})`;
    for (const each of [this.group, this.label]) if (each) this.hasMoved ? each.setAttribute("transform", by) : each.removeAttribute("transform");
    const { row } = this;
    for (const [heads, text] of [[["u", "u:"], this.plan.say(this.u)], [["v", "v:", "at"], this.plan.sayV(this.v)]]) {
      const cell = heads.map((head) => row?.querySelector(`td[data-head="${head}"]`)).find(Boolean);
      if (!cell) continue;
      cell.dataset.was ??= cell.innerHTML;
      if (this.hasMoved) cell.textContent = text;
      else cell.innerHTML = cell.dataset.was;
    }
    this.name();
    this.plan.readOut();
  }
}

class Plan {
  constructor(ground, svg) {
    const data = svg.dataset;
    Object.assign(this, { ground, svg, part: ground.dataset.part, face: ground.dataset.face, unit: ground.dataset.unit, bare: ground.dataset.bare });
    this.mayMove = Boolean(ground.dataset.move);
    [this.x, this.y] = data.datum.split(" ").map(Number);
    this.scale = Number(data.scale);
    this.uRange = data.uRange.split(" ").map(Number);
    this.vRange = data.vRange.split(" ").map(Number);
    this.degrees = Number(data.degrees ?? 0);
    this.step = sizeOf(kept(STEP_KEPT + this.unit, FIRST_STEP[this.unit]), this.unit) || 1;
    this.picked = this.held = this.cross = null;
    this.tools();
    this.holes = [...svg.querySelectorAll(".at-hole")].map((group) => new Hole(this, group));
    this.holes[0]?.group.setAttribute("tabindex", "0");
    svg.setAttribute("role", "group");
    svg.setAttribute("aria-label", svg.querySelector("title").textContent);
    this.size();
    this.listen();
  }
  at(u, v) {
    return [this.x + u * this.scale, this.y - v * this.scale];
  }
  get px() {
    return this.svg.getScreenCTM()?.a || 1;
  }
  // A place of the screen in u, v.
  uv(event) {
    const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(this.svg.getScreenCTM().inverse());
    return [(at.x - this.x) / this.scale, (this.y - at.y) / this.scale];
  }
  say(mm) {
    return this.unit === "in" ? fraction(mm) : String(+mm.toFixed(3));
  }
  sayV(mm) {
    return this.degrees ? `${+(((mm * this.degrees) % 360 + 360) % 360).toFixed(2)}°` : this.say(mm);
  }
  type(mm) {
    return this.unit === this.bare ? this.say(mm) : `${this.say(mm)} ${this.unit}`;
  }
  typeV(mm) {
    return this.degrees ? `${this.sayV(mm).slice(0, -1)} deg` : this.type(mm);
  }
  get stepV() {
    return this.degrees ? 1 / this.degrees : this.step;
  }
  snap(value, step) {
    return Math.round(value / step) * step;
  }

  // ---- what stands under the drawing
  tools() {
    this.readout = make("output", "", { className: "readout" });
    this.bar = make("div", [], { className: "hole-tools" });
    this.svg.after(this.bar);
    const closer = this.svg.parentElement.querySelector(":scope > .drawing-tools");
    this.bar.append(...(closer ? [closer] : []), this.readout);
    if (!this.mayMove) return;
    const choose = make("select", STEPS[this.unit].map((step) => make("option", `${step} ${this.unit}`, { value: step })));
    choose.value = kept(STEP_KEPT + this.unit, FIRST_STEP[this.unit]);
    if (!choose.value) choose.value = FIRST_STEP[this.unit];
    choose.addEventListener("change", () => {
      keep(STEP_KEPT + this.unit, choose.value);
      for (const each of plans) if (each.unit === this.unit) each.step = sizeOf(choose.value, this.unit);
    });
    this.adder = make("button", this.ground.dataset.joint ? "One more place" : "Place a hole", { type: "button", className: "button plain" });
    this.adder.addEventListener("click", () => (this.cross ? this.leave() : this.aim()));
    this.hint = document.getElementById(HINT) ?? make("p", HINT_WORDS, { className: "hint", id: HINT });
    if (!this.hint.isConnected) this.ground.append(this.hint);
    this.bar.append(make("label", ["Step ", choose]), this.adder);
  }
  readOut() {
    const hole = this.picked;
    this.readout.textContent = hole ? `hole ${hole.number} at ${hole.where}` : "";
  }
  // Hit areas are as large as a thumb, whatever the drawing is magnified to.
  size() {
    for (const hole of this.holes) hole.hit.setAttribute("r", Math.max(THUMB_PX / this.px, hole.reach * this.scale).toFixed(3));
    this.cross?.firstChild.setAttribute("stroke-width", 1.5 / this.px);
  }
  nearest(event) {
    const [u, v] = this.uv(event);
    const found = this.holes
      .map((hole) => [Math.hypot(hole.u - u, hole.v - v), hole])
      .filter(([away, hole]) => away * this.scale <= Math.max(THUMB_PX / this.px, hole.reach * this.scale));
    return found.sort((one, other) => one[0] - other[0])[0]?.[1] ?? null;
  }

  // ---- picking
  pick(hole, { focus = true } = {}) {
    if (this.picked === hole) {
      if (focus) hole?.group.focus({ preventScroll: true });
      return;
    }
    for (const plan of plans) if (plan !== this) plan.drop();
    this.drop();
    this.picked = hole;
    for (const each of this.holes) each.group.setAttribute("tabindex", each === hole ? "0" : "-1");
    hole.group.classList.add("picked");
    hole.group.setAttribute("aria-pressed", "true");
    const { row } = hole;
    row?.classList.add("picked");
    if (row) this.bringNear(row);
    this.readOut();
    if (focus) hole.group.focus({ preventScroll: true });
  }
  drop() {
    const hole = this.picked;
    if (!hole) return;
    if (hole.hasMoved && !this.saving && !this.strip) this.save(hole);
    hole.group.classList.remove("picked");
    hole.group.removeAttribute("aria-pressed");
    hole.row?.classList.remove("picked");
    this.picked = null;
    this.readOut();
  }
  // Scroll to the row as far as the drawing stays in sight.
  bringNear(row) {
    const [box, mine] = [row.getBoundingClientRect(), this.svg.getBoundingClientRect()];
    const by = box.top < 0 ? box.top - 8 : box.bottom > innerHeight ? box.bottom - innerHeight + 8 : 0;
    if (by && mine.bottom - by > mine.height / 2 && mine.top - by < innerHeight - mine.height / 2) scrollBy({ top: by, behavior: "instant" });
  }

  // ---- the hand
  listen() {
    const { svg } = this;
    svg.addEventListener("drawing-view", () => this.size());
    svg.addEventListener("pointerdown", (event) => this.down(event), true);
    svg.addEventListener("pointermove", (event) => this.move(event), true);
    svg.addEventListener("pointerup", (event) => this.up(event), true);
    svg.addEventListener("pointercancel", () => this.cancel(), true);
    svg.addEventListener("focusin", (event) => {
      const hole = this.holes.find((each) => each.group === event.target);
      if (hole && this.picked !== hole) this.pick(hole, { focus: false });
    });
    svg.addEventListener("focusout", (event) => {
      // What could not be saved waits for the person, who may put it back.
      if (this.picked?.hasMoved && !this.held && !this.saving && !this.strip && !svg.contains(event.relatedTarget)) this.save(this.picked);
    });
    svg.addEventListener("keydown", (event) => this.key(event));
  }
  down(event) {
    if (event.button !== 0 || this.saving) return;
    if (this.cross) {
      event.stopPropagation();
      return;
    }
    const hole = this.nearest(event);
    if (!hole) return;
    const takes = event.pointerType !== "touch" || hole === this.picked;
    this.held = { hole, x: event.clientX, y: event.clientY, u: hole.u, v: hole.v, takes, moved: false, from: this.uv(event) };
    if (!takes) return; // a finger picks first, so that the page can be scrolled over the drawing
    event.stopPropagation();
    event.preventDefault();
    capture(this.svg, event.pointerId);
    this.pick(hole);
  }
  move(event) {
    if (this.cross) {
      this.toCross(...this.snapped(event, this.uv(event)));
      return;
    }
    const { held } = this;
    if (!held) return;
    if (Math.hypot(event.clientX - held.x, event.clientY - held.y) > STILL_PX) held.moved = true;
    if (!held.takes || !held.moved) return;
    event.stopPropagation();
    if (!held.hole.isFree) return;
    const now = this.uv(event);
    const to = [held.u + now[0] - held.from[0], held.v + now[1] - held.from[1]];
    const [u, v] = this.snapped(event, to);
    const own = (was, wants, snapped, step) => (!event.altKey && Math.abs(wants - was) < step / 2 ? was : snapped);
    held.hole.put(own(held.u, to[0], u, this.step), own(held.v, to[1], v, this.stepV));
  }
  snapped(event, [u, v]) {
    const fine = this.unit === "in" ? 0.0254 : 0.01;
    return event.altKey ? [this.snap(u, fine), this.snap(v, fine)] : [this.snap(u, this.step), this.snap(v, this.stepV)];
  }
  up(event) {
    if (this.cross) {
      event.stopPropagation();
      this.toCross(...this.snapped(event, this.uv(event)));
      this.place();
      return;
    }
    const { held } = this;
    this.held = null;
    if (!held) return;
    if (!held.takes) {
      if (!held.moved) this.pick(held.hole);
      return;
    }
    event.stopPropagation();
    if (held.moved && !held.hole.isFree) this.explain(held.hole);
    else if (held.hole.hasMoved) this.save(held.hole);
    else tell(`${held.hole.words}, at ${held.hole.where}`);
  }
  cancel() {
    if (this.held?.takes && this.held.moved) this.held.hole.put(this.held.u, this.held.v);
    this.held = null;
  }
  explain(hole) {
    const why = hole.follows ? `It follows from ${hole.follows}: move it there.` : "It cannot be moved here.";
    this.note(why, hole.follows ? [["Go there", () => location.assign(this.jointAddress(hole))]] : []);
  }
  jointAddress(hole) {
    return hole.row?.querySelector('a[href*="/joints/"]')?.href ?? location.href;
  }

  // ---- the keys
  key(event) {
    if (event.ctrlKey || event.metaKey || event.defaultPrevented) return;
    const arrow = ARROWS[event.key];
    if (this.cross) this.crossKey(event, arrow);
    else if (this.picked && this.picked.group === document.activeElement) this.holeKey(event, arrow);
    if (event.defaultPrevented) event.stopPropagation();
  }
  holeKey(event, arrow) {
    const hole = this.picked;
    const at = this.holes.indexOf(hole);
    const to = { PageDown: at + 1, PageUp: at - 1, Home: 0, End: this.holes.length - 1 }[event.key];
    if (arrow) {
      event.preventDefault();
      if (!hole.isFree) this.explain(hole);
      else this.nudge(hole, arrow, event);
    } else if (to !== undefined) {
      event.preventDefault();
      const next = this.holes[Math.min(Math.max(to, 0), this.holes.length - 1)];
      if (next !== hole) this.pick(next);
    } else if (event.key === "Enter" || event.key === " ") {
      event.preventDefault();
      if (hole.hasMoved) this.save(hole);
    } else if (event.key === "Escape") {
      event.preventDefault();
      clearTimeout(this.waiting);
      if (hole.hasMoved) hole.put(hole.wasU, hole.wasV);
      this.drop();
      this.svg.focus({ preventScroll: true });
      tell(`Hole ${hole.number} is let go.`);
    }
  }
  nudge(hole, [right, up], event) {
    const times = event.shiftKey ? 10 : 1;
    const [du, dv] = event.altKey ? [0.1, this.degrees ? 0.1 / this.degrees : 0.1] : [this.step, this.stepV];
    if (this.saving) {
      carried = carried ?? [0, 0];
      carried = [carried[0] + right * times * du, carried[1] + up * times * dv];
      return;
    }
    const near = (value) => Math.round(value * 1e6) / 1e6;
    hole.put(near(hole.u + right * times * du), near(hole.v + up * times * dv));
    tell(`hole ${hole.number} at ${hole.where}`);
    clearTimeout(this.waiting);
    this.waiting = setTimeout(() => hole.hasMoved && this.save(hole), PAUSE_MS);
  }

  // ---- one more
  aim(from = null) {
    const [x, y, width, height] = this.svg.getAttribute("viewBox").split(" ").map(Number);
    this.cross = document.createElementNS(SVG, "g");
    this.cross.setAttribute("class", "cross");
    const path = document.createElementNS(SVG, "path");
    path.setAttribute("d", "M-6 0H6M0 -6V6");
    this.cross.append(path);
    this.svg.append(this.cross);
    this.svg.classList.add("aiming");
    this.adder.textContent = "Leave it";
    this.size();
    const middle = [this.snap((x + width / 2 - this.x) / this.scale, this.step), this.snap((this.y - y - height / 2) / this.scale, this.stepV)];
    this.toCross(...(from ?? middle));
    this.svg.focus({ preventScroll: true });
    if (!from) tell(`A cross at ${this.say(this.crossAt[0])}, ${this.sayV(this.crossAt[1])}. Move it with the arrow keys; Enter places, Escape leaves it.`);
  }
  toCross(u, v) {
    const within = (value, [least, most]) => Math.min(Math.max(value, least), most);
    this.crossAt = [within(u, this.uRange), within(v, this.vRange)];
    this.cross.setAttribute("transform", `translate(${this.at(...this.crossAt).map((each) => each.toFixed(4)).join(" ")})`);
    this.readout.textContent = `at ${this.say(this.crossAt[0])}, ${this.sayV(this.crossAt[1])}`;
  }
  crossKey(event, arrow) {
    if (arrow) {
      const times = event.shiftKey ? 10 : 1;
      this.toCross(this.crossAt[0] + arrow[0] * times * this.step, this.crossAt[1] + arrow[1] * times * this.stepV);
      tell(this.readout.textContent);
    } else if (event.key === "Enter") this.place();
    else if (event.key === "Escape") this.leave();
    else return;
    event.preventDefault();
  }
  leave() {
    this.cross?.remove();
    this.cross = null;
    this.svg.classList.remove("aiming");
    this.adder.textContent = this.ground.dataset.joint ? "One more place" : "Place a hole";
    this.readOut();
  }
  place() {
    const [u, v] = this.crossAt;
    this.leave();
    if (this.ground.dataset.joint) {
      this.send({ joint: this.ground.dataset.joint, place: "", key: "", u: this.type(u), v: this.typeV(v), seen: "" }, null);
      return;
    }
    const last = this.holes.filter((hole) => hole.key).at(-1)?.seen ?? "";
    const what = /^\w+: (.*) at [^a-z]*(?:deg)?[^a-z]*$/.exec(last)?.[1] ?? (this.unit === "in" ? "dia 3/16 in" : `dia 5${this.bare === "mm" ? "" : " mm"}`);
    const entry = document.querySelector("#entry-holes-new");
    const line = `${this.face}: ${what} at ${this.type(u)}, ${this.typeV(v)}`;
    const before = entry.value.trim() ? `${entry.value.trimEnd()}\n` : "";
    entry.value = before + line;
    entry.dispatchEvent(new Event("input", { bubbles: true }));
    entry.focus();
    const from = before.length + this.face.length + 2;
    entry.setSelectionRange(from, from + what.length);
    tell(`${line}. Enter adds it.`);
  }

  // ---- saving
  save(hole) {
    clearTimeout(this.waiting);
    const { key, joint, place, seen } = hole;
    this.send({ key, joint, place, was_u: hole.wasU, was_v: hole.wasV, u: this.type(hole.u), v: this.typeV(hole.v), seen }, hole);
  }
  async send(fields, hole) {
    if (this.saving) return;
    this.saving = true;
    this.ground.setAttribute("aria-busy", "true");
    this.note("");
    const token = JSON.parse(document.body.getAttribute("hx-headers") ?? "{}");
    const body = new URLSearchParams({ ...fields, part: this.part, face: this.face, back: location.pathname + location.search });
    let answer = null;
    let text = "";
    try {
      answer = await fetch(this.ground.dataset.move, { method: "POST", body, headers: token });
      text = await answer.text();
    } catch {
      answer = null;
    }
    this.saving = false;
    this.ground.removeAttribute("aria-busy");
    const page = answer && [200, 409, 422].includes(answer.status) ? new DOMParser().parseFromString(text, "text/html") : null;
    const elsewhere = answer?.redirected && new URL(answer.url).pathname !== location.pathname;
    if (page?.querySelector("main#content") && !elsewhere) return swap(page, this, hole);
    const why = elsewhere ? "you are signed out; sign in in another window first" : answer ? `the server answered with a fault (${answer.status})` : "there is no connection";
    const again = ["Save it again", () => this.send(fields, hole)];
    const back = ["Put it back", () => (hole?.put(hole.wasU, hole.wasV), this.note(""))];
    this.note(`Not saved: ${why}. ${hole ? "The hole stays where you put it" : "The place is kept here"}.`, [again, back]);
    return null;
  }
  note(words, buttons = []) {
    this.strip?.remove();
    this.strip = null;
    if (!words) return;
    this.strip = make("div", [make("p", words)], { className: "strip plan-note" });
    const actions = make("div", [], { className: "actions" });
    for (const [word, act] of buttons) {
      const button = make("button", word, { type: "button", className: "button" });
      button.addEventListener("click", act);
      actions.append(button);
    }
    this.strip.append(actions);
    this.bar.before(this.strip);
    tell(words);
  }
}

const capture = (svg, id) => {
  try {
    svg.setPointerCapture(id);
  } catch {
    /* a pointer that is gone already */
  }
};

// The drawing stays under the hand while the rest of the page finds its place.
function holdStill(svg, top) {
  const back = () => svg.isConnected && scrollBy({ top: svg.getBoundingClientRect().top - top, behavior: "instant" });
  const watch = new ResizeObserver(back);
  const leave = () => {
    watch.disconnect();
    for (const each of ["wheel", "touchmove"]) removeEventListener(each, leave);
  };
  back();
  watch.observe(document.querySelector("main#content"));
  for (const each of ["wheel", "touchmove"]) addEventListener(each, leave, { passive: true });
  setTimeout(leave, SETTLED_MS);
}

// ---- the page that answered takes the place of this one's
function swap(page, plan, hole) {
  const old = document.querySelector("main#content");
  const fresh = document.adoptNode(page.querySelector("main#content"));
  const top = plan.svg.getBoundingClientRect().top;
  const view = plan.svg.getAttribute("viewBox").split(" ").map(Number);
  const whole = plan.svg.classList.contains("zoomed") ? view : null;
  const wide = plan.svg.parentElement.classList.contains("narrow") ? "narrow" : "broad";
  for (const each of plans) each.saving = true; // they are gone, and what leaves them saves nothing more
  plans.clear();
  old.replaceWith(fresh);
  document.title = page.title;
  for (const each of fresh.querySelectorAll(".scripted[hidden]")) each.hidden = false;
  window.htmx?.process(fresh);
  fresh.dispatchEvent(new CustomEvent("htmx:load", { bubbles: true }));
  const said = [...fresh.querySelectorAll(".messages p, .faults .fault, .conflict .fault")].map((each) => each.textContent.trim());
  tell(said.join(" "));
  const next = [...plans].find((each) => each.part === plan.part && each.face === plan.face && each.svg.parentElement.classList.contains(wide));
  if (!next) {
    const first = fresh.querySelector("[autofocus]") ?? fresh.querySelector(".faults.whole, form.conflict") ?? fresh.querySelector("h1");
    if (!first.matches("input")) first.tabIndex = -1;
    first.focus();
    scrollTo({ top: 0, behavior: "instant" });
    return;
  }
  if (whole) next.svg.dispatchEvent(new CustomEvent("drawing-look", { detail: { x: whole[0], y: whole[1], width: whole[2] } }));
  holdStill(next.svg, top);
  const same = hole
    ? next.holes.filter((each) => each.id === hole.id).sort((a, b) => Math.hypot(a.u - hole.u, a.v - hole.v) - Math.hypot(b.u - hole.u, b.v - hole.v))[0]
    : null;
  if (same) next.pick(same);
  else if (plan.crossAt && next.adder && next.ground.dataset.joint) next.aim(plan.crossAt); // places go on until they are left
  else next.svg.focus({ preventScroll: true });
  if (carried && same?.isFree) {
    const [du, dv] = carried;
    same.put(same.u + du, same.v + dv);
    next.waiting = setTimeout(() => same.hasMoved && next.save(same), PAUSE_MS);
  }
  carried = null;
}

// ---- a row picks its hole
function ofRow(event) {
  const row = event.target.closest?.("tr[data-of]");
  if (!row) return null;
  for (const plan of plans) {
    if (!plan.svg.checkVisibility?.()) continue;
    const hole = plan.holes.find((each) => each.row === row);
    if (hole) return [plan, hole, row];
  }
  return null;
}
document.addEventListener("click", (event) => {
  const found = event.target.closest?.("a, button, input, select, textarea") ? null : ofRow(event);
  if (found) found[0].pick(found[1], { focus: false });
});
document.addEventListener("focusin", (event) => {
  const found = event.target.closest?.("tr[data-of]") ? ofRow(event) : null;
  if (found) found[0].pick(found[1], { focus: false });
});
for (const [kind, on] of [["pointerover", true], ["pointerout", false]]) {
  document.addEventListener(kind, (event) => ofRow(event)?.[1].group.classList.toggle("near", on));
}
addEventListener("resize", () => plans.forEach((plan) => plan.size()));

function begin() {
  for (const ground of document.querySelectorAll("[data-plan]")) {
    for (const svg of ground.querySelectorAll("svg[data-datum]")) {
      if ([...plans].some((plan) => plan.svg === svg)) continue;
      plans.add(new Plan(ground, svg));
    }
  }
}
begin();
document.addEventListener("htmx:load", (event) => event.target !== document.body && begin());
