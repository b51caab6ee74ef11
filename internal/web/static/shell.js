// The empty page and its files are put where the worker finds them when somebody
// signs in, and taken away when nobody is signed in.

/** @param {{of: string, files: string[]}} shell what to keep, and the mark of this release of it */
export async function keepShell(shell) {
  if (!("serviceWorker" in navigator)) return; // not over https, or an old browser
  await navigator.serviceWorker.register("/worker.js");
  const name = "awn-" + shell.of;
  for (const old of await caches.keys()) if (old.startsWith("awn-") && old !== name) await caches.delete(old);
  const cache = await caches.open(name);
  if (await cache.match("/shell")) return;
  await cache.addAll(shell.files.map((file) => new Request(file, { cache: "reload" })));
}

export async function dropShell() {
  if (!("caches" in window)) return;
  for (const name of await caches.keys()) if (name.startsWith("awn-")) await caches.delete(name);
}
