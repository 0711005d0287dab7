// The bench, quicker for the hands. Every page works without it.
//   data-more            the button in rows of fields: the next row stands there at once
//   data-filter          the field that narrows the list of calculators while one types
//   data-words           what each calculator of the list is about, in British and American words
//   data-calculator      a calculator's page: its name is kept in this browser, for "Used lately"
//   data-lately          where those stand

const LATELY = "oddleg bench lately";
const MOST_LATELY = 5;

// ---- one more row
function renumbered(text, from, to) {
  return text.replace(`.${from}.`, `.${to}.`).replace(`-${from}-`, `-${to}-`);
}
function addRow(rows) {
  const all = [...rows.querySelectorAll("tbody tr:not(.said)")];
  const last = all.at(-1);
  const row = last.cloneNode(true);
  const [from, to] = [all.length - 1, all.length];
  for (const each of row.querySelectorAll("[name], [id], [for]")) {
    for (const name of ["name", "id", "for"]) {
      if (each.hasAttribute(name)) each.setAttribute(name, renumbered(each.getAttribute(name), from, to));
    }
    each.removeAttribute("aria-invalid");
    each.removeAttribute("aria-describedby");
    if (each.matches("input")) {
      each.value = "";
      each.removeAttribute("value");
    }
    if (each.matches("select")) each.selectedIndex = 0;
  }
  for (const each of row.querySelectorAll(".faulty")) each.classList.remove("faulty");
  for (const each of row.querySelectorAll("div[id$='_error']")) each.remove();
  for (const each of row.querySelectorAll("[data-number]")) each.textContent = String(to + 1);
  rows.querySelector("tbody").append(row);
  row.querySelector("input, select")?.focus();
  if (to + 1 >= Number(rows.dataset.most)) rows.querySelector("[data-more]").hidden = true;
}
document.addEventListener("click", (event) => {
  const rows = event.target.closest?.("[data-more]")?.closest("[data-rows]");
  if (!rows) return;
  event.preventDefault();
  addRow(rows);
});

// ---- what was used lately, by name alone
function lately() {
  try {
    const kept = JSON.parse(localStorage.getItem(LATELY) ?? "[]");
    return Array.isArray(kept) ? kept.filter((each) => typeof each === "string") : [];
  } catch {
    return [];
  }
}
const used = document.querySelector("[data-calculator]:has(#answer)")?.dataset.calculator;
if (used) {
  try {
    localStorage.setItem(LATELY, JSON.stringify([used, ...lately().filter((each) => each !== used)].slice(0, MOST_LATELY)));
  } catch {
    /* then it is not kept */
  }
}
const shelf = document.querySelector("[data-lately]");
if (shelf) {
  const entries = lately()
    .map((name) => document.querySelector(`[data-words][data-name="${CSS.escape(name)}"] a`))
    .filter(Boolean);
  for (const entry of entries) shelf.querySelector("ul").append(document.createElement("li"));
  entries.forEach((entry, place) => shelf.querySelectorAll("li")[place].append(entry.cloneNode(true)));
  shelf.hidden = entries.length === 0;
}

// ---- the list of calculators, narrowed while one types
const filter = document.querySelector("[data-filter]");
const NOISE = new Set("a an and are at be by can do does for how i in is it many much my of on or should that the this to what which will with".split(" "));
function narrow() {
  const typed = filter.value.toLowerCase().split(/[\s?]+/).filter(Boolean);
  const telling = typed.filter((term) => !NOISE.has(term));
  const terms = telling.length ? telling : typed;
  let shown = 0;
  for (const section of document.querySelectorAll("[data-purpose]")) {
    let here = 0;
    for (const each of section.querySelectorAll("[data-words]")) {
      each.hidden = !terms.every((term) => each.dataset.words.includes(term));
      here += each.hidden ? 0 : 1;
    }
    section.hidden = here === 0;
    shown += here;
  }
  for (const each of document.querySelectorAll("[data-unnarrowed]")) each.classList.toggle("away", terms.length > 0);
  const said = document.querySelector("#narrowed");
  const what = shown === 1 ? "1 calculator" : `${shown} calculators`;
  said.textContent = terms.length ? `${shown ? what : "No calculator"} in this list; Find looks through words and tables too.` : "";
}
if (filter) {
  filter.addEventListener("input", narrow);
  if (filter.value) narrow();
}
