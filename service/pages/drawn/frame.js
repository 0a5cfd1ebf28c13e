/** The frame around every view: heading, main part, ledge of actions, and what is said aloud. */
import { fill, make } from './element.js';

const main = () => document.getElementById('main');
const ledge = () => document.getElementById('ledge');

/**
 * What a view gives to be shown.
 * @typedef {Object} View
 * @property {string} title heading, and name of the tab
 * @property {Array} content
 * @property {Array} [actions] buttons and links for the ledge, the main one last
 * @property {string} [line] a few words beside the name of the page
 */

/**
 * Show a view that was gone to: from its top, with the heading in focus.
 * @param {View} view
 */
export function show(view) {
  draw(view);
  window.scrollTo(0, 0);
  main().querySelector('h1').focus({ preventScroll: true });
}

/**
 * Show the same view anew: scroll and focus stay where they are, as far as they are still there.
 * @param {View} view
 */
export function redraw(view) {
  const held = document.activeElement?.getAttribute('data-focus');
  const inside = main().contains(document.activeElement) || ledge().contains(document.activeElement);
  const opened = [...main().querySelectorAll('details[open][data-focus]')].map((one) => one.dataset.focus);
  const top = window.scrollY;
  draw(view);
  for (const one of main().querySelectorAll('details[data-focus]')) one.open ||= opened.includes(one.dataset.focus);
  window.scrollTo(0, top);
  if (inside) (focusable(held) ?? main().querySelector('h1')).focus({ preventScroll: true });
}

function focusable(name) {
  const found = name && document.querySelector(`[data-focus="${CSS.escape(name)}"]`);
  return found && !found.disabled ? found : null;
}

function draw(view) {
  document.title = view.title === 'Dryfit' ? 'Dryfit' : `${view.title} · Dryfit`;
  fill(main(), make('h1', { tabindex: '-1' }, view.title), view.content);
  fill(ledge(), view.actions ?? []);
  fill(document.getElementById('line'), view.line ?? '');
}

/**
 * Say something to those who listen; those who look see it happen.
 * @param {string} words
 */
export function say(words) {
  document.getElementById('said').textContent = words;
}

/**
 * Say something that stays in sight, whatever view is gone to.
 * @param {string} words empty to take it away
 */
export function warn(words) {
  const place = document.getElementById('warning');
  place.textContent = words;
  place.hidden = !words;
}

/**
 * A link drawn as a button.
 * @param {string} href
 * @param {string} words
 * @param {Object} [props]
 */
export function linked(href, words, props = {}) {
  return make('a', { href, ...props, class: `button ${props.class ?? ''}`.trim() }, words);
}
