// The rules by which slips wait on a phone. Nothing here reads a clock, the
// network or what is kept: all of it comes in as arguments, and what follows is
// given back.

/**
 * A slip that waits.
 * @typedef {object} Slip
 * @property {string} id of the fact that it becomes; the same id twice is one fact
 * @property {string} who made it, by the name at the keyboard
 * @property {string} whose whole name
 * @property {string} name of the slip: "read", "act"
 * @property {string} title of the slip in words
 * @property {[string, string][]} fields as they were typed
 * @property {string} at when it happened: the time it was made, unless another was typed
 * @property {number} made in ms since 1970
 * @property {"waits" | "sign-in" | "refused"} state
 * @property {string[]} says why, in the words of the house
 * @property {{path?: string, says: string}[]} faults field by field
 * @property {number} tries so far
 * @property {number} next try, in ms since 1970
 */

// The first wait after a failure, and the longest.
const firstMs = 2000;
const mostMs = 5 * 60 * 1000;

/**
 * What an answer means for a slip. Only the house's own word for this very id
 * takes it off the phone; what stands between may answer anything.
 * @returns {"taken" | "sign-in" | "refused" | "again"}
 */
export function verdict(status, body, id) {
  if (status === 200) return body?.id === id ? "taken" : "again";
  if (status === 401 || status === 403) return "sign-in";
  const ours = String(body?.type).startsWith("urn:awn:fault:");
  if (ours && status >= 400 && status < 500 && ![408, 425, 429].includes(status)) return "refused";
  return "again";
}

/** How long to wait after so many failures: doubled each time, bounded, and spread so that many phones do not come at once. */
export function pause(tries, random) {
  const most = Math.min(mostMs, firstMs * 2 ** Math.min(tries, 20));
  return most * (0.5 + random / 2);
}

/**
 * The slip after an answer that did not take it.
 * @param {Slip} slip
 * @returns {Slip}
 */
export function after(slip, how, body, now, random) {
  const told = { ...slip, tries: slip.tries + 1, says: [], faults: [] };
  if (how === "again") return { ...told, state: "waits", next: now + pause(slip.tries, random) };
  const faults = (body?.faults ?? []).map(({ path, says }) => ({ path, says }));
  return { ...told, state: how, faults, says: faults.length ? faults.map((f) => f.says) : [body?.detail ?? ""], next: Infinity };
}

/** Those of one person that may be sent now, in the order in which they were made. With wake those too that were to wait longer. */
export function due(slips, who, now, wake) {
  return slips.filter((s) => who && s.who === who && s.state !== "refused" && (wake || s.next <= now)).sort((a, b) => a.made - b.made);
}

/** When the next of one person is due; Infinity for none. */
export function nextDue(slips, who) {
  return Math.min(Infinity, ...slips.filter((s) => s.who === who && s.state === "waits").map((s) => s.next));
}

/** What waits, in sentences: one's own, and how many of each other person. */
export function counted(slips, who, words) {
  const of = new Map();
  for (const s of slips) of.set(s.who, [...(of.get(s.who) ?? []), s]);
  return [...of].sort(([a], [b]) => (b === who) - (a === who)).map(([person, list]) => {
    const phrase = words[(person === who ? "own" : "other") + (list.length === 1 ? ".one" : "")];
    return phrase.replace("{count}", list.length).replace("{who}", list[0].whose);
  });
}

const two = (n) => String(n).padStart(2, "0");

/** A time with its offset, as the record reads it: "2026-11-25 14:30:05+01:00". */
export function stamp(ms, offsetMin) {
  const there = new Date(ms + offsetMin * 60000).toISOString();
  const ahead = Math.abs(offsetMin);
  return there.slice(0, 19).replace("T", " ") + (offsetMin < 0 ? "-" : "+") + two(Math.floor(ahead / 60)) + ":" + two(ahead % 60);
}

/** When a slip happened: what was typed, with the day on which it was typed, else when it was made. */
export function moment(typed, made, offsetMin, zone) {
  const text = typed.trim();
  if (text === "") return stamp(made, offsetMin);
  if (!/^\d?\d:\d\d$/.test(text)) return text;
  const day = zone ? new Intl.DateTimeFormat("sv-SE", { timeZone: zone }).format(made) : stamp(made, offsetMin).slice(0, 10);
  return day + " " + text.padStart(5, "0");
}

/** The id of a fact: a UUID of version 7 of a time and ten random bytes. */
export function factID(ms, random) {
  const bytes = new Uint8Array(16);
  for (let i = 0; i < 6; i++) bytes[i] = Math.floor(ms / 256 ** (5 - i)) % 256;
  bytes.set(random, 6);
  bytes[6] = (bytes[6] & 0x0f) | 0x70;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const hex = [...bytes].map((b) => b.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}
