/**
 * Entries of the document's lists: a list of them with their findings beside them, and the form of
 * one. Parts, joints, runs, loads and steps are all shown by this.
 */
import { findingCard } from '../answers/findings.js';
import { Refused } from '../asking/service.js';
import { stockNames, stocks, woods, tools, uses, glues, finishes } from '../asking/tables.js';
import { bench, change } from '../builds/bench.js';
import { about, applyMend, currentFindings, placeOf } from '../builds/checking.js';
import { make } from '../drawn/element.js';
import { linked, say } from '../drawn/frame.js';
import { go } from '../drawn/routes.js';
import { makeForm } from '../forms/form.js';
import { buildWays, withBuild } from './ways.js';

/**
 * A list of the document and how its entries are shown and filled in.
 * @typedef {Object} Kind
 * @property {string} list name in the document
 * @property {string} one what one entry is called
 * @property {string} many heading
 * @property {string} [empty] what to say while there is none
 * @property {(entry: any, document: any, names: Map<string, string>) => {name: string, tape?: string, what: string}} summary
 *   `names` are those of stocks at the store
 * @property {(document: any) => any} fresh a new entry
 * @property {(context: any, document: any) => Array} fields
 * @property {(entry: any) => any} [open] entry to what the fields hold
 * @property {(value: any) => any} [tidy] and back
 * @property {(document: any, before: any, after: any) => void} [follow] what else changes with it
 * @property {(form: any, index: number) => HTMLElement} [more] below the form
 */

/**
 * Choices and names that forms of a build need.
 * @param {any} document
 */
export async function contextOf(document) {
  const [stocked, wooded, tooled, used, glued, finished] = await Promise.all([
    stocks(document.region ?? 'us'), woods(), tools(), uses(), glues(), finishes(),
  ]);
  const named = (list) => (document[list] ?? []).filter((one) => typeof one.id === 'string').map(({ id }) => [id, id]);
  return {
    units: document.units ?? 'in', stocks: stocked, woods: wooded, tools: tooled, uses: used,
    glues: glued, finishes: finished, parts: named('parts'), joints: named('joints'),
  };
}

/**
 * The view of a list.
 * @param {Kind} kind
 */
export function listView(kind) {
  return withBuild(async ({ id, document }) => {
    const entries = document[kind.list] ?? [];
    const [findings, names] = await Promise.all([currentFindings(), stockNames(document.region)]);
    return {
      title: kind.many,
      content: [
        entries.length === 0 && make('p', {}, kind.empty),
        entries.map((entry, index) => card(kind, id, kind.summary(entry, document, names), index, findings)),
      ],
      actions: buildWays(linked(`#/build/${id}/${kind.list}/new`, `Add ${kind.one}`, { class: 'main', 'data-focus': 'add' })),
    };
  });
}

function card(kind, id, { name, tape, what }, index, findings) {
  return make('section', { class: 'card', 'aria-label': `${kind.one} ${name}` },
    make('a', { class: 'open', href: `#/build/${id}/${kind.list}/${index}`, 'data-focus': `${kind.list} ${index}` },
      make('strong', {}, name), make('span', { class: 'tape' }, tape ?? ''), make('span', { class: 'what' }, what)),
    cards(about(findings, kind.list, index), `${kind.list} ${index}`));
}

/**
 * Findings with buttons that apply their mends.
 * @param {any[]} findings
 * @param {string} key
 * @param {boolean} [placed] whether to say where each is
 */
export function cards(findings, key, placed = false) {
  return findings.map((finding, number) => findingCard(finding, {
    ...(placed ? placeOf(finding.at) : {}), key: `${key} ${number}`, onmend: mend,
  }));
}

async function mend(finding) {
  try {
    await applyMend(finding);
    say(`Mended: ${finding.mend.words} Undo takes it back.`);
  } catch (failure) {
    if (!(failure instanceof RangeError)) throw failure;
    say('The document has changed since; check again.');
  }
}

/**
 * The view of one entry: its form.
 * @param {Kind} kind
 */
export function entryView(kind) {
  return withBuild(async ({ id, document }, at) => {
    const fresh = at === 'new';
    const index = fresh ? (document[kind.list] ?? []).length : Number(at);
    const entry = fresh ? kind.fresh(document) : document[kind.list]?.[index];
    const back = `#/build/${id}/${kind.list}`;
    if (!entry) return { title: kind.many, content: [make('p', {}, `There is no such ${kind.one} any more.`)], actions: buildWays(linked(back, kind.many)) };
    const context = await contextOf(document);
    const save = (value) => saved(kind, index, entry, kind.tidy ? kind.tidy(value) : value, back);
    const form = makeForm(kind.fields(context, document), kind.open ? kind.open(structuredClone(entry)) : entry, context, save);
    form.element.id = 'entry';
    const findings = fresh ? [] : about(await currentFindings(), kind.list, index);
    form.mark(findings.filter((one) => one.severity === 'unread').map((one) => ({ pointer: one.at.replace(`#/${kind.list}/${index}`, ''), detail: one.detail })));
    return {
      title: fresh ? `New ${kind.one}` : `${capital(kind.one)} ${kind.summary(entry, document, new Map()).name}`,
      content: [
        findings.filter((one) => one.severity !== 'unread').map((finding, number) => findingCard(finding, { key: `form ${number}`, onmend: (one) => mend(one).then(() => go(back)) })),
        form.element,
        kind.more?.(form, index),
        !fresh && make('div', { class: 'actions' }, make('button', { type: 'button', onclick: () => removed(kind, index, entry, back) }, `Remove this ${kind.one}`)),
      ],
      actions: [linked(back, 'Leave'), make('button', { type: 'submit', form: 'entry', class: 'main' }, 'Keep')],
    };
  });
}

const capital = (word) => word[0].toUpperCase() + word.slice(1);

async function saved(kind, index, before, after, back) {
  await change(`${kind.one} ${after.id ?? after.part ?? after.do ?? index + 1}`, (document) => {
    document[kind.list] = document[kind.list] ?? [];
    document[kind.list][index] = after;
    kind.follow?.(document, before, after);
  });
  go(back);
}

/** Take an entry out of its list, and no other: a second press may come before this view is left. */
async function removed(kind, index, entry, back) {
  const isIt = (one) => JSON.stringify(one) === JSON.stringify(entry);
  await change(`remove ${kind.one} ${index + 1}`, (document) => {
    document[kind.list] = document[kind.list].filter((one, place) => place !== index || !isIt(one));
  });
  say('Removed. Undo takes it back.');
  go(back);
}

/** A refusal in words, or the failure itself where it is none. */
export function inWords(failure) {
  if (!(failure instanceof Refused)) throw failure;
  const faults = failure.faults.map((fault) => `${fault.pointer ?? ''} ${fault.detail}`.trim());
  return [failure.message, ...faults].join(' ');
}
