/** One question as a form, and its answer below: the big number first. */
import { findingCard } from '../answers/findings.js';
import { facts, grounds, keptNote } from '../answers/shown.js';
import { prefer, preferences } from '../asking/preferences.js';
import { Refused, ask } from '../asking/service.js';
import { finishes, glues, stocks, woods } from '../asking/tables.js';
import { fill, make } from '../drawn/element.js';
import { say } from '../drawn/frame.js';
import { makeForm } from '../forms/form.js';
import { closeKeys } from '../forms/tape-keys.js';

/**
 * The form of a question with a place for its answer.
 * @param {import('./list.js').Question} question
 * @returns {Promise<HTMLElement>}
 */
export async function asked(question) {
  const context = await contextOf(preferences());
  const answer = make('section', { 'aria-label': 'Answer', tabindex: '-1', hidden: true });
  const form = makeForm(question.fields(context), question.start?.(context) ?? {}, context, (values) => answerTo(question, values, form, answer));
  form.element.id = `form-${question.id}`; // the button that asks is on the ledge
  return make('div', { class: 'question', id: `ask-${question.id}` }, form.element, answer);
}

async function contextOf({ region, units }) {
  const [stocked, wooded, glued, finished] = await Promise.all([stocks(region), woods(), glues(), finishes()]);
  return { region, units, stocks: stocked, woods: wooded, glues: glued, finishes: finished };
}

async function answerTo(question, values, form, place) {
  closeKeys();
  if (values.tools) prefer({ tools: values.tools });
  const { units } = preferences();
  try {
    const { answer, kept } = await ask(question.path(values), parametersOf(question, values));
    fill(place, shown(question, answer, kept, units));
    place.className = 'answer';
  } catch (refused) {
    if (!(refused instanceof Refused)) throw refused;
    form.mark(refused.faults);
    fill(place, make('p', { class: 'older' }, refused.message));
    place.className = '';
  }
  place.hidden = false;
  if (place.className) {
    place.scrollIntoView({ block: 'start' });
    place.focus({ preventScroll: true });
  }
}

function shown(question, answer, kept, units) {
  const { number, words } = question.big(answer, units);
  const drawing = question.drawing?.(answer);
  say(`${number} ${words}`);
  return [
    keptNote(kept),
    make('p', { class: 'big' }, number),
    make('p', { class: 'big-words' }, words),
    (answer.findings ?? []).map((finding) => findingCard(finding)),
    drawing && make('img', { class: 'drawing', alt: altOf(drawing), src: `data:image/svg+xml;charset=utf-8,${encodeURIComponent(drawing)}` }),
    facts(question.rows(answer, units)),
    answer.not_judged?.length > 0 && facts([['Not judged', answer.not_judged]]),
    grounds(answer),
  ];
}

/** What a drawing says in words, as it stands in the drawing itself. */
function altOf(drawing) {
  const read = new DOMParser().parseFromString(drawing, 'image/svg+xml');
  return ['title', 'desc'].map((name) => read.querySelector(name)?.textContent).filter(Boolean).join(': ');
}

/** The parameters of the address: sizes of a stated stock go by their own names. */
function parametersOf(question, values) {
  const known = preferences();
  const given = question.keeps ? Object.fromEntries(question.keeps(values).map((name) => [name, values[name]])) : { ...values };
  const inPath = new Set(question.inPath ?? []);
  const flat = Object.entries(given).filter(([name, value]) => !inPath.has(name) && value !== undefined).flatMap(flattened);
  for (const name of question.takes) flat.push([name, known[name]]);
  return Object.fromEntries(flat);
}

function flattened([name, value]) {
  if (Array.isArray(value)) return value.length ? [[name, value.join(',')]] : [];
  if (typeof value !== 'object') return [[name, String(value)]];
  if (name === 'stock') return Object.entries(value);
  const { thickness, width, diameter } = value;
  return [[name, width ? `${thickness} x ${width}` : (thickness ?? diameter)]];
}
