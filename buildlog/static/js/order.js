// Steps of assembly dragged to another place. The same forms are sent as by the words Up and Down.

const steps = [...document.querySelectorAll("li[data-step]")];
let dragged = null;

function clear() {
  for (const step of steps) delete step.dataset.drop;
}
function placeOf(event, step) {
  const box = step.getBoundingClientRect();
  return event.clientY < box.top + box.height / 2 ? "before" : "after";
}
for (const step of steps) {
  const grip = step.querySelector(".grip");
  if (!grip) continue;
  grip.hidden = false;
  grip.draggable = true;
  grip.addEventListener("dragstart", (event) => {
    dragged = step;
    event.dataTransfer.effectAllowed = "move";
    event.dataTransfer.setData("text/plain", step.dataset.step);
    event.dataTransfer.setDragImage(step, 20, 20);
  });
  grip.addEventListener("dragend", () => {
    dragged = null;
    clear();
  });
}
for (const step of steps) {
  step.addEventListener("dragover", (event) => {
    if (!dragged || dragged === step) return;
    event.preventDefault();
    clear();
    step.dataset.drop = placeOf(event, step);
  });
  step.addEventListener("drop", (event) => {
    if (!dragged || dragged === step) return;
    event.preventDefault();
    const next = placeOf(event, step) === "before" ? step : steps[steps.indexOf(step) + 1];
    const form = dragged.querySelector("form.move");
    const before = document.createElement("input");
    Object.assign(before, { type: "hidden", name: "before", value: next ? next.dataset.step : step.dataset.after });
    clear();
    if (next === dragged) return;
    form.append(before);
    form.requestSubmit();
  });
}
