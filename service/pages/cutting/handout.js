/** The handout: the page to buy, cut and build from, as files of several kinds. */
import { verdictCard } from '../answers/verdict.js';
import { Refused, sendForFile } from '../asking/service.js';
import { lastTold, notesOn, tell } from '../builds/asking.js';
import { bench } from '../builds/bench.js';
import { download, fileName } from '../builds/files.js';
import { fill, make } from '../drawn/element.js';
import { say } from '../drawn/frame.js';
import { inWords } from '../building/entries.js';
import { buildWays, withBuild } from '../building/ways.js';

const FORMS = [
  ['html', '', 'A page', 'reads on a phone, prints on letter and A4'],
  ['pdf', '&paper=letter', 'PDF, letter', 'to print'],
  ['pdf', '&paper=a4', 'PDF, A4', 'to print'],
  ['md', '', 'Markdown', 'to paste under a video or a post'],
  ['csv', '&table=parts', 'Parts as CSV', 'for a spreadsheet', 'parts.'],
  ['csv', '&table=purchases', 'Purchases as CSV', 'for a spreadsheet', 'purchases.'],
];
const UNITS = [['', 'as the build says'], ['in', 'inches'], ['mm', 'millimeters'], ['both', 'both']];

export const handoutView = withBuild(async () => {
  const checked = bench().document.parts.length ? await tell('check') : await lastTold('check');
  const units = make('select', { id: 'units' }, UNITS.map(([key, words]) => make('option', { value: key }, words)));
  const place = make('div', { role: 'status' });
  return {
    title: 'Handout',
    content: [
      make('p', {}, 'One page to buy, cut and build from. What is still found, and what is not judged, is printed on it.'),
      checked.answer && verdictCard(checked.answer, notesOn(checked)),
      checked.refused && !checked.answer && make('p', { class: 'older' }, inWords(checked.refused)),
      make('div', { class: 'field' }, make('label', { for: 'units' }, 'Sizes in'), units),
      make('ul', { class: 'stick' }, FORMS.map(([form, options, name, what, part]) => make('li', {},
        make('button', { type: 'button', class: 'plain', onclick: () => give(form, options, units.value, place, part) }, name),
        make('p', { class: 'faint small' }, what)))),
      place,
    ],
    actions: buildWays(make('button', { type: 'button', class: 'main', onclick: () => give('html', '', units.value, place) }, 'Get the page')),
  };
});

async function give(form, options, units, place, part = '') {
  const { document } = bench();
  const name = fileName(document, part + form);
  fill(place, make('p', {}, 'Being written.'));
  try {
    const file = await sendForFile(`handout?format=${form}${options}${units && `&units=${units}`}`, document);
    download(name, file);
    fill(place, make('p', {}, `${name} is with your downloads.`));
    say('The file is with your downloads.');
  } catch (refused) {
    if (!(refused instanceof Refused)) throw refused;
    fill(place, make('p', { class: 'older' }, refused.status === 404 ? 'This service writes no handouts.' : inWords(refused)));
  }
}
