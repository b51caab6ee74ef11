// The pegs under the strip of a course are pulled along its hours, moved with
// the arrow keys or given an hour that is typed. What they say goes into the
// field of the step, and the form is sent as if it had been typed there.

const part = document.getElementById("outcome");
const form = part.closest("form");

/** How far an arrow key and a page key move a peg, and how finely it is pulled, in hours. */
const arrowH = 0.25;
const pageH = 4;
const grainH = 0.25;

/** How long a form rests between two sendings while a peg is pulled. */
const restMs = 120;

/** @type {{field: string, x: number, atH: number, hourPx: number} | null} */
let pulled = null;
let held = ""; // field of the peg that has the focus
let typed = "";
let sent = 0;
let later = 0;

arm();
new MutationObserver(arm).observe(part, { childList: true });

/** Makes every peg that has a field a slider, and gives the focus back to the one that had it. */
function arm() {
  document.getElementById("pull-how").hidden = false;
  for (const peg of part.querySelectorAll(".peg[data-field]")) {
    peg.setAttribute("role", "slider");
    peg.setAttribute("tabindex", "0");
    peg.setAttribute("aria-label", peg.dataset.word);
    peg.setAttribute("aria-orientation", "horizontal");
    peg.setAttribute("aria-describedby", "pull-how");
    const from = Number(peg.dataset.from);
    peg.setAttribute("aria-valuemin", (from + Number(peg.dataset.least)).toFixed(2));
    peg.setAttribute("aria-valuemax", (from + Number(peg.dataset.most)).toFixed(2));
    tell(peg, Number(peg.dataset.at), peg.dataset.says);
  }
  if (pulled) pegOf(pulled.field)?.classList.add("pulled");
  if (held && (document.activeElement === document.body || document.activeElement === null)) pegOf(held)?.focus({ preventScroll: true });
}

/** @returns {SVGSVGElement | undefined} */
function pegOf(field) {
  return [...part.querySelectorAll(".peg[data-field]")].find((p) => p.dataset.field === field);
}

/** Says where a peg stands. */
function tell(peg, atH, says) {
  peg.setAttribute("aria-valuenow", atH.toFixed(2));
  peg.setAttribute("aria-valuetext", says);
  peg.querySelector(".peg-word").textContent = says;
}

/** Puts a peg at an hour of the piece, and what that makes of its step into the field. */
function put(field, atH) {
  const peg = pegOf(field);
  const input = form.elements[field];
  if (!peg || !input) return;
  const from = Number(peg.dataset.from);
  const long = Math.min(Math.max(Math.round((atH - from) / grainH) * grainH, Math.max(Number(peg.dataset.least), grainH)), Number(peg.dataset.most));
  const share = (from + long - placeOf(peg)) / Number(peg.dataset.span);
  peg.dataset.to = String(from + long);
  peg.setAttribute("x", `${parseFloat(peg.getAttribute("x")) + 100 * share}%`);
  tell(peg, from + long, `${peg.dataset.word}: ${hours(from + long)} h`);
  const text = `${long} h`;
  if (input.value === text) return;
  input.value = text;
  const wait = Math.max(0, sent + restMs - performance.now());
  clearTimeout(later);
  later = setTimeout(() => {
    sent = performance.now();
    input.dispatchEvent(new Event("input", { bubbles: true }));
  }, wait);
}

/** Writes hours as the page does: its own mark of decimals. */
function hours(h) {
  return h.toLocaleString(document.documentElement.lang, { maximumFractionDigits: 2 });
}

/** Where a peg stands, whether or not what was put has been drawn. */
function placeOf(peg) {
  return Number(peg.dataset.to ?? peg.dataset.at);
}

part.addEventListener("pointerdown", (event) => {
  const peg = event.target.closest?.(".peg[data-field]");
  if (!peg || event.button !== 0) return;
  event.preventDefault();
  peg.focus({ preventScroll: true });
  const width = peg.ownerSVGElement.getBoundingClientRect().width;
  pulled = { field: peg.dataset.field, x: event.clientX, atH: placeOf(peg), hourPx: width / Number(peg.dataset.span) };
  peg.classList.add("pulled");
  part.setPointerCapture(event.pointerId);
});

part.addEventListener("pointermove", (event) => {
  if (pulled) put(pulled.field, pulled.atH + (event.clientX - pulled.x) / pulled.hourPx);
});

for (const name of ["pointerup", "pointercancel"]) {
  part.addEventListener(name, () => {
    if (pulled) pegOf(pulled.field)?.classList.remove("pulled");
    pulled = null;
  });
}

part.addEventListener("focusin", (event) => {
  held = event.target.closest?.(".peg[data-field]")?.dataset.field ?? "";
  typed = "";
});

document.addEventListener("focusin", (event) => {
  if (!part.contains(event.target)) held = "";
});

/** How many hours a key moves a peg. */
const moves = { ArrowRight: arrowH, ArrowUp: arrowH, ArrowLeft: -arrowH, ArrowDown: -arrowH, PageUp: pageH, PageDown: -pageH };

part.addEventListener("keydown", (event) => {
  const peg = event.target.closest?.(".peg[data-field]");
  if (!peg || event.ctrlKey || event.metaKey || event.altKey) return;
  const field = peg.dataset.field;
  if (event.key in moves) put(field, placeOf(peg) + moves[event.key]);
  else if (event.key === "Home") put(field, Number(peg.getAttribute("aria-valuemin")));
  else if (event.key === "Enter" && typed) put(field, Number(typed.replace(",", ".")));
  else if (event.key === "Enter") form.elements[field]?.focus();
  else if (/^[0-9.,]$/.test(event.key)) {
    typed += event.key;
    peg.querySelector(".peg-word").textContent = `${peg.dataset.word}: ${typed} h`;
    event.preventDefault();
    return;
  } else if (event.key === "Escape" && typed) tell(peg, placeOf(peg), peg.dataset.says);
  else return;
  typed = "";
  event.preventDefault();
});
