/**
 * Keeps the whole app on the phone, so that a cold start needs no network. Nothing the herd says passes through here.
 *
 * A new version is fetched beside the old one and waits (rule UI-9): it takes over at the next cold start, or when the
 * page says that no answer is open and the person agreed.
 */
const worker = self as unknown as ServiceWorkerGlobalScope;

/** The files of this build and its name, put in by the build (vite.config.ts). */
const BUILD = "__BUILD_NAME__";
const FILES: readonly string[] = JSON.parse("__BUILD_FILES__");
const CACHE = `pollard-${BUILD}`;

worker.addEventListener("install", (event) => {
  event.waitUntil(
    caches.open(CACHE).then((cache) => cache.addAll(FILES.map((file) => new Request(file, { cache: "reload" })))),
  );
});

worker.addEventListener("activate", (event) => {
  event.waitUntil(
    (async () => {
      for (const name of await caches.keys())
        if (name.startsWith("pollard-") && name !== CACHE) await caches.delete(name);
      await worker.clients.claim();
    })(),
  );
});

worker.addEventListener("message", (event) => {
  if (event.data === "take-over") void worker.skipWaiting();
});

worker.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== worker.location.origin || /\/(api|paper)\//.test(url.pathname)) return;
  event.respondWith(
    (async () => {
      const cache = await caches.open(CACHE);
      const page = request.mode === "navigate" ? await cache.match("./") : undefined;
      return page ?? (await cache.match(request, { ignoreSearch: true })) ?? fetch(request);
    })(),
  );
});

export {};
