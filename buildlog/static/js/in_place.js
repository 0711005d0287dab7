// Things that are changed in place: Escape in their form presses "Leave it", and the row then has the focus again.
//   data-leave        the form; a link with data-leave-link in it closes it

document.addEventListener("keydown", (event) => {
  if (event.key !== "Escape" || event.isComposing || event.defaultPrevented) return;
  const link = event.target.closest?.("[data-leave]")?.querySelector("[data-leave-link]");
  if (!link) return;
  event.preventDefault();
  link.click();
});

document.addEventListener("htmx:afterSwap", (event) => {
  const row = event.detail.elt?.isConnected ? event.detail.elt : document.getElementById(event.target.id);
  if (!row?.matches?.("[data-row]")) return;
  row.tabIndex = -1;
  row.focus();
});

// An address that names a row keeps the browser from going to the line that is open in it.
document.querySelector("[data-leave] [autofocus]")?.focus();
