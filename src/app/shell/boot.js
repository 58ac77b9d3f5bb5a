// The shell around the app: starts it, says so when it stops, and keeps it working without a network.
//
// The app tells the shell (events on window):
//   pw-house           the house is on the page; its parts follow in turns
//   pw-mounted         the first room is on the page
//   pw-panic           the app has stopped; `detail` is the message
// The shell tells the app:
//   pw-offline-ready   every file is on the phone (first visit only)
//   pw-update-waiting  a new version is whole and waits; call pattywright.acceptUpdate() after saving
//   pw-update-taken    another tab took the new version; this one runs on until it is reloaded
// window.pattywright: { acceptUpdate(), evaluate(document) }.

const HOUR_MS = 3_600_000;
const LATE_MS = 10_000;
const DATABASE = 'pattywright';
const $ = (id) => document.getElementById(id);

// ---- In the cook's language ----

// The app's own texts are in src/words; these stand ready for when there is no app.
const GERMAN = {
  'shell-what': 'Burger aus trockenem texturiertem Pflanzenprotein: gewogen, abgestimmt und gerettet auf dem Handy neben dem Herd, ohne Netz.',
  'shell-waits': 'Die Schüssel kommt auf die Waage …',
  'trouble-title': 'Pattywright ist stehen geblieben',
  'trouble-what': 'Etwas ging schief und ließ sich nicht beheben. Was du gespeichert hast, ist noch auf diesem Handy.',
  'trouble-reload': 'Neu laden',
  'trouble-copy': 'Meine Daten als Datei speichern',
  'trouble-close': 'Weitermachen',
  'trouble-more': 'Was der Browser gesagt hat',
  'Nothing has been saved on this phone yet.': 'Auf diesem Handy ist noch nichts gespeichert.',
  'Look for {} among your downloads.': 'Du findest {} bei deinen Downloads.',
  'The saved data could not be read: {}.': 'Die gespeicherten Daten ließen sich nicht lesen: {}.',
};

// Until the app has said which language is spoken, the browser's own counts.
let spoken = navigator.language;
const isGerman = () => spoken.toLowerCase().startsWith('de');

function say(text, value) {
  return ((isGerman() && GERMAN[text]) || text).replace('{}', value);
}

function translateAll(ids) {
  if (isGerman()) ids.forEach((id) => $(id) && ($(id).textContent = GERMAN[id]));
}

translateAll(['shell-what', 'shell-waits']);

const FORBIDDEN_HTML = /<\s*(script|iframe|frame|object|embed|link|meta|base|form)\b|<[^>]*[\s"'/]on\w+\s*=|javascript:/i;

// Every piece of HTML and every script address has to pass here: the content security policy asks for it.
globalThis.trustedTypes?.createPolicy('default', {
  createHTML: (html) => {
    if (FORBIDDEN_HTML.test(html)) throw new TypeError('This HTML may not be put on the page.');
    return html;
  },
  createScriptURL: (url) => {
    if (new URL(url, document.baseURI).origin !== location.origin) throw new TypeError('Scripts come from this site only.');
    return url;
  },
});

// ---- When it cannot go on ----

// A stopped WebAssembly program never answers again, so only lesser trouble may be closed.
function showTrouble(error, stopped) {
  console.error(error);
  const stays = stopped || error instanceof WebAssembly.RuntimeError;
  if (stays) $('trouble-close').hidden = true;
  $('trouble-detail').textContent += `${error?.stack || error}\n`;
  if ($('trouble').hidden) {
    translateAll(Object.keys(GERMAN));
    $('trouble').hidden = false;
    $('trouble-reload').focus();
  }
}

// Opens the saved data as it is; a database that does not exist is not made, for the app must lay it out.
function openSaved() {
  return new Promise((resolve, reject) => {
    const opening = indexedDB.open(DATABASE);
    opening.onupgradeneeded = () => opening.transaction.abort();
    opening.onsuccess = () => resolve(opening.result);
    opening.onerror = () => (opening.error.name === 'AbortError' ? resolve(null) : reject(opening.error));
  });
}

function answer(request) {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

// Returns everything saved, as { store: [ { key, value } ] }, or null when nothing ever was.
async function readSaved() {
  const database = await openSaved();
  if (!database) return null;
  const saved = {};
  for (const name of database.objectStoreNames) {
    const store = database.transaction(name).objectStore(name);
    const [keys, values] = await Promise.all([answer(store.getAllKeys()), answer(store.getAll())]);
    saved[name] = keys.map((key, i) => ({ key, value: values[i] }));
  }
  database.close();
  return saved;
}

async function downloadSaved() {
  try {
    const saved = await readSaved();
    if (!saved || Object.values(saved).every((rows) => rows.length === 0)) {
      $('trouble-said').textContent = say('Nothing has been saved on this phone yet.');
      return;
    }
    // The book as it is saved is a backup file; what is no book goes out raw.
    const book = saved.book?.[0]?.value?.text;
    const isBook = typeof book === 'string';
    const link = document.createElement('a');
    const text = isBook ? book : JSON.stringify(saved, null, 1);
    link.href = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
    link.download = isBook ? 'pattywright-saved.json' : 'pattywright-raw-data.json';
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
    $('trouble-said').textContent = say('Look for {} among your downloads.', link.download);
  } catch (error) {
    $('trouble-said').textContent = say('The saved data could not be read: {}.', error.message);
  }
}

$('trouble-copy').addEventListener('click', downloadSaved);
$('trouble-close').addEventListener('click', () => ($('trouble').hidden = true));
// A waiting new version may well be the cure, so it is taken with the reload.
$('trouble-reload').addEventListener('click', acceptUpdate);

// An event without `error` is no fault of ours (a resize loop, a script of another origin).
window.addEventListener('error', (event) => event.error && showTrouble(event.error));
window.addEventListener('unhandledrejection', (event) => showTrouble(event.reason));
window.addEventListener('pw-panic', (event) => showTrouble(event.detail, true));

// ---- Starting ----

window.pattywright = { acceptUpdate, evaluate };

window.addEventListener('pw-house', () => $('skeleton').remove(), { once: true });

const mounted = new Promise((resolve) => window.addEventListener('pw-mounted', resolve, { once: true }));
// A room that never comes may not keep a cure from coming.
const late = new Promise((resolve) => setTimeout(resolve, LATE_MS));

mounted.then(() => {
  spoken = document.documentElement.lang;
  performance.mark('pw-ready');
});

async function start() {
  const { js, wasm } = document.querySelector('script[data-js]').dataset;
  const at = (path) => new URL(path, document.baseURI).href;
  // A server that does not call the module one is read the long way.
  const compiled = WebAssembly.compileStreaming(fetch(at(wasm))).catch(() => fetch(at(wasm)));
  const [app, module_or_path] = await Promise.all([import(at(js)), compiled]);
  await app.default({ module_or_path });
}

// Promises the report on a document; the sums come in a module of their own, which is not kept for use without a network.
async function evaluate(document) {
  const sums = await import('./evaluate.js');
  await sums.default();
  return sums.evaluate(document);
}

// ---- Without a network, and new versions ----

const workers = navigator.serviceWorker;
let newest = null;
let accepted = false;
let controlled = Boolean(workers?.controller);
let overtaken = false;

const tell = (name) => window.dispatchEvent(new CustomEvent(name));

// Reloads the page, with the new version if one waits.
function acceptUpdate() {
  if (newest?.state !== 'installed') return location.reload();
  accepted = true;
  newest.postMessage('take over');
}

// The first worker ever takes the page over too, and that is no new version.
workers?.addEventListener('controllerchange', () => {
  if (accepted) return location.reload();
  overtaken = controlled;
  controlled = true;
  if (overtaken) tell('pw-update-taken');
});

function watch(worker, firstVisit) {
  if (!worker || worker === newest) return;
  newest = worker;
  const look = () => {
    if (worker.state === 'installed' && !firstVisit) tell('pw-update-waiting');
    if (worker.state === 'activated' && firstVisit) tell('pw-offline-ready');
  };
  worker.addEventListener('statechange', look);
  look();
}

async function installOffline() {
  if (!workers) return;
  const registration = await workers.register('./sw.js', { updateViaCache: 'none' });
  watch(registration.waiting || registration.installing, !registration.active);
  registration.addEventListener('updatefound', () => watch(registration.installing, !registration.active));

  // The browser may have cleared away some of the files.
  const lookAfter = () => registration.active?.postMessage('look after');
  lookAfter();

  let checked = Date.now();
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState !== 'visible') return;
    lookAfter();
    if (Math.abs(Date.now() - checked) < HOUR_MS) return; // The clock may have been set back.
    checked = Date.now();
    registration.update().catch(() => {}); // Without a network there is nothing new.
  });
}

// The worker fetches every file anew, so it is registered once the room is there; also when the app could not start,
// for a later version may bring the cure.
// A version that another tab replaced while it was starting has lost its files: the new one is loaded.
start()
  .then(() => Promise.race([mounted, late]))
  .catch((error) => (overtaken ? location.reload() : showTrouble(error, true)))
  .then(installOffline)
  .catch((error) => console.warn('Not kept for use without a network:', error));
