// The part of the house that stays on the phone. It hands out what a page of the
// house has put into the cache (an empty form and the files that dress it) where
// the network does not answer, and keeps nothing by itself: no page with anything
// of the record in it ever comes here.

// How long a page is waited for before the empty one is shown.
const answerMs = 10000;

addEventListener("install", () => skipWaiting());
addEventListener("activate", (event) => event.waitUntil(clients.claim()));
addEventListener("fetch", (event) => {
  const request = event.request;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== location.origin) return;
  if (request.mode === "navigate") event.respondWith(inTime(fetch(request)).catch(() => kept("/shell")));
  else if (url.pathname.startsWith("/static/")) event.respondWith(fetch(request).catch(() => kept(url.pathname)));
});

function inTime(answer) {
  return Promise.race([answer, new Promise((_, fail) => setTimeout(fail, answerMs))]);
}

async function kept(path) {
  return (await caches.match(path)) ?? Response.error();
}
