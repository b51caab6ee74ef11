// A table that is sorted, searched or leafed through takes its own place: the
// page stays where it is, and so does the focus. The address follows, so that
// it can be sent to somebody. Without this script the links do the same.

// restMs is how long typing must pause before a table is searched.
const restMs = 200;
let timer = 0;
let asked = new AbortController();

document.addEventListener("click", (event) => {
  const link = event.target.closest?.(".grid thead a, .grid .take a[data-rows]");
  if (!link || event.button || event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return;
  event.preventDefault();
  take(link.closest(".grid"), new URL(link.href));
});

document.addEventListener("submit", (event) => {
  const form = event.target;
  if (!form.matches(".grid form.find")) return;
  event.preventDefault();
  clearTimeout(timer);
  take(form.closest(".grid"), addressOf(form));
});

// What is typed to find something is no entry: nothing else need wait for it.
document.addEventListener("input", (event) => {
  const form = event.target.closest?.(".grid form.find");
  if (!form) return;
  event.stopPropagation();
  clearTimeout(timer);
  timer = setTimeout(() => take(form.closest(".grid"), addressOf(form)), restMs);
}, true);

/** @param {HTMLFormElement} form */
function addressOf(form) {
  const at = new URL(form.action);
  at.search = new URLSearchParams([...new FormData(form)].filter(([, value]) => value !== "")).toString();
  return at;
}

/**
 * Puts a table as an address has it in the place of the one that is there.
 * @param {HTMLElement} grid
 * @param {URL} at
 */
async function take(grid, at) {
  asked.abort();
  asked = new AbortController();
  let text;
  try {
    const answer = await fetch(at, { headers: { Accept: "text/html" }, signal: asked.signal });
    if (!answer.ok || answer.redirected) return void location.assign(at);
    text = await answer.text();
  } catch (error) {
    if (error.name !== "AbortError") location.assign(at);
    return;
  }
  const fresh = new DOMParser().parseFromString(text, "text/html").getElementById(grid.id);
  if (!fresh || !grid.isConnected) return void location.assign(at);
  const had = document.activeElement;
  const typing = had?.matches("form.find input") && had;
  const column = had?.closest("th")?.cellIndex;
  const inGrid = grid.contains(had);
  const scrolled = grid.querySelector(".scroll")?.scrollLeft ?? 0;
  grid.replaceChildren(...fresh.childNodes);
  const sideways = grid.querySelector(".scroll");
  if (sideways) sideways.scrollLeft = scrolled;
  history.replaceState(history.state, "", at);
  if (!inGrid) return;
  if (typing) {
    const field = grid.querySelector("form.find input[type=search]");
    field.value = typing.value;
    field.focus({ preventScroll: true });
    field.setSelectionRange(typing.selectionStart, typing.selectionEnd);
  } else if (column !== undefined) {
    grid.querySelector("thead tr").cells[column]?.querySelector("a")?.focus({ preventScroll: true });
  } else {
    sideways?.focus({ preventScroll: true });
  }
}
