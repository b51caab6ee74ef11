// Forms marked data-live are sent as they are changed; what comes back takes
// the place of the part that they name. Without this script a button does the
// same.
const restMs = 120;

for (const form of document.querySelectorAll("form[data-live]")) {
  const part = document.querySelector(form.dataset.live);
  let timer = 0;
  let asked = null;
  form.addEventListener("input", () => {
    clearTimeout(timer);
    timer = setTimeout(() => look(form, part), restMs);
  });
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    look(form, part);
  });

  /** @param {HTMLFormElement} form @param {HTMLElement} part */
  async function look(form, part) {
    asked?.abort();
    asked = new AbortController();
    const data = new URLSearchParams(new FormData(form));
    const get = form.method !== "post";
    const url = new URL(form.action || location.href);
    if (get) url.search = data.toString();
    try {
      const answer = await fetch(url, { method: get ? "GET" : "POST", body: get ? null : data, headers: { "Awn-Part": "1" }, signal: asked.signal });
      part.innerHTML = await answer.text();
      part.classList.remove("stale");
      if (get) history.replaceState(null, "", url);
    } catch (error) {
      if (error.name !== "AbortError") part.classList.add("stale");
    }
  }
}
