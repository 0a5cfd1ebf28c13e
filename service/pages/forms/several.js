/** A list of small objects in a form, each in a frame of its own, to be added to and taken from. */
import { make } from '../drawn/element.js';
import { makeFields } from './form.js';

/**
 * @param {import('./form.js').Field} spec `fields` of one entry, `one` what it is called,
 *   `fresh` a new one, `open` and `tidy` turn an entry into what the fields hold and back
 * @param {any[]} values
 * @param {import('./controls.js').Context} context
 * @returns {import('./controls.js').Control}
 */
export function several(spec, values, context) {
  const entries = [];
  const list = make('div', { class: 'field' });
  const add = make('button', { type: 'button', onclick: () => added(spec.fresh?.() ?? {}, true) }, `Add ${spec.one}`);

  function added(value, focus = false) {
    const made = makeFields(spec.fields, spec.open ? spec.open(value) : value, context);
    const legend = make('legend', {}, '');
    const remove = make('button', { type: 'button', class: 'plain', onclick: () => removed(entry) }, '');
    const element = make('fieldset', { class: 'row' }, legend, made.element, make('div', {}, remove));
    const entry = { element, legend, remove, read: () => (spec.tidy ? spec.tidy(made.read()) : made.read()) };
    entries.push(entry);
    list.append(element);
    numbered();
    if (focus) element.querySelector('input, select').focus();
  }

  function removed(entry) {
    entries.splice(entries.indexOf(entry), 1);
    entry.element.remove();
    numbered();
    add.focus();
  }

  function numbered() {
    entries.forEach((entry, index) => {
      entry.legend.textContent = `${spec.one} ${index + 1}`;
      entry.remove.textContent = `Remove ${spec.one} ${index + 1}`;
    });
  }

  values.forEach((value) => added(value));
  const read = () => {
    const said = entries.map((entry) => entry.read());
    return said.length ? said : undefined;
  };
  return { element: make('div', { class: 'field' }, list, add), input: add, read };
}
