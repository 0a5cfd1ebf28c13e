/**
 * Elements made of plain values. Text only ever becomes text: nothing here reads markup, so a part
 * named like a tag stays a name.
 */

/** Properties that are set as such, as their attribute would only be where they start. */
const LIVE = new Set(['value', 'checked', 'disabled', 'open', 'selected', 'hidden', 'indeterminate']);

/**
 * Make one element.
 * @param {string} tag
 * @param {Object<string, any>} [props] attributes; `onclick` and the like are listeners; null,
 *   undefined and false are left out
 * @param {...(Node|string|number|null|false|Array)} children
 * @returns {HTMLElement}
 */
export function make(tag, props = {}, ...children) {
  const element = document.createElement(tag);
  fill(element, children);
  for (const [name, value] of Object.entries(props)) {
    if (value === undefined || value === null || value === false) continue;
    if (name.startsWith('on')) element.addEventListener(name.slice(2), value);
    else if (LIVE.has(name)) element[name] = value;
    else element.setAttribute(name, value === true ? '' : String(value));
  }
  return element;
}

/**
 * Replace what an element holds.
 * @param {Element} element
 * @param {...any} children
 */
export function fill(element, ...children) {
  const shown = children.flat(Infinity).filter((child) => child !== null && child !== undefined && child !== false);
  element.replaceChildren(...shown.map((child) => (child instanceof Node ? child : String(child))));
}

let numbered = 0;

/** @returns {string} an id that no other element has */
export function freshId() {
  numbered += 1;
  return `e${numbered}`;
}
