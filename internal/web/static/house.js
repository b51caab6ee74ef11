// What pages of a house do beyond the others: they follow the record.

const outcome = document.getElementById("outcome");
const said = document.getElementById("said");

if (outcome && !document.querySelector("form[data-live], form[enctype]")) follow(); // what was sent is not asked for again
pictures();

/** Takes up the pictures that can be looked at closer. */
async function pictures() {
  if (document.querySelector("[data-series]")) (await import("./series.js")).enliven(document);
}

/** Sets the page anew when somebody enters something, without losing what is being typed. */
function follow() {
  const events = new EventSource("/live");
  events.addEventListener("entry", () => anew());
  let was = false;
  events.addEventListener("open", () => {
    if (was) anew(); // the line was gone: nobody knows what was entered meanwhile
    was = true;
  });
  addEventListener("pagehide", () => events.close());
}

let changed = false;
document.addEventListener("input", (event) => {
  if (event.target.closest("form")) changed = true;
});
document.addEventListener("slip-kept", () => (changed = false)); // what was typed is safe

async function anew() {
  if (changed || outcome.contains(document.activeElement)) {
    said.textContent = said.dataset.newer;
    return;
  }
  const answer = await fetch(location.href, { headers: { Accept: "text/html" } });
  if (!answer.ok || answer.redirected) return;
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  const next = page.getElementById("outcome");
  if (!next || changed) return;
  const open = [...outcome.querySelectorAll("details[open]>summary")].map((s) => s.textContent);
  outcome.replaceChildren(...next.childNodes);
  for (const summary of outcome.querySelectorAll("details>summary")) if (open.includes(summary.textContent)) summary.parentElement.open = true;
  pictures();
}
