// Forms marked data-live are sent as they are changed; what comes back takes
// the place of the part that they name. Without this script the buttons do the
// same.

// restMs is how long typing must pause before a form is sent, drawMs how long
// before what takes seconds is asked for.
const restMs = 15;
const drawMs = 300;

for (const form of document.querySelectorAll("form[data-live]")) live(form);

/** @param {HTMLFormElement} form */
function live(form) {
  const part = document.querySelector(form.dataset.live);
  const said = document.getElementById("said");
  let timer = 0;
  let asked = new AbortController();

  form.addEventListener("input", (event) => {
    if (event.target.dataset.rest !== undefined) return; // a document is taken by its button
    look(restMs, null);
  });
  form.addEventListener("submit", (event) => {
    const button = event.submitter;
    if (button?.hasAttribute("formaction")) return; // something to take away
    event.preventDefault();
    if (button?.name === "do" && !["compute", "draw"].includes(button.value)) rebuild(button);
    else look(0, button?.value === "draw" ? "draw" : null);
  });
  if (form.dataset.draw !== undefined) later();
  say();

  /** Asks for the part after a rest. */
  function look(wait, act) {
    clearTimeout(timer);
    asked.abort();
    asked = new AbortController();
    const signal = asked.signal;
    timer = setTimeout(async () => {
      const html = await fetched(act, null, signal, true);
      if (html === null) return;
      if (act !== "draw" || !html.includes('class="fault"')) place(html);
      if (act !== "draw" && form.dataset.draw !== undefined) later();
    }, wait);
  }

  function later() {
    clearTimeout(timer);
    timer = setTimeout(() => look(0, "draw"), drawMs);
  }

  /** Sends the form; null if it came to nothing. */
  async function fetched(act, button, signal, onlyPart) {
    const fields = new FormData(form, button);
    if (act) fields.set("do", act);
    const data = new URLSearchParams(fields);
    const get = form.method !== "post";
    const url = new URL(form.action || location.href);
    if (get) url.search = data.toString();
    try {
      const answer = await fetch(url, { method: get ? "GET" : "POST", body: get ? null : data, headers: onlyPart ? { "Awn-Part": "1" } : {}, signal });
      if (get) history.replaceState(null, "", url);
      return await answer.text();
    } catch (error) {
      if (error.name !== "AbortError") part.classList.add("stale");
      return null;
    }
  }

  /** Puts the part in place and marks the fields at fault. */
  function place(html) {
    const open = [...part.querySelectorAll("details")].map((d) => d.open);
    part.innerHTML = html;
    part.classList.remove("stale");
    part.querySelectorAll("details").forEach((d, i) => (d.open = open[i] ?? d.open));
    const wrong = new Set([...part.querySelectorAll("[data-at]")].map((f) => f.dataset.at));
    for (const field of form.elements) {
      if (wrong.has(field.name)) field.setAttribute("aria-invalid", "true");
      else field.removeAttribute("aria-invalid");
    }
    say();
  }

  /** Repeats the first sentence where it is heard, and on a phone seen. */
  function say() {
    const first = part.querySelector(".fault, .verdict");
    if (!said || !first || said.textContent === first.textContent) return;
    const link = document.createElement("a");
    link.href = form.dataset.live;
    link.textContent = first.textContent;
    said.replaceChildren(link);
  }

  /** Does what a button asks for the form itself: rows, variants, documents. */
  async function rebuild(button) {
    clearTimeout(timer);
    asked.abort();
    asked = new AbortController();
    const html = await fetched(null, button, asked.signal, false);
    if (html === null) return;
    const page = new DOMParser().parseFromString(html, "text/html");
    const given = form.querySelector("#given");
    const fresh = page.querySelector("#given");
    if (!fresh) return;
    const key = button.value;
    given.replaceWith(fresh);
    place(page.querySelector(form.dataset.live).innerHTML);
    const again = [...fresh.querySelectorAll("button[name=do]")];
    (again.find((b) => b.value === key) ?? again[0])?.focus();
    if (form.dataset.draw !== undefined && !key.startsWith("compare")) later();
  }
}
