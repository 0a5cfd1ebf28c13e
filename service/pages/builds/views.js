/** The builds on this device: open one, start one, bring one in. */
import { make } from '../drawn/element.js';
import { say } from '../drawn/frame.js';
import { go, refresh, route } from '../drawn/routes.js';
import { preferences } from '../asking/preferences.js';
import { mainWays } from '../questions/views.js';
import { asBuild } from './files.js';
import { EXAMPLES } from './examples.js';
import { shelf, shelve } from './shelf.js';

/**
 * Builds along a stick.
 * @param {import('./shelf.js').Kept[]} kept
 */
export function buildMarks(kept) {
  return make('ul', { class: 'stick' }, kept.map(({ id, document, changed }) => make('li', {},
    make('a', { class: 'mark', href: `#/build/${id}` },
      make('strong', {}, document.name || 'Without a name'),
      make('span', { class: 'faint small' }, `${pieces(document)}, changed ${new Date(changed).toLocaleDateString()}`)))));
}

function pieces(document) {
  const lines = document.parts.length;
  return `${lines} ${lines === 1 ? 'part' : 'parts'}`;
}

async function allBuilds() {
  const kept = await shelf.list();
  const file = make('input', { type: 'file', id: 'bring', accept: '.json,application/json', class: 'aloud', tabindex: '-1', 'aria-hidden': 'true' });
  const wrong = make('p', { class: 'older', role: 'alert', hidden: true });
  file.addEventListener('change', () => bringIn(file, wrong));
  return {
    title: 'Builds',
    content: [
      kept.length > 0 ? buildMarks(kept) : make('p', {}, 'No builds on this device yet.'),
      make('div', { class: 'actions' },
        make('button', { type: 'button', class: 'main', onclick: startEmpty }, 'New, empty'),
        make('button', { type: 'button', onclick: () => file.click() }, 'Bring in a file')),
      file, wrong,
      make('h2', {}, 'Start from an example'),
      make('ul', { class: 'stick' }, EXAMPLES.map((one) => make('li', {},
        make('button', { type: 'button', class: 'plain', onclick: () => startFrom(one, wrong) }, one.name),
        make('p', { class: 'faint small' }, one.about)))),
    ],
    actions: mainWays('#/builds'),
  };
}

async function startEmpty() {
  const { region, units } = preferences();
  const id = await shelve({ name: 'New build', units, region, parts: [] });
  go(`#/build/${id}/piece`);
}

async function startFrom(example, wrong) {
  try {
    const response = await fetch(`/page/examples/${example.file}`);
    const id = await shelve(asBuild(await response.text()));
    go(`#/build/${id}`);
  } catch {
    show(wrong, 'The example could not be loaded.');
  }
}

async function bringIn(file, wrong) {
  try {
    const id = await shelve(asBuild(await file.files[0].text()));
    go(`#/build/${id}`);
  } catch (failure) {
    show(wrong, failure.message);
    file.value = '';
  }
}

function show(place, words) {
  place.textContent = words;
  place.hidden = false;
}

/**
 * Take a build off the shelf, after asking.
 * @param {import('./shelf.js').Kept} kept
 */
export async function removeBuild(kept) {
  if (!window.confirm(`Take “${kept.document.name}” off this device? An exported file stays where it is.`)) return;
  await shelf.remove(kept.id);
  say('Taken off.');
  if (window.location.hash === '#/builds') refresh();
  else go('#/builds');
}

/** Name these views. */
export function buildRoutes() {
  route('#/builds', allBuilds);
}
