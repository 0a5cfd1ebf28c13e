/** The check, asked anew after every change, and which entry of the document each finding is about. */
import { lastTold, tell } from './asking.js';
import { bench, change, onChange } from './bench.js';
import { applyPatch } from './patching.js';
import { send } from '../asking/service.js';

const PAUSE = 250; // milliseconds of quiet before the service is asked

let waiting = 0;

/**
 * Keep the check of the open build up to date.
 * @param {() => void} redraw called when something new is known
 */
export function keepChecking(redraw) {
  onChange(() => {
    redraw();
    clearTimeout(waiting);
    waiting = setTimeout(() => bench() && tell('check').then(redraw), PAUSE);
  });
}

/**
 * Findings, and what can't be read of the document, as findings at their places.
 * @param {import('./asking.js').Told} told
 */
export function findingsOf(told) {
  const unread = (told.refused?.faults ?? []).map((fault) => ({
    severity: 'unread', title: 'The service can’t read this', detail: fault.detail, at: fault.pointer ?? '#', mend: null,
  }));
  return [...unread, ...(told.answer?.findings ?? [])];
}

/** @returns {Promise<any[]>} */
export async function currentFindings() {
  return findingsOf(await lastTold('check'));
}

/**
 * The findings about one entry of a list.
 * @param {any[]} findings
 * @param {string} list such as `parts`
 * @param {number} [index] left out: about any entry
 */
export function about(findings, list, index) {
  const place = index === undefined ? `#/${list}` : `#/${list}/${index}`;
  const inside = (pointer) => pointer === place || pointer?.startsWith(`${place}/`);
  return findings.filter((finding) => inside(finding.at) || inside(finding.also_at));
}

/**
 * Apply the mend of one finding.
 * @param {any} finding
 */
export function applyMend(finding) {
  return change(`mend: ${finding.mend.words}`, (document) => applyPatch(document, finding.mend.patch));
}

/** Apply every exact mend, as the service does it: one after another, each tried on the sums. */
export async function mendAll() {
  const { mended } = await send('check?mended=true', bench().document);
  return change('mend all', () => mended);
}

/** Forms by the list that their entry stands in. */
const FORMS = { parts: 'parts', joints: 'joints', runs: 'runs', loads: 'loads', steps: 'steps', buying: 'buying', shop: 'shop' };

/**
 * A place in the document in words, and the form for it.
 * @param {string} pointer
 * @returns {{place: string, href: string}}
 */
export function placeOf(pointer) {
  const { id, document } = bench();
  const [, list, index, ...rest] = (pointer ?? '#').split('/');
  const entry = /^\d+$/.test(index ?? '') ? document[list]?.[index] : undefined;
  const form = FORMS[list];
  const name = entry && (entry.id ?? entry.part ?? Number(index) + 1);
  const words = [list?.replace(/s$/, ''), name, ...(entry ? rest : [index, ...rest])].filter((one) => one !== undefined);
  const href = form && entry && list !== 'buying' ? `#/build/${id}/${form}/${index}` : `#/build/${id}/${form ?? 'piece'}`;
  return { place: words.join(', ') || 'the whole document', href };
}
