// Sending a form: once only, and with a plain sentence when there is no connection.

const KEPT = "What you typed is kept here.";
const AGAIN_AFTER_MS = 4000; // an answer that is a file leaves the page as it is

// Say a sentence where the faults of a form stand.
export function sayFault(form, sentence) {
  let faults = form.querySelector(":scope > .faults.whole");
  if (!faults) {
    faults = document.createElement("div");
    faults.className = "faults whole";
    faults.setAttribute("role", "alert");
    faults.tabIndex = -1;
    form.prepend(faults);
  }
  let line = faults.querySelector(".fault.sending");
  if (!line) {
    line = document.createElement("p");
    line.className = "fault sending";
    faults.prepend(line);
  }
  line.textContent = sentence;
  faults.focus();
}

function release(form) {
  delete form.dataset.sending;
  form.removeAttribute("aria-busy");
}

document.addEventListener("submit", (event) => {
  const form = event.target;
  if (event.defaultPrevented || form.method === "dialog") return;
  if (form.method === "post" && navigator.onLine === false) {
    event.preventDefault();
    sayFault(form, `Not saved: there is no connection. ${KEPT}`);
    return;
  }
  if ("sending" in form.dataset) {
    event.preventDefault();
    return;
  }
  form.dataset.sending = "";
  form.setAttribute("aria-busy", "true");
  setTimeout(() => release(form), AGAIN_AFTER_MS);
});
addEventListener("pageshow", () => {
  for (const form of document.querySelectorAll("form[data-sending]")) release(form);
});
addEventListener("online", () => {
  for (const line of document.querySelectorAll(".fault.sending")) line.textContent = "The connection is back: send it again.";
});

const formOf = (event) => event.target.closest?.("form");
document.addEventListener("htmx:sendError", (event) => {
  const form = formOf(event);
  if (form) sayFault(form, `Not saved: there is no connection. ${KEPT}`);
});
document.addEventListener("htmx:responseError", (event) => {
  const form = formOf(event);
  if (form) sayFault(form, `Not saved: the server answered with a fault (${event.detail.xhr.status}). ${KEPT}`);
});
