// Sends slips to the house, one after the other and from one page at a time.

import * as pocket from "./pocket.js";
import { after, due, verdict } from "./waiting.js";

/** @typedef {import("./waiting.js").Slip} Slip */

// How long an answer is waited for.
const answerMs = 20000;

/** Does something while no other page of the house sends. */
export function alone(act) {
  return navigator.locks ? navigator.locks.request("awn-slips", act) : act();
}

/** What is sent of a form, or of a slip. @param {[string, string][]} fields */
export async function ask(path, fields, headers, signal) {
  const answer = await fetch("/by-script" + path, { method: "POST", body: new URLSearchParams(fields), headers, signal, redirect: "error", cache: "no-store" });
  return { status: answer.status, body: await answer.json().catch(() => null) };
}

/**
 * Sends one slip and keeps what became of it.
 * @param {Slip} slip
 * @returns {Promise<{how: string, slip: Slip, says: string[]}>}
 */
async function one(slip) {
  let status = 0;
  let body = null;
  try {
    const fields = [...slip.fields, ["id", slip.id], ["at", slip.at]];
    ({ status, body } = await ask("/enter/" + slip.name, fields, { "Awn-Who": slip.who, "Awn-Clock": String(Date.now()) }, AbortSignal.timeout(answerMs)));
  } catch {
    // no network, or no answer in time
  }
  const how = verdict(status, body, slip.id);
  if (how === "taken") {
    await pocket.drop(slip.id);
    return { how, slip, says: body.says };
  }
  const kept = after(slip, how, body, Date.now(), Math.random());
  await pocket.keep(kept);
  return { how, slip: kept, says: kept.says };
}

/** Sends one slip that was just made. */
export function sendNow(id) {
  return alone(async () => {
    const slip = await pocket.slip(id);
    return slip ? one(slip) : { how: "taken", slip: null, says: [] }; // another page has sent it
  });
}

/** Sends what is due of one person, until the network fails; gives what became of each. */
export function sendDue(who, wake) {
  return alone(async () => {
    const done = [];
    for (const slip of due(await pocket.slips(), who, Date.now(), wake)) {
      done.push(await one(slip));
      if (done.at(-1).how === "again") break;
    }
    return done;
  });
}
