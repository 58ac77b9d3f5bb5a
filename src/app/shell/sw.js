// Keeps the whole app on the phone. `BUILD` and `FILES` ({ address: SHA-256 }) are written above this text at build
// time, from the finished files.
//
// An install is whole or it is refused. A new version waits until the page says so, because the running page still
// needs the files of its own version. sw.js itself is never kept.

const OURS = `pattywright:${new URL(registration.scope).pathname}:`; // Several sites may share one origin.
const CACHE = OURS + BUILD;
const ANY_HEADERS = { ignoreVary: true }; // There is one kept answer for each address, whatever the headers of the request.

async function sha256(response) {
  const digest = await crypto.subtle.digest('SHA-256', await response.clone().arrayBuffer());
  return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0')).join('');
}

// Asks the server whether the browser's own copy still holds; a copy that is not of this build is fetched anew.
async function fetchFile(address) {
  for (const cache of ['no-cache', 'reload']) {
    const response = await fetch(address, { cache });
    if (response.ok && !response.redirected && (await sha256(response)) === FILES[address]) return response;
  }
  throw new Error(`${address} is not the file of this build.`);
}

async function install() {
  const files = await Promise.all(Object.keys(FILES).map(async (address) => [address, await fetchFile(address)]));
  const cache = await caches.open(CACHE);
  try {
    await Promise.all(files.map(([address, response]) => cache.put(address, response)));
  } catch (full) {
    await caches.delete(CACHE);
    throw full;
  }
}

async function activate() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith(OURS) && name !== CACHE).map((name) => caches.delete(name)));
  await clients.claim();
}

// The page has one address, and its state lives after the '#': any other page address leads back to it.
async function answer(request) {
  const cache = await caches.open(CACHE);
  if (request.mode === 'navigate') {
    const path = new URL(request.url).pathname;
    const root = new URL(registration.scope).pathname;
    if (path !== root && path !== `${root}index.html`) return Response.redirect(registration.scope, 302);
    return (await cache.match('./', ANY_HEADERS)) || fetch(request);
  }
  return (await cache.match(request, ANY_HEADERS)) || fetch(request);
}

addEventListener('install', (event) => event.waitUntil(install()));
addEventListener('activate', (event) => event.waitUntil(activate()));
addEventListener('message', (event) => event.data === 'take over' && skipWaiting());
addEventListener('fetch', (event) => {
  const { method, url } = event.request;
  if (method === 'GET' && url.startsWith(registration.scope) && !url.endsWith('/sw.js')) {
    event.respondWith(answer(event.request));
  }
});
