// Language and units are set anew by a form at the foot of the page. A page with
// several forms is then fetched again: what was typed in them is put back.
// Without this script only a page with one form keeps what was typed.

const key = `awn-typed:${location.pathname}`;
const secret = ["password", "hidden", "file"];

/** @typedef {{form: number, field: number, name: string, value: string, checked: boolean}} Typed */

const forms = () => [...document.querySelectorAll("main form")];

document.querySelector("form.reader")?.addEventListener("submit", () => {
  /** @type {Typed[]} */
  const typed = forms().flatMap((f, form) =>
    [...f.elements]
      .map((e, field) => ({ e, form, field }))
      .filter(({ e }) => e.name && !secret.includes(e.type) && changed(e))
      .map(({ e, form, field }) => ({ form, field, name: e.name, value: e.value, checked: Boolean(e.checked) })),
  );
  if (typed.length > 0) sessionStorage.setItem(key, JSON.stringify(typed));
});

/** Says whether a field is other than the page set it. */
function changed(e) {
  if (e.type === "checkbox" || e.type === "radio") return e.checked !== e.defaultChecked;
  if (e.tagName === "SELECT") return [...e.options].some((o) => o.selected !== o.defaultSelected) && !(e.selectedIndex === 0 && ![...e.options].some((o) => o.defaultSelected));
  return e.defaultValue !== undefined && e.value !== e.defaultValue;
}

putBack();

function putBack() {
  const kept = sessionStorage.getItem(key);
  if (!kept) return;
  sessionStorage.removeItem(key);
  const all = forms();
  for (const t of /** @type {Typed[]} */ (JSON.parse(kept))) {
    const e = all[t.form]?.elements[t.field];
    if (e?.name !== t.name) continue;
    if (e.type === "checkbox" || e.type === "radio") e.checked = t.checked;
    else e.value = t.value;
    for (let d = e.closest("details"); d; d = d.parentElement.closest("details")) d.open = true;
    e.dispatchEvent(new Event("input", { bubbles: true }));
  }
}
