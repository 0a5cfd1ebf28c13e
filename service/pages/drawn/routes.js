/** Addresses behind the `#` and the views that they show. */
import { make } from './element.js';
import { redraw, say, show } from './frame.js';

/** @type {Array<[RegExp, (...parts: string[]) => Promise<import('./frame.js').View>]>} */
const ROUTES = [];
const PATIENCE = 300; // milliseconds, after which a view that is not ready says so
let current = 0;

/**
 * Name the view of an address; parts in braces are handed to it: `#/build/{id}/parts`.
 * @param {string} address
 * @param {(...parts: string[]) => Promise<import('./frame.js').View>} view
 */
export function route(address, view) {
  const parts = address.split(/\{\w+\}/).map((one) => one.replace(/[.*+?^$()|[\]\\]/g, '\\$&'));
  ROUTES.push([new RegExp(`^${parts.join('([^/]+)')}$`), view]);
}

/** Show what the address names, and keep to it from now on. */
export function start() {
  window.addEventListener('hashchange', () => arrive(show));
  arrive(show);
}

/** Show the same address anew, because what it shows has changed. */
export function refresh() {
  return arrive(redraw);
}

/** @param {string} address */
export function go(address) {
  if (window.location.hash === address) arrive(show);
  else window.location.hash = address;
}

async function arrive(draw) {
  if (window.location.hash === '#main') return; // the link that skips to the page
  current += 1;
  const mine = current;
  const address = window.location.hash || '#/';
  const stillWanted = () => mine === current; // else the reader has gone elsewhere meanwhile
  const slow = setTimeout(() => stillWanted() && draw === show && show(WAITING), PATIENCE);
  const view = await viewOf(address);
  clearTimeout(slow);
  if (!stillWanted()) return;
  draw(view);
  document.getElementById('main').dataset.at = address; // so that others can tell what is shown
}

const WAITING = { title: 'One moment', content: [make('p', {}, 'The service is figuring this out.')] };

async function viewOf(address) {
  for (const [pattern, view] of ROUTES) {
    const found = pattern.exec(address);
    if (!found) continue;
    try {
      return await view(...found.slice(1).map(decodeURIComponent));
    } catch (failure) {
      return broken(failure);
    }
  }
  return { title: 'Nothing here', content: [make('p', {}, 'There is nothing at this address.')] };
}

function broken(failure) {
  console.error(failure);
  say('Something went wrong on this page.');
  return {
    title: 'This went wrong',
    content: [make('p', {}, 'The page could not show this. Your builds are kept on this device.'), make('p', { class: 'faint' }, String(failure))],
  };
}
