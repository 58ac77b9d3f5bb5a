// Takes the app off the phones, should it ever have to be: put this on the host in place of sw.js.
// The kept files go and open pages load anew from the network; what the cook saved stays.

async function retire() {
  const ours = `pattywright:${new URL(registration.scope).pathname}:`;
  const names = (await caches.keys()).filter((name) => name.startsWith(ours));
  await Promise.all(names.map((name) => caches.delete(name)));
  await registration.unregister();
  const pages = await clients.matchAll({ type: 'window' });
  await Promise.all(pages.map((page) => page.navigate(page.url)));
}

addEventListener('install', () => skipWaiting());
addEventListener('activate', (event) => event.waitUntil(retire()));
