/**
 * Forms made of a list of fields. A form reads into a copy of the value that it was filled in with,
 * so whatever it has no field for stays as it was.
 */
import { freshId, make } from '../drawn/element.js';
import { say } from '../drawn/frame.js';
import { control } from './controls.js';
import { putAt, valueAt } from './paths.js';
import { several } from './several.js';

/**
 * @typedef {Object} Field
 * @property {string} name place of its value, with points: `fastener.length`
 * @property {string} label
 * @property {string} kind see controls.js; or `several`, with `fields`, `one` and `tidy`
 * @property {string} [hint]
 * @property {string} [like] an example of what to write
 * @property {string} [blank] what an empty choice is called
 * @property {Array<[string, string]>} [choices]
 * @property {boolean} [wide] takes the whole width
 * @property {boolean} [bare] its label is said by the section around it, and not shown again
 * @property {boolean} [long] its choices are sentences rather than words
 * @property {(value: any) => boolean} [when] whether it is asked at all
 */

/**
 * @typedef {Object} Section
 * @property {string} legend
 * @property {Field[]} fields
 * @property {boolean} [folded] shown folded up unless something is said in it
 */

/**
 * Make a form.
 * @param {Array<Field|Section>} fields
 * @param {any} value
 * @param {import('./controls.js').Context} context
 * @param {(value: any) => any} onsubmit
 * @returns {{element: HTMLFormElement, read: () => any, keep: (value: any) => any, mark: (faults: Array) => void}}
 *   `keep` does with a value what submitting does with what is filled in
 */
export function makeForm(fields, value, context, onsubmit) {
  const rows = [];
  const general = make('div', { role: 'alert' });
  const read = () => {
    const copy = structuredClone(value);
    for (const row of rows) putAt(copy, row.spec.name, row.control.read());
    return copy;
  };
  const element = make('form', { novalidate: true }, general, fields.map((one) => drawn(one, value, context, rows)));
  const look = () => showAsked(rows, read());
  element.addEventListener('change', look);
  element.addEventListener('submit', (event) => {
    event.preventDefault();
    mark(rows, general, []);
    onsubmit(read());
  });
  look();
  return { element, read, keep: onsubmit, mark: (faults) => mark(rows, general, faults) };
}

/**
 * The fields of one object, without a form around them.
 * @param {Field[]} fields
 * @param {any} value
 * @param {import('./controls.js').Context} context
 */
export function makeFields(fields, value, context) {
  const rows = [];
  const element = make('div', { class: 'pair' }, fields.map((one) => drawnField(one, value, context, rows)));
  const read = () => {
    const copy = structuredClone(value);
    for (const row of rows) putAt(copy, row.spec.name, row.control.read());
    return copy;
  };
  const look = () => showAsked(rows, read());
  element.addEventListener('change', look);
  look();
  return { element, read };
}

function drawn(one, value, context, rows) {
  if (!one.fields || one.kind === 'several') return drawnField(one, value, context, rows);
  const inner = make('div', { class: 'pair' }, one.fields.map((field) => drawnField(field, value, context, rows)));
  if (!one.folded) return make('fieldset', {}, make('legend', {}, one.legend), inner);
  const said = one.fields.some((field) => valueAt(value, field.name) !== undefined);
  return make('details', { open: said }, make('summary', {}, one.legend), inner);
}

function drawnField(spec, value, context, rows) {
  const id = freshId();
  const made = spec.kind === 'several'
    ? several(spec, valueAt(value, spec.name) ?? [], context)
    : control(spec, valueAt(value, spec.name), id, context);
  const wrong = make('p', { class: 'wrong', id: `${id}-wrong`, hidden: true });
  const hint = spec.hint && make('p', { class: 'hint', id: `${id}-hint` }, spec.hint);
  const grouped = spec.kind === 'several' || spec.kind === 'ticks';
  if (hint && !grouped) made.input.setAttribute('aria-describedby', `${id}-hint`);
  const label = grouped ? !spec.bare && make('p', {}, spec.label) : make('label', { for: id }, spec.label);
  const wide = spec.wide || grouped || spec.kind === 'stock';
  const element = make('div', { class: wide ? 'field wide' : 'field' }, label, hint, made.element, wrong);
  rows.push({ spec, control: made, element, wrong, id });
  return element;
}

function showAsked(rows, value) {
  for (const { spec, element } of rows) {
    if (spec.when) element.hidden = !spec.when(value);
  }
}

/** Say beside each field what is wrong with it, the rest above; go to the first. */
function mark(rows, general, faults) {
  let first = null;
  const left = [...faults];
  for (const { spec, control: made, wrong } of rows) {
    const mine = left.findIndex((fault) => placeOf(fault) === spec.name || placeOf(fault).startsWith(`${spec.name}.`));
    const fault = mine < 0 ? null : left.splice(mine, 1)[0];
    wrong.hidden = !fault;
    wrong.textContent = fault?.detail ?? '';
    if (!made.input) continue;
    made.input.toggleAttribute('aria-invalid', Boolean(fault));
    if (fault) {
      made.input.setAttribute('aria-errormessage', wrong.id);
      first ??= made.input;
    }
  }
  general.replaceChildren(...left.map((fault) => make('p', { class: 'older' }, fault.detail)));
  if (faults.length) say(faults[0].detail);
  first?.focus();
}

/** A pointer or a parameter as the name of a field. */
function placeOf(fault) {
  return (fault.parameter ?? fault.pointer ?? '').replace(/^#?\//, '').replaceAll('/', '.');
}
