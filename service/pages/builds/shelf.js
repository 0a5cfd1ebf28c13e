/** Builds and the answers got for them, kept on this device. */

const NAME = 'dryfit';
const STORES = ['builds', 'answers'];

/**
 * A build as it is kept.
 * @typedef {Object} Kept
 * @property {string} id
 * @property {any} document the build, as the service reads it
 * @property {Object<string, boolean>} cut pieces that are ticked off, by part and number
 * @property {number} changed when, in milliseconds
 * @property {Array<{words: string, document: any}>} past what undo goes back to, newest last
 * @property {Array<{words: string, document: any}>} future what redo goes forward to, next last
 */

let opened = null;

function database() {
  opened ??= new Promise((resolve, reject) => {
    const asked = indexedDB.open(NAME, 1);
    asked.onupgradeneeded = () => STORES.forEach((store) => asked.result.createObjectStore(store));
    asked.onsuccess = () => resolve(asked.result);
    asked.onerror = () => reject(asked.error);
  });
  return opened;
}

async function within(store, mode, act) {
  const base = await database();
  return new Promise((resolve, reject) => {
    const transaction = base.transaction(store, mode);
    const request = act(transaction.objectStore(store));
    transaction.oncomplete = () => resolve(request.result);
    transaction.onabort = () => reject(transaction.error);
  });
}

export const shelf = {
  /** @returns {Promise<Kept[]>} newest first */
  async list() {
    const all = await within('builds', 'readonly', (store) => store.getAll());
    return all.sort((first, second) => second.changed - first.changed);
  },

  /** @param {string} id @returns {Promise<Kept|undefined>} */
  read: (id) => within('builds', 'readonly', (store) => store.get(id)),

  /** @param {Kept} kept */
  write: (kept) => within('builds', 'readwrite', (store) => store.put(kept, kept.id)),

  /** @param {string} id its answers go too */
  async remove(id) {
    await within('builds', 'readwrite', (store) => store.delete(id));
    await within('answers', 'readwrite', (store) => store.delete(IDBKeyRange.bound(`${id}/`, `${id}/\uffff`)));
  },

  /** @param {string} id @param {string} question */
  answer: (id, question) => within('answers', 'readonly', (store) => store.get(`${id}/${question}`)),

  /** @param {string} id @param {string} question @param {any} answer */
  keepAnswer: (id, question, answer) => within('answers', 'readwrite', (store) => store.put(answer, `${id}/${question}`)),
};

/**
 * Put a document on the shelf as a new build.
 * @param {any} document
 * @returns {Promise<string>} its id
 */
export async function shelve(document) {
  const id = Array.from(crypto.getRandomValues(new Uint8Array(6)), (byte) => byte.toString(16).padStart(2, '0')).join('');
  await shelf.write({ id, document, cut: {}, changed: Date.now(), past: [], future: [] });
  return id;
}
