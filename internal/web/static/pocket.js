// What the phone keeps: slips until the house has them, and who was signed in
// last. It is IndexedDB of this browser, not encrypted.

/** @typedef {import("./waiting.js").Slip} Slip */

let opened;

/** Opens the store; it fails where the browser keeps nothing. @returns {Promise<IDBDatabase>} */
export function open() {
  opened ??= new Promise((resolve, reject) => {
    const asked = indexedDB.open("awn", 1);
    asked.onupgradeneeded = () => {
      asked.result.createObjectStore("slips", { keyPath: "id" });
      asked.result.createObjectStore("person");
    };
    asked.onsuccess = () => {
      asked.result.onversionchange = () => asked.result.close();
      resolve(asked.result);
    };
    asked.onerror = () => reject(asked.error);
    addEventListener("pagehide", () => { // a page that a browser puts aside must not hold the store from the next
      asked.transaction?.abort();
      if (asked.readyState === "done") asked.result?.close();
      opened = undefined;
    }, { once: true });
  });
  return opened;
}

/** Does something in one transaction, and waits until it is on the disk. */
async function within(stores, mode, act) {
  const db = await open();
  return new Promise((resolve, reject) => {
    const t = db.transaction(stores, mode, { durability: "strict" });
    const asked = act(t);
    t.oncomplete = () => resolve(asked?.result);
    t.onabort = () => reject(t.error);
  });
}

/** @returns {Promise<Slip[]>} */
export const slips = () => within("slips", "readonly", (t) => t.objectStore("slips").getAll());

/** @param {string} id @returns {Promise<Slip | undefined>} */
export const slip = (id) => within("slips", "readonly", (t) => t.objectStore("slips").get(id));

/** Keeps a slip; the one that it takes the place of goes with the same stroke. @param {Slip} slip */
export const keep = (slip, instead) => within("slips", "readwrite", (t) => {
  t.objectStore("slips").put(slip);
  if (instead) t.objectStore("slips").delete(instead);
});

/** @param {string} id */
export const drop = (id) => within("slips", "readwrite", (t) => void t.objectStore("slips").delete(id));

/** Who was signed in last: their entries can be made without the network. @returns {Promise<{who: string, whose: string} | undefined>} */
export const person = () => within("person", "readonly", (t) => t.objectStore("person").get("last"));

/** Keeps who is signed in, or that nobody is. */
export const setPerson = (who) => within("person", "readwrite", (t) => {
  if (who) t.objectStore("person").put(who, "last");
  else t.objectStore("person").delete("last");
});
