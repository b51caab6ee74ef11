// What is wrong with a slip stands by the field.

/** The field that a fault is of: of several of a name the one whose text is meant. */
function fieldOf(form, fault) {
  const all = [...form.elements].filter((e) => e.type !== "hidden" && e.name && (e.name === fault.path || e.name.startsWith(fault.path + ":")));
  const filled = all.filter((e) => e.value.trim());
  return filled.find((e) => fault.says.includes(e.value.trim())) ?? filled[0] ?? all[0];
}

/** Takes away what was said. @param {HTMLFormElement} form */
export function clear(form) {
  for (const said of form.querySelectorAll(".says-fault, .fault")) said.remove();
  for (const field of form.elements) {
    field.removeAttribute("aria-invalid");
    field.removeAttribute("aria-describedby");
  }
}

/**
 * Says what is wrong. While somebody types, nothing is said of what is still empty.
 * @param {HTMLFormElement} form
 * @param {{path?: string, says: string}[]} faults
 */
export function say(form, faults, typing) {
  clear(form);
  for (const fault of faults) {
    const field = fault.path ? fieldOf(form, fault) : null;
    if (typing && field && !field.value.trim()) continue;
    const said = document.createElement("p");
    said.textContent = fault.says;
    if (!field) {
      said.className = "fault";
      form.querySelector(".acts").before(said);
      continue;
    }
    said.className = "says-fault";
    said.id = (field.id || form.elements.id.value + field.name) + "-fault";
    field.setAttribute("aria-invalid", "true");
    field.setAttribute("aria-describedby", said.id);
    field.closest("label").after(said);
    const folded = field.closest("details.more");
    if (folded) folded.open = true;
  }
}
