// Slips on a page: read by the house as they are typed, kept on the phone when
// they are handed in, and gone from it when the house has them. Without this
// script a slip is a plain form.

import * as faults from "./faults.js";
import * as line from "./line.js";
import * as pocket from "./pocket.js";
import { ask, sendDue, sendNow } from "./send.js";
import { dropShell, keepShell } from "./shell.js";
import { factID, moment, nextDue } from "./waiting.js";

/** @typedef {import("./waiting.js").Slip} Slip */

// How long typing must pause before a slip is read.
const restMs = 300;

// How long a form waits for the answer to what was handed in.
const patienceMs = 3000;

const bar = document.getElementById("waiting");
const { words, zone, shell } = JSON.parse(bar.dataset.of);
const empty = bar.dataset.shell !== undefined; // this is the page without the network
let me = bar.dataset.who ? { who: bar.dataset.who, whose: bar.dataset.whose } : undefined;
let ready = false; // once the phone is known to keep what it is given
let timer = 0;

const others = "BroadcastChannel" in window ? new BroadcastChannel("awn-slips") : null;

async function begin() {
  await pocket.open().then(() => { ready = true; }, () => {});
  if (!ready) return;
  if (empty) me = await pocket.person();
  else await pocket.setPerson(me);
  if (empty) dress();
  if (me && !empty) keepShell(shell).catch(() => {}); // then there is no page without the network
  else if (!me) dropShell();
  if (others) others.onmessage = show;
  addEventListener("online", () => flush(true));
  addEventListener("pageshow", (event) => { if (event.persisted) flush(true); });
  document.addEventListener("visibilitychange", () => { if (!document.hidden) flush(true); });
  addEventListener("hashchange", refill);
  await refill();
  await flush(true);
  bar.dataset.ready = "";
}

const show = () => line.show(bar, { who: me?.who, words, send: () => flush(true), changed });

async function changed() {
  others?.postMessage("");
  await show();
}

/** The empty page says whose entries are made here, or that nobody can make any. */
function dress() {
  for (const form of document.querySelectorAll("form[data-slip]")) {
    fresh(form);
    for (const field of form.elements) field.disabled = !me;
  }
  document.getElementById("whose").textContent = me ? words.whose.replace("{who}", me.whose) : words.nobody;
}

/** Sends what is due, and says what came of it. */
async function flush(wake) {
  clearTimeout(timer);
  const done = me ? await sendDue(me.who, wake) : [];
  const taken = done.filter((d) => d.how === "taken");
  if (taken.length) {
    const phrase = words[taken.length === 1 ? "sent.one" : "sent"].replace("{count}", taken.length);
    line.tell(bar, [phrase, ...taken.flatMap((d) => d.says)].join(" "));
  }
  if (done.length) await changed();
  else await show();
  later();
}

async function later() {
  clearTimeout(timer);
  const at = nextDue(await pocket.slips(), me?.who);
  if (at < Infinity) timer = setTimeout(() => flush(false), Math.max(0, at - Date.now()));
}

document.addEventListener("submit", (event) => {
  const form = event.target.closest("form[data-slip]");
  if (!form || !ready || !me) return;
  event.preventDefault();
  if (form.ariaBusy !== "true") handIn(form);
});

/** @param {HTMLFormElement} form @returns {[string, string][]} */
const typed = (form) => [...new FormData(form)].filter(([name]) => !["id", "at", "back"].includes(name));

/** Keeps a slip and sends it. @param {HTMLFormElement} form */
async function handIn(form) {
  form.ariaBusy = "true";
  const made = Date.now();
  const id = form.elements.id.value;
  /** @type {Slip} */
  const slip = {
    id, who: me.who, whose: me.whose, name: form.dataset.slip, title: form.dataset.title, fields: typed(form),
    at: moment(form.elements.at?.value ?? "", made, -new Date(made).getTimezoneOffset(), zone),
    made, state: "waits", says: [], faults: [], tries: 0, next: made,
  };
  try {
    await pocket.keep(slip, form.dataset.instead);
  } catch {
    form.submit(); // the phone has no room: as without script
    return;
  }
  fresh(form);
  delete form.dataset.instead;
  await show();
  const sending = sendNow(id);
  const { how, says } = await Promise.race([sending, slow()]);
  form.ariaBusy = "false";
  if (how === "later") sending.then(() => flush(false));
  others?.postMessage("");
  if (how === "taken") {
    const to = new URL(form.elements.back.value || "/", location.origin);
    to.searchParams.set("entered", id);
    location.assign(to);
    return;
  }
  if (how === "refused") {
    form.dataset.instead = id;
    faults.say(form, (await pocket.slip(id)).faults, false);
    form.querySelector("[aria-invalid=true]")?.focus();
  } else {
    form.reset();
    faults.clear(form);
    document.dispatchEvent(new Event("slip-kept"));
    line.tell(bar, [how === "sign-in" ? words["sign-in"] : words.kept, ...says].join(" "));
  }
  await show();
  later();
}

/** What becomes of a slip whose answer is long in coming: the form is free for the next. */
const slow = () => new Promise((resolve) => setTimeout(resolve, patienceMs, { how: "later", says: [] }));

/** Gives a form the id of a further entry. @param {HTMLFormElement} form */
function fresh(form) {
  form.elements.id.value = factID(Date.now(), crypto.getRandomValues(new Uint8Array(10)));
}

/** Puts a refused slip back into the form, if the address names one. */
async function refill() {
  const id = /^#slip-(.+)$/.exec(location.hash)?.[1];
  const slip = id && (await pocket.slip(id));
  const form = slip && slip.who === me?.who && document.querySelector(`form[data-slip="${CSS.escape(slip.name)}"]`);
  if (!form) return;
  fresh(form);
  form.dataset.instead = id;
  const used = new Map();
  for (let [name, value] of [...slip.fields, ["at", slip.at]]) {
    if (name.startsWith("results:") && !form.elements[name]) { // typed on a field of its own
      const [figure, ...unit] = name.slice("results:".length).split(" ");
      if (value.trim()) value = [figure, value.trim(), ...(/^[\d.,+−-]+$/.test(value.trim()) ? unit : [])].join(" ");
      name = "results";
    }
    if (!value.trim()) continue;
    const fields = [...form.querySelectorAll(`[name="${CSS.escape(name)}"]`)];
    const field = fields[used.get(name) ?? 0];
    used.set(name, (used.get(name) ?? 0) + 1);
    if (!field) continue;
    if (field.type === "checkbox") field.checked = true;
    else field.value = value;
    const folded = field.closest("details.more");
    if (folded) folded.open = true;
  }
  faults.say(form, slip.faults, false);
  form.querySelector("[aria-invalid=true]")?.focus();
}

const rests = new WeakMap();

document.addEventListener("input", (event) => {
  const form = event.target.closest("form[data-slip]");
  if (!form) return;
  const before = rests.get(form);
  clearTimeout(before?.timer);
  before?.asked.abort();
  const asked = new AbortController();
  rests.set(form, { asked, timer: setTimeout(() => look(form, asked.signal), restMs) });
});

/** Has the house read a slip as it stands. */
async function look(form, signal) {
  try {
    const fields = [...typed(form), ["at", form.elements.at?.value ?? ""]];
    const { status, body } = await ask("/look/" + form.dataset.slip, fields, {}, signal);
    if (form.ariaBusy === "true") return;
    if (status === 200) faults.clear(form);
    else if (body?.faults && status >= 400 && status < 500 && ![401, 403].includes(status)) faults.say(form, body.faults.map((f) => ({ path: f.path, says: f.says })), true);
  } catch {
    // no network, or something newer was typed: then nothing is said
  }
}

begin();
