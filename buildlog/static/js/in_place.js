// Things that are changed in place: Escape in their form presses "Leave it", and the row then has the focus again.
//   data-leave        the form; a link with data-leave-link in it closes it
//   data-focus        the line in it that is typed into

document.addEventListener("keydown", (event) => {
  if (event.key !== "Escape" || event.isComposing || event.defaultPrevented) return;
  const link = event.target.closest?.("[data-leave]")?.querySelector("[data-leave-link]");
  if (!link) return;
  event.preventDefault();
  link.click();
});

// Sent for the whole page at its beginning, then for each row that is put in the place of another.
document.addEventListener("htmx:load", (event) => {
  const part = event.target;
  const line = part.querySelector("[data-focus]");
  if (line) line.focus();
  else if (part.matches("[data-row]")) {
    part.tabIndex = -1;
    part.focus();
  }
});
