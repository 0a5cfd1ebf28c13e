/** The builds on this device: open one, start one, bring one in. */
import { counted } from '../answers/shown.js';
import { make } from '../drawn/element.js';
import { say } from '../drawn/frame.js';
import { go, route } from '../drawn/routes.js';
import { preferences } from '../asking/preferences.js';
import { mainWays } from '../questions/views.js';
import { asBuild } from './files.js';
import { putAway } from './bench.js';
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
      make('span', { class: 'faint small' }, `${counted(document.parts.length, 'part')}, changed ${new Date(changed).toLocaleDateString()}`)))));
}

async function allBuilds() {
  const kept = await keptBuilds();
  const file = make('input', { type: 'file', id: 'bring', accept: '.json,application/json', class: 'aloud', tabindex: '-1', 'aria-hidden': 'true' });
  const wrong = make('p', { class: 'older', role: 'alert', hidden: true });
  file.addEventListener('change', () => bringIn(file, wrong));
  return {
    title: 'Builds',
    content: [
      kept.length > 0 ? buildMarks(kept) : make('p', {}, 'No builds on this device yet.'),
      make('div', { class: 'actions' },
        make('button', { type: 'button', class: 'main', onclick: () => startEmpty(wrong) }, 'New, empty'),
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

/** @returns {Promise<import('./shelf.js').Kept[]>} newest first; none where the browser keeps nothing */
export async function keptBuilds() {
  return shelf.list().catch(() => []);
}

async function startEmpty(wrong) {
  const { region, units } = preferences();
  await begin({ name: 'New build', units, region, parts: [] }, '/piece', wrong);
}

async function startFrom(example, wrong) {
  const text = await fetch(`/page/examples/${example.file}`).then((response) => response.text()).catch(() => null);
  if (text === null) show(wrong, 'The example could not be loaded.');
  else await begin(asBuild(text), '', wrong);
}

async function bringIn(file, wrong) {
  try {
    await begin(asBuild(await file.files[0].text()), '', wrong);
  } catch (failure) {
    show(wrong, failure.message);
  }
  file.value = '';
}

/** Put a document on the shelf and open it. */
async function begin(document, view, wrong) {
  try {
    go(`#/build/${await shelve(document)}${view}`);
  } catch (failure) {
    console.warn(failure);
    show(wrong, 'This device has no room for another build, or keeps nothing for this page.');
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
  putAway(kept.id);
  say('Taken off.');
  go('#/builds');
}

/** Name these views. */
export function buildRoutes() {
  route('#/builds', allBuilds);
}
