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

async function fill() {
  const files = await Promise.all(Object.keys(FILES).map(async (address) => [address, await fetchFile(address)]));
  const cache = await caches.open(CACHE);
  await Promise.all(files.map(([address, response]) => cache.put(address, response)));
}

async function install() {
  try {
    await fill();
  } catch (refused) {
    await caches.delete(CACHE); // It may have been full half-way.
    throw refused;
  }
}

// Browsers clear kept files away when space runs short. They come back if the server still has this very build;
// until then the open page runs on, and a page that is loaded anew comes from the server with all its files.
let filling = null;
async function lookAfter() {
  const cache = await caches.open(CACHE);
  if ((await cache.keys()).length >= Object.keys(FILES).length) return;
  filling ??= fill().finally(() => (filling = null));
  await filling;
}

async function kept(address) {
  if (!(address in FILES)) return undefined;
  const find = async () => (await caches.open(CACHE)).match(address, ANY_HEADERS);
  return (await find()) || lookAfter().then(find, () => undefined);
}

async function activate() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith(OURS) && name !== CACHE).map((name) => caches.delete(name)));
  await clients.claim();
}

// The page has one address, and its state lives after the '#': any other page address leads back to it.
// Files carry a hash of their bytes in their names, so one that comes from the server belongs to the page that asks for it.
async function answer(request) {
  const address = request.url.slice(registration.scope.length);
  if (request.mode === 'navigate') {
    if (!/^(index\.html)?([?#]|$)/.test(address)) return Response.redirect(registration.scope, 302);
    return (await kept('./')) || fetch(request);
  }
  return (await kept(address || './')) || fetch(request);
}

addEventListener('install', (event) => event.waitUntil(install()));
addEventListener('activate', (event) => event.waitUntil(activate()));
addEventListener('message', (event) => {
  if (event.data === 'take over') skipWaiting();
  if (event.data === 'look after') event.waitUntil(lookAfter().catch(() => {})); // Without a network, later.
});
addEventListener('fetch', (event) => {
  const { method, url } = event.request;
  if (method === 'GET' && url.startsWith(registration.scope) && !url.endsWith('/sw.js')) {
    event.respondWith(answer(event.request));
  }
});
