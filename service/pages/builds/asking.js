/** Questions about the open build, each answer kept with the document that it is for. */
import { Refused, send } from '../asking/service.js';
import { bench } from './bench.js';
import { shelf } from './shelf.js';

/**
 * What is known in answer to a question.
 * @typedef {Object} Told
 * @property {any} [answer]
 * @property {string} [of] the document that it is for, as text
 * @property {number} [when] in milliseconds
 * @property {Refused} [refused] why there is no newer one
 */

/** @type {Map<string, Told>} what was last told, by build and question */
const told = new Map();

/** @type {Map<string, string>} the document that a question was last asked about */
const wanted = new Map();

const nameOf = (id, question) => `${id}/${question}`;
const asText = (document) => JSON.stringify(document);

/**
 * What was last told, also if the document has changed since.
 * @param {string} question such as `check`, with its parameters
 * @returns {Promise<Told>}
 */
export async function lastTold(question) {
  const { id } = bench();
  const name = nameOf(id, question);
  if (!told.has(name)) told.set(name, (await shelf.answer(id, question)) ?? {});
  return told.get(name);
}

/**
 * Ask about the document as it is now, unless that is known.
 * @param {string} question
 * @returns {Promise<Told>}
 */
export async function tell(question) {
  const before = await lastTold(question);
  const { id, document } = bench();
  const of = asText(document);
  if (before.of === of && before.answer) return before;
  const name = nameOf(id, question);
  wanted.set(name, of);
  const now = await asked(question, document, of, before);
  if (wanted.get(name) !== of) return told.get(name) ?? now; // asked anew meanwhile
  told.set(name, now);
  if (now.answer && !now.refused) await shelf.keepAnswer(id, question, now).catch(console.warn); // for want of room
  return now;
}

async function asked(question, document, of, before) {
  try {
    return { answer: await send(question, document), of, when: Date.now() };
  } catch (refused) {
    if (!(refused instanceof Refused)) throw refused;
    return { ...before, refused };
  }
}

/**
 * What to say of an answer that is not of the document as it is now.
 * @param {Told} one
 * @returns {string[]}
 */
export function notesOn(one) {
  const notes = [];
  if (one.answer && one.of !== asText(bench().document)) {
    notes.push(`This is older than the document: it was told on ${new Date(one.when).toLocaleString()}, before your last change.`);
  }
  if (one.refused) notes.push(one.refused.message);
  return notes;
}
