/** The build that is open: its document, its changes, undo and redo. */
import { warn } from '../drawn/frame.js';
import { shelf } from './shelf.js';

const MOST_STEPS = 30;
const NOT_KEPT = 'This device could not keep the last change: it has no room, or keeps nothing for this page. Export the build as a file before you leave.';
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

/**
 * Close a build that is no longer on the shelf.
 * @param {string} id
 */
export function putAway(id) {
  if (open?.id === id) open = null;
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

/** Take back the last change. @returns {Promise<string>} what was taken back, empty for nothing */
export function undo() {
  return step(open.past, open.future);
}

/** Do again what was taken back. @returns {Promise<string>} what was done, empty for nothing */
export function redo() {
  return step(open.future, open.past);
}

async function step(from, to) {
  const last = from.pop(); // a second press may come before the button is drawn anew
  if (!last) return '';
  to.push({ words: last.words, document: open.document });
  await replace(last.document);
  return last.words;
}

/**
 * Tick off a piece, or take the tick away; no step of undo.
 * @param {string} piece its part and number
 * @param {boolean} done
 */
export async function tick(piece, done) {
  open.cut = { ...open.cut, [piece]: done };
  await keep();
}

/** Forget the ticks: the pieces are to be cut anew. */
export async function untick() {
  open.cut = {};
  await keep();
}

async function replace(document) {
  open.document = document;
  open.changed = Date.now();
  await keep();
  listeners.forEach((listener) => listener());
}

/** Write the open build to the shelf; where that fails it stays open as it is, and the reader is told. */
async function keep() {
  try {
    await shelf.write(open);
    warn('');
  } catch (failure) {
    console.warn(failure);
    warn(NOT_KEPT);
  }
}
