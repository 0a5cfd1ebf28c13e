/** One control for each kind of value: an element to show, and how to read it. */
import { make } from '../drawn/element.js';
import { closeKeys, follow, openKeys } from './tape-keys.js';

/**
 * What a form is filled in with.
 * @typedef {Object} Context
 * @property {'in'|'mm'} [units]
 * @property {Array<{group: string, choices: Array<[string, string]>}>} [stocks]
 * @property {Array<{group: string, choices: Array<[string, string]>}>} [woods]
 */

/**
 * A control: `element` to show, `input` that the label is for, `read` its value or undefined.
 * @typedef {{element: HTMLElement, input: HTMLElement, read: () => any}} Control
 */

function typed(spec, value, id, props = {}, convert = (text) => text) {
  const input = make('input', {
    id, autocomplete: 'off', autocapitalize: 'off', spellcheck: 'false', ...props, value: value === undefined ? '' : String(value),
  });
  return { element: input, input, read: () => (input.value.trim() === '' ? undefined : convert(input.value.trim())) };
}

const asNumber = (text) => (Number.isFinite(Number(text)) ? Number(text) : text);

/** A length as people write it, with the tape keys at hand. */
function length(spec, value, id, context) {
  const control = typed(spec, value, id, { inputmode: 'none', placeholder: likeIn(context.units, spec.like) });
  const { input } = control;
  const open = () => openKeys(input, context.units === 'mm');
  input.addEventListener('click', open);
  input.addEventListener('input', () => follow(input));
  input.addEventListener('blur', (event) => {
    if (!document.getElementById('tape-keys').contains(event.relatedTarget)) closeKeys();
  });
  const stay = (event) => event.preventDefault();
  const toggle = make('button', { type: 'button', 'aria-label': `Tape keys for ${spec.label}`, onpointerdown: stay, onclick: () => { input.focus(); open(); } }, '1/16');
  return { ...control, element: make('div', { class: 'length' }, input, toggle) };
}

/** An example as this tape reads it: `24 1/2` in inches is some `620` in millimeters. */
function likeIn(units, like) {
  const found = units === 'mm' && /^(?=\d)(?:(\d+)(?: |$))?(?:(\d+)\/(\d+))?$/.exec(like);
  if (!found) return like;
  const mm = 25.4 * (Number(found[1] ?? 0) + Number(found[2] ?? 0) / Number(found[3] ?? 1));
  return String(mm < 20 ? Math.round(mm) : 5 * Math.round(mm / 5));
}

/** One of several words; what the document holds and the list does not stays choosable. */
function choice(spec, value, id, groups) {
  const known = groups.flatMap((one) => one.choices).some(([key]) => key === value);
  const options = ([key, words]) => make('option', { value: key, selected: key === value }, words);
  const select = make('select', { id },
    make('option', { value: '' }, spec.blank ?? 'not said'),
    value !== undefined && !known && make('option', { value, selected: true }, String(value)),
    groups.map((one) => (one.group ? make('optgroup', { label: one.group }, one.choices.map(options)) : one.choices.map(options))));
  return { element: select, input: select, read: () => select.value || undefined };
}

function yesNo(spec, value, id) {
  const asked = choice(spec, value === undefined ? undefined : String(value), id, [{ choices: [['true', 'yes'], ['false', 'no']] }]);
  const read = () => ({ true: true, false: false })[asked.input.value];
  return { ...asked, read };
}

/** Some of several words, each to be ticked. */
function ticks(spec, value, id, choices) {
  const chosen = new Set(value ?? []);
  const all = [...choices, ...[...chosen].filter((one) => !choices.some(([key]) => key === one)).map((one) => [String(one), String(one)])];
  const boxes = all.map(([key, words]) => [key, make('input', { type: 'checkbox', checked: chosen.has(key), value: key }), words]);
  const element = make('div', { class: spec.long ? 'ticks long' : 'ticks', id, role: 'group', 'aria-label': spec.label },
    boxes.map(([, box, words]) => make('label', { class: 'tick' }, box, make('span', {}, words))));
  const read = () => {
    const marked = boxes.filter(([, box]) => box.checked).map(([key]) => key);
    return marked.length || spec.keepEmpty ? marked : undefined;
  };
  return { element, input: boxes[0]?.[1] ?? element, read };
}

const SIZED = '=';

/** A stock by its shop name, or another size stated: a board, a panel or a round. */
function stock(spec, value, id, context) {
  const stated = value !== null && typeof value === 'object' ? value : undefined;
  const groups = [...(context.stocks ?? []), { group: 'another size', choices: [[SIZED, 'thickness, width or diameter']] }];
  const named = choice({ blank: 'choose' }, stated ? SIZED : value, id, groups);
  const sizes = ['thickness', 'width', 'diameter'].map((name) => {
    const own = length({ label: `${spec.label}, ${name}` }, stated?.[name], `${id}-${name}`, context);
    return [name, own, make('div', { class: 'field' }, make('label', { for: `${id}-${name}` }, name), own.element)];
  });
  const more = make('div', { class: 'pair', hidden: !stated }, sizes.map(([, , element]) => element));
  named.input.addEventListener('change', () => { more.hidden = named.input.value !== SIZED; });
  const read = () => {
    if (named.input.value !== SIZED) return named.read();
    const said = sizes.map(([name, own]) => [name, own.read()]).filter(([, size]) => size !== undefined);
    return said.length ? Object.fromEntries(said) : undefined;
  };
  return { element: make('div', {}, named.element, more), input: named.input, read };
}

const KINDS = {
  text: (spec, value, id) => typed(spec, value, id, { placeholder: spec.like, maxlength: 80 }),
  whole: (spec, value, id) => typed(spec, value, id, { inputmode: 'numeric', placeholder: spec.like }, asNumber),
  number: (spec, value, id) => typed(spec, value, id, { inputmode: 'decimal', placeholder: spec.like }, asNumber),
  money: (spec, value, id) => typed(spec, value, id, { inputmode: 'decimal', placeholder: spec.like }),
  length,
  choice: (spec, value, id, context) => choice(spec, value, id, spec.groups?.(context) ?? [{ choices: spec.choices }]),
  wood: (spec, value, id, context) => choice(spec, value, id, context.woods ?? []),
  stock,
  yesno: yesNo,
  ticks: (spec, value, id, context) => ticks(spec, value, id, spec.from?.(context) ?? spec.choices),
};

/**
 * The control for a field.
 * @param {import('./form.js').Field} spec
 * @param {any} value
 * @param {string} id
 * @param {Context} context
 * @returns {Control}
 */
export function control(spec, value, id, context) {
  return KINDS[spec.kind](spec, value, id, context);
}
