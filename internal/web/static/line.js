// The line on every page that says what waits on this phone, and what can be
// done with each slip of whoever is signed in. Of others only the number is said.

import * as pocket from "./pocket.js";
import { alone } from "./send.js";
import { counted } from "./waiting.js";

/** @typedef {import("./waiting.js").Slip} Slip */

/** @param {string} tag @param {Record<string, unknown>} [set] @param {...(Node | string)} inside */
function make(tag, set = {}, ...inside) {
  const element = Object.assign(document.createElement(tag), set);
  element.append(...inside);
  return element;
}

/**
 * Sets the line anew.
 * @param {HTMLElement} line
 * @param {{who?: string, words: Record<string, string>, send: () => void, changed: () => void}} of
 */
export async function show(line, of) {
  const slips = await pocket.slips();
  const said = line.querySelector("p");
  const text = counted(slips, of.who, of.words).join(" ");
  if (said.textContent !== text) said.textContent = text; // heard once
  line.hidden = slips.length === 0 && !line.querySelector(".news").textContent;
  const own = slips.filter((s) => of.who && s.who === of.who).sort((a, b) => a.made - b.made);
  const open = line.querySelector("details")?.open ?? false;
  line.querySelector("details")?.remove();
  if (own.length === 0) return;
  const list = make("ul", {}, ...own.map((s) => entry(s, of)));
  const acts = make("p", { className: "acts" }, make("button", { type: "button", textContent: of.words.send, onclick: of.send }));
  const refused = own.some((s) => s.state === "refused");
  line.append(make("details", { open: open || refused }, make("summary", { textContent: of.words.which }), list, acts));
}

/** One slip that waits. @param {Slip} slip */
function entry(slip, { words, changed }) {
  const typed = slip.fields.filter(([name, value]) => value.trim() && name !== "back").map(([name, value]) => name.replace("results:", "").split(" ")[0] + " " + value);
  const parts = [make("b", { textContent: slip.title }), ` ${typed.join(", ")} (${slip.at}) `];
  const why = { waits: words.waits, "sign-in": words["sign-in"], refused: words.refused }[slip.state];
  parts.push(make("span", { className: "why", textContent: [why, ...slip.says].join(" ") }));
  const acts = make("p", { className: "acts" });
  if (slip.state === "sign-in") acts.append(make("a", { href: "/sign-in?back=" + encodeURIComponent(location.pathname), textContent: words["sign-in.word"] }));
  if (slip.state === "refused") acts.append(make("a", { href: `/enter/${slip.name}?back=/floor#slip-${slip.id}`, textContent: words.correct }));
  const drop = make("button", { type: "button", textContent: words.discard });
  drop.onclick = async () => {
    if (!confirm(words["discard.sure"])) return;
    await alone(() => pocket.drop(slip.id));
    changed();
  };
  acts.append(drop);
  return make("li", { className: slip.state }, ...parts, acts);
}

/** Says what came of sending, above the count. @param {HTMLElement} line */
export function tell(line, text) {
  line.querySelector(".news").textContent = text;
  if (text) line.hidden = false;
}
