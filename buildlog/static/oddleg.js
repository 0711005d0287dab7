// What makes the pages quicker for the hands. Every page works without it.
//   data-entry        the line where things are entered: n or / goes there
//   data-lines        a line that grows: Enter saves, Shift and Enter makes a new line
//   data-row          a row that j and k walk to; Enter opens its first link (or the one with data-open)
//   data-undo, -redo  the forms that u and Shift+u send
//   data-zone="A"     the link that g then a follows

const KEYS_OFF = "oddleg keys off";
const ENTRY = "oddleg entry";
const one = (selector, root = document) => root.querySelector(selector);

// ---- the line where things are entered
const grows = window.CSS?.supports("field-sizing", "content") ?? false;
function grow(line) {
  if (grows) return;
  line.style.height = "auto";
  line.style.height = `${line.scrollHeight + 3}px`;
}
const lineOf = (event) => (event.target.matches?.("[data-lines]") ? event.target : null);

document.addEventListener("input", (event) => lineOf(event) && grow(event.target));
document.addEventListener("draft-written", (event) => event.target.querySelectorAll("[data-lines]").forEach(grow));
document.addEventListener("keydown", (event) => {
  if (event.key !== "Enter" || event.shiftKey || event.isComposing || event.defaultPrevented || !lineOf(event)) return;
  event.preventDefault();
  if (event.target.value.trim() || one(".unread", event.target.form)) event.target.form.requestSubmit();
});
document.addEventListener("submit", (event) => {
  if (event.target.matches(".entry") && !event.defaultPrevented) keepFor(sessionStorage, ENTRY, event.target.id);
});

// ---- keeping small things; a browser may refuse
function keepFor(store, key, value) {
  try {
    if (value === null) store.removeItem(key);
    else store.setItem(key, value);
  } catch {
    /* then it is not kept */
  }
}
function kept(store, key) {
  try {
    return store.getItem(key);
  } catch {
    return null;
  }
}

// ---- the place that an address leads to may be folded away
function unfold() {
  let target = null;
  try {
    target = document.getElementById(decodeURIComponent(location.hash.slice(1)));
  } catch {
    /* then it leads nowhere */
  }
  if (!target) return;
  let opened = false;
  for (let fold = target.closest("details"); fold; fold = fold.parentElement.closest("details")) {
    opened ||= !fold.open;
    fold.open = true;
  }
  if (opened) target.scrollIntoView({ block: "center" });
  if (target.matches("input:not([type=hidden]), select, textarea")) target.focus();
}
addEventListener("hashchange", unfold);

// ---- where the page begins: the entry that was just used, or what is wrong
function begin() {
  for (const each of document.querySelectorAll(".scripted[hidden]")) each.hidden = false;
  document.querySelectorAll("[data-lines]").forEach(grow);
  const entry = document.getElementById(kept(sessionStorage, ENTRY) ?? "");
  keepFor(sessionStorage, ENTRY, null);
  const first = entry && (one(".unread input", entry) ?? one("[data-entry]", entry) ?? one("textarea, select, input:not([type=hidden])", entry));
  if (first) first.focus();
  else if ("answered" in document.body.dataset) one("main .faults.whole[tabindex]")?.focus();
  else unfold();
}

// ---- keys
const dialog = one("#keys");
const off = one("#keys-off");
let zoneUntil = 0;

function isTyping(target) {
  if (target.isContentEditable || target.matches("textarea, select")) return true;
  return target.matches("input") && !["checkbox", "radio", "button", "submit"].includes(target.type);
}
function walk(by) {
  const rows = [...document.querySelectorAll("[data-row]")].filter((row) => row.checkVisibility?.() ?? true);
  if (!rows.length) return false;
  const at = rows.indexOf(document.activeElement?.closest("[data-row]"));
  const next = at < 0 ? (by > 0 ? 0 : rows.length - 1) : Math.min(rows.length - 1, Math.max(0, at + by));
  rows[next].tabIndex = -1;
  rows[next].focus();
  rows[next].scrollIntoView({ block: "nearest" });
  return true;
}
function open(row) {
  const link = one("a[data-open]", row) ?? one("a[href]", row);
  link?.click();
  return Boolean(link);
}
function send(selector) {
  const form = one(selector);
  form?.requestSubmit();
  return Boolean(form);
}
function goTo(letter) {
  const link = one(`[data-zone="${letter}"]`);
  link?.click();
  return Boolean(link);
}
function focusEntry() {
  const line = one("[data-entry]");
  line?.focus();
  return Boolean(line);
}
const ACTIONS = {
  n: focusEntry,
  "/": focusEntry,
  j: () => walk(1),
  k: () => walk(-1),
  u: () => send("[data-undo]"),
  U: () => send("[data-redo]"),
  "?": () => {
    dialog?.showModal();
    return true;
  },
  g: () => {
    zoneUntil = performance.now() + 1500;
    return true;
  },
};
document.addEventListener("keydown", (event) => {
  const { key, target } = event;
  if (event.defaultPrevented || event.isComposing || event.ctrlKey || event.metaKey || event.altKey) return;
  if (isTyping(target) || dialog?.open) return;
  let done = false;
  if (target.matches("[data-row]") && ["ArrowDown", "ArrowUp", "Enter"].includes(key)) {
    done = key === "Enter" ? open(target) : walk(key === "ArrowDown" ? 1 : -1);
  } else if (!off?.checked) {
    const zone = zoneUntil > performance.now() && /^[a-z]$/i.test(key);
    zoneUntil = 0;
    done = zone ? goTo(key.toUpperCase()) : (ACTIONS[key]?.() ?? false);
  }
  if (done) event.preventDefault();
});

if (off) {
  off.checked = kept(localStorage, KEYS_OFF) === "yes";
  off.addEventListener("change", () => keepFor(localStorage, KEYS_OFF, off.checked ? "yes" : null));
}
const opener = one("#keys-open");
if (opener && dialog?.showModal) {
  opener.hidden = false;
  opener.addEventListener("click", () => dialog.showModal());
}
begin();
