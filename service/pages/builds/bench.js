/** The build that is open: its document, its changes, undo and redo. */
import { shelf } from './shelf.js';

const MOST_STEPS = 30;
const listeners = new Set();

/** @type {import('./shelf.js').Kept|null} */
let open = null;

/** @param {() => void} listener called after every change of the open build */
export function onChange(listener) {
  listeners.add(listener);
}

/**
 * Open a build, unless it is open already.
 * @param {string} id
 * @returns {Promise<import('./shelf.js').Kept|null>} null where there is none
 */
export async function take(id) {
  if (open?.id !== id) open = (await shelf.read(id)) ?? null;
  return open;
}

/** @returns {import('./shelf.js').Kept} the open build */
export function bench() {
  return open;
}

/**
 * Change the document: one step that undo takes back.
 * @param {string} words what is done
 * @param {(document: any) => any} edit changes the copy that it is given, or gives another back
 */
export async function change(words, edit) {
  const copy = structuredClone(open.document);
  const next = edit(copy) ?? copy;
  if (JSON.stringify(next) === JSON.stringify(open.document)) return;
  open.past = [...open.past, { words, document: open.document }].slice(-MOST_STEPS);
  open.future = [];
  await replace(next);
}

/** Take back the last change. @returns {Promise<string>} what was taken back */
export function undo() {
  return step(open.past, open.future);
}

/** Do again what was taken back. @returns {Promise<string>} what was done */
export function redo() {
  return step(open.future, open.past);
}

async function step(from, to) {
  const { words, document } = from.pop();
  to.push({ words, document: open.document });
  await replace(document);
  return words;
}

/**
 * Tick off a piece, or take the tick away; no step of undo.
 * @param {string} piece its part and number
 * @param {boolean} done
 */
export async function tick(piece, done) {
  open.cut = { ...open.cut, [piece]: done };
  await shelf.write(open);
}

/** Forget the ticks: the pieces are to be cut anew. */
export async function untick() {
  open.cut = {};
  await shelf.write(open);
}

async function replace(document) {
  open.document = document;
  open.changed = Date.now();
  await shelf.write(open);
  listeners.forEach((listener) => listener());
}
