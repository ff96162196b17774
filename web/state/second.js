// web/state/second.js: a second copy of what is kept, in the browser's database. localStorage is read
// at once but reaches the disk seconds later, in Chromium up to a minute (one write a minute in the
// long run); the database is asked to be on the disk when it says so.

const NAME = 'canewright';
const STORE = 'flutes';
const DAYS_MS = 7 * 86400000;  // by then localStorage has long been written

/** @typedef {{id: string, revision: number, at: number, json: string}} Copy */

/** @type {Promise<IDBDatabase> | null} */
let opening = null;

/** @returns {Promise<IDBDatabase>} */
function base() {
  opening ??= new Promise((done, fail) => {
    const request = indexedDB.open(NAME, 1);
    request.onupgradeneeded = () => request.result.createObjectStore(STORE, { keyPath: 'id' });
    request.onsuccess = () => done(request.result);
    request.onerror = () => fail(request.error);
  });
  opening.catch(() => { opening = null; });
  return opening;
}

/** @template T
 * @param {IDBTransactionMode} mode @param {(store: IDBObjectStore) => IDBRequest<T>} act
 * @returns {Promise<T>} */
async function ask(mode, act) {
  const transaction = (await base()).transaction(STORE, mode, { durability: 'strict' });
  const request = act(transaction.objectStore(STORE));
  return new Promise((done, fail) => {
    transaction.oncomplete = () => done(request.result);
    transaction.onabort = () => fail(transaction.error);
  });
}

/** Under way, and the newest that waits: a slow disk must not gather a queue.
 * @type {Map<string, Copy | null>} */
const waiting = new Map();

/** Never rejects: the first copy is the one that counts.
 * @param {string} id @param {number} revision @param {string} json */
export async function copy(id, revision, json) {
  /** @type {Copy | null} */
  let next = { id, revision, at: Date.now(), json };
  if (waiting.has(id)) return void waiting.set(id, next);
  while (next !== null) {
    const now = next;
    waiting.set(id, null);
    await ask('readwrite', (store) => store.put(now)).catch(() => {});
    next = waiting.get(id) ?? null;
  }
  waiting.delete(id);
}

/** @param {string} id */
export const forget = (id) => ask('readwrite', (store) => store.delete(id)).then(() => true, () => false);

/** What is there, without what is too old to matter; nothing where there is no database.
 * @returns {Promise<Copy[]>} */
export async function copies() {
  /** @type {Copy[]} */
  const all = await ask('readonly', (store) => store.getAll()).catch(() => []);
  const old = all.filter((one) => Date.now() - one.at > DAYS_MS);
  old.forEach((one) => void forget(one.id));
  return all.filter((one) => !old.includes(one));
}
