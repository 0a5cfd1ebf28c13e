/** How values of answers read: lengths by the tape, spans, what was assumed, and the sources. */
import { make } from '../drawn/element.js';

/**
 * A length as the tape reads it, with how far off that is where it matters.
 * @param {{tape?: string, in: number, mm: number}|null|undefined} size
 * @param {'in'|'mm'} [units] for lengths that no tape shows
 * @returns {string}
 */
export function tape(size, units = 'in') {
  if (!size) return '';
  if (size.tape) return size.tape;
  return units === 'mm' ? `${rounded(size.mm, 1)} mm` : `${rounded(size.in, 3)}"`;
}

/**
 * A size as a document holds it, with the unit that a bare number is in.
 * @param {string|number|undefined} size
 * @param {'in'|'mm'} [units] of the document
 */
export function written(size, units = 'in') {
  if (size === undefined) return '';
  const bare = /^[\d\s./-]+$/.test(String(size));
  return bare ? `${size}${units === 'mm' ? ' mm' : '"'}` : String(size);
}

/** @param {number} value @param {number} places */
export function rounded(value, places) {
  return String(Number(value.toFixed(places)));
}

/**
 * From a low to a high value, once where they are the same.
 * @param {{low: any, high: any}|null|undefined} span
 * @param {(value: any) => string} words
 */
export function spanned(span, words = String) {
  if (!span) return '';
  const [low, high] = [words(span.low), words(span.high)];
  return low === high ? low : `${low} to ${high}`;
}

/** @param {number} minutes */
export function time(minutes) {
  if (minutes < 120) return `${rounded(minutes, 0)} min`;
  return `${rounded(minutes / 60, 1)} h`;
}

/**
 * A weight in kilograms where the tape reads millimeters, else in pounds.
 * @param {{lb: number, kg: number}|null|undefined} weight
 * @param {'in'|'mm'} units
 */
export function mass(weight, units) {
  if (!weight) return '';
  return units === 'mm' ? `${rounded(weight.kg, 1)} kg` : `${rounded(weight.lb, 1)} lb`;
}

/**
 * `1 coat`, `3 coats`.
 * @param {number|string} number
 * @param {string} one
 */
export function counted(number, one) {
  return `${number} ${one}${String(number) === '1' ? '' : 's'}`;
}

/**
 * Pairs of a name and a value; those without a value are left out.
 * @param {Array<[string, any]>} rows
 */
export function facts(rows) {
  const said = rows.filter(([, value]) => value !== '' && value !== null && value !== undefined && value?.length !== 0);
  return said.length > 0 && make('dl', { class: 'facts' }, said.map(([name, value]) => [
    make('dt', {}, name),
    make('dd', {}, Array.isArray(value) ? make('ul', {}, value.map((one) => make('li', {}, one))) : value),
  ]));
}

/**
 * What an answer took for granted and where its numbers come from.
 * @param {{assumed?: string[], sources?: Array<{id: string, title: string}>, rests_on?: Array, edition?: string}} answer
 */
export function grounds(answer) {
  const assumed = answer.assumed ?? [];
  const remembered = (answer.rests_on ?? []).some((one) => one.confidence === 'memory');
  const sources = (answer.sources ?? []).map((one) => (one.id === 'memory' ? 'none, from memory: measure before relying on it' : one.title));
  return make('div', { class: 'aside' },
    assumed.length > 0 && [make('p', {}, 'Assumed:'), make('ul', {}, assumed.map((one) => make('li', {}, one)))],
    make('details', { 'data-focus': 'sources' },
      make('summary', {}, `Sources (${sources.length})${remembered ? ', some from memory' : ''}`),
      make('ul', {}, sources.map((one) => make('li', {}, one))),
      answer.edition && make('p', {}, `Edition of the tables: ${answer.edition}`)));
}

/**
 * A note that an answer is one kept before.
 * @param {string|null} when an ISO time
 */
export function keptNote(when) {
  return when && make('p', { class: 'older' }, `No connection. This answer was kept on ${new Date(when).toLocaleString()}.`);
}
