// What is typed into <form data-draft="NAME"> is kept in this browser until the server says that it was saved
// (data-saved="NAME", see templates/parts/_messages.html). Files and passwords are never kept.

const DAYS_KEPT = 60;
const PREFIX = "oddleg draft ";
const person = document.body.dataset.person ?? "";
const keyOf = (name) => `${PREFIX}${person} ${name}`;
const same = (one, other) => JSON.stringify(one) === JSON.stringify(other);

// A browser may refuse to keep anything (private windows, a full store): then there are no drafts, and no fault.
const store = {
  get(key) {
    try {
      return JSON.parse(localStorage.getItem(key));
    } catch {
      return null;
    }
  },
  set(key, value) {
    try {
      localStorage.setItem(key, JSON.stringify(value));
    } catch {
      /* nothing to do */
    }
  },
  remove(key) {
    try {
      localStorage.removeItem(key);
    } catch {
      /* nothing to do */
    }
  },
};

const NEVER = new Set(["hidden", "file", "password", "submit", "button", "image", "reset"]);
const fieldsOf = (form) =>
  [...form.elements].filter((field) => field.name && !NEVER.has(field.type) && field.tagName !== "BUTTON" && !("draftNot" in field.dataset));

// The values of a form by name, in the order of its fields; of boxes, those that are ticked.
function read(form) {
  const values = {};
  for (const field of fieldsOf(form)) {
    const list = (values[field.name] ??= []);
    if (field.type === "checkbox" || field.type === "radio") {
      if (field.checked) list.push(field.value);
    } else if (field.type === "select-multiple") {
      list.push(...[...field.selectedOptions].map((option) => option.value));
    } else list.push(field.value);
  }
  return values;
}

function write(form, values) {
  const taken = {};
  for (const field of fieldsOf(form)) {
    const list = values[field.name];
    if (!list) continue;
    if (field.type === "checkbox" || field.type === "radio") field.checked = list.includes(field.value);
    else if (field.type === "select-multiple") for (const option of field.options) option.selected = list.includes(option.value);
    else {
      const at = taken[field.name] ?? 0;
      if (at < list.length) field.value = list[at];
      taken[field.name] = at + 1;
    }
  }
  // Lines that came back to be mended have fields of their own; on a new page they go into the entry together.
  for (const field of form.querySelectorAll("[data-lines]")) {
    const left = (values[field.name] ?? []).slice(taken[field.name] ?? 0);
    if (left.length) field.value = [field.value, ...left].filter((line) => line.trim()).join("\n");
  }
  form.dispatchEvent(new Event("draft-written", { bubbles: true }));
}

// What the form would show had nothing been sent: no lines to be mended, nothing in the entry.
function freshOf(form) {
  const values = {};
  for (const [name, list] of Object.entries(read(form))) {
    const own = fieldsOf(form).filter((field) => field.name === name && !field.closest(".unread"));
    values[name] = own.some((field) => "lines" in field.dataset) ? own.map(() => "") : list;
  }
  return values;
}

function timeOf(at) {
  const when = new Date(at);
  const time = when.toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit" });
  if (when.toDateString() === new Date().toDateString()) return time;
  return `${when.toLocaleDateString("en-GB", { day: "numeric", month: "long" })}, ${time}`;
}

function say(form, sentence, buttons) {
  form.querySelector(":scope > .strip.draft")?.remove();
  const strip = document.createElement("div");
  strip.className = "strip draft";
  strip.setAttribute("role", "status");
  const words = document.createElement("p");
  words.textContent = sentence;
  const actions = document.createElement("div");
  actions.className = "actions";
  for (const [word, act] of buttons) {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "button";
    button.textContent = word;
    button.addEventListener("click", () => {
      act();
      strip.remove();
      fieldsOf(form)[0]?.focus();
    });
    actions.append(button);
  }
  strip.append(words, actions);
  form.prepend(strip);
}

function keep(form) {
  const key = keyOf(form.dataset.draft);
  const shown = read(form);
  let draft = store.get(key);
  let base = shown;
  const note = () => {
    const values = read(form);
    if (same(values, base)) store.remove(key);
    else store.set(key, { values, base, at: Date.now() });
  };

  if ("answered" in document.body.dataset) {
    // This page is the server's answer to what was sent: what it shows is what is left to do.
    base = draft?.base ?? freshOf(form);
    note();
    draft = null;
  }
  if (draft && same(draft.values, shown)) store.remove(key);
  else if (draft) {
    const discard = () => {
      store.remove(key);
      write(form, shown);
    };
    if (same(draft.base, shown)) {
      write(form, draft.values);
      say(form, `A draft from ${timeOf(draft.at)} was brought back.`, [["Discard it", discard]]);
    } else {
      const bring = () => {
        write(form, draft.values);
        note();
      };
      say(form, `There is a draft from ${timeOf(draft.at)}, but what is saved here has changed since.`, [
        ["Bring the draft back", bring],
        ["Discard it", discard],
      ]);
    }
  }

  let waiting = 0;
  const now = () => {
    if (!waiting) return;
    clearTimeout(waiting);
    waiting = 0;
    note();
  };
  const soon = () => {
    clearTimeout(waiting);
    waiting = setTimeout(now, 200);
  };
  form.addEventListener("input", soon);
  form.addEventListener("change", soon);
  form.addEventListener("submit", now);
  addEventListener("pagehide", now);
  document.addEventListener("visibilitychange", now);
}

function forget(root) {
  for (const each of root.querySelectorAll("[data-saved]")) store.remove(keyOf(each.dataset.saved));
}

function forgetOld() {
  const keys = Object.keys(localStorage).filter((key) => key.startsWith(PREFIX));
  for (const key of keys) if (!(store.get(key)?.at > Date.now() - DAYS_KEPT * 86_400_000)) store.remove(key);
}

try {
  forgetOld();
} catch {
  /* a browser that keeps nothing */
}
forget(document);
for (const form of document.querySelectorAll("form[data-draft]")) keep(form);
document.addEventListener("htmx:load", (event) => {
  const part = event.target;
  if (part === document.body) return;
  if (part.matches("[data-saved]")) store.remove(keyOf(part.dataset.saved));
  forget(part);
  for (const form of part.querySelectorAll("form[data-draft]")) keep(form);
  if (part.matches("form[data-draft]")) keep(part);
});
