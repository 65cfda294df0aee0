// Keeps the whole page on the device, so that it opens without the network. A new version takes the place of the old
// one when all of it has arrived.
const NAME = $id + " ";
const VERSION = NAME + "$version";
const FILES = $files;

self.addEventListener("install", (event) => {
  event.waitUntil(
    caches
      .open(VERSION)
      .then((cache) => cache.addAll(FILES.map((file) => new Request(file, { cache: "reload" }))))
      .then(() => self.skipWaiting()),
  );
});

self.addEventListener("activate", (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) =>
        Promise.all(names.filter((name) => name.startsWith(NAME) && name !== VERSION).map((name) => caches.delete(name))),
      )
      .then(() => self.clients.claim()),
  );
});

self.addEventListener("fetch", (event) => {
  if (event.request.method !== "GET" || new URL(event.request.url).origin !== location.origin) return;
  event.respondWith(
    caches.open(VERSION).then((cache) => cache.match(event.request, { ignoreSearch: true })).then((found) => found || fetch(event.request)),
  );
});
