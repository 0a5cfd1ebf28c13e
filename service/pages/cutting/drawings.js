/** Every drawing of the handout: boards and sheets to scale, angled parts with their points. */
import { lastTold, notesOn, tell } from '../builds/asking.js';
import { bench } from '../builds/bench.js';
import { make } from '../drawn/element.js';
import { linked } from '../drawn/frame.js';
import { inWords } from '../building/entries.js';
import { buildWays, withBuild } from '../building/ways.js';

const HANDOUT = 'handout?format=json';

export const drawingsView = withBuild(async ({ id }) => {
  const told = bench().document.parts.length ? await tell(HANDOUT) : await lastTold(HANDOUT);
  return {
    title: 'Drawings',
    content: [
      notesOn(told).map((note) => make('p', { class: 'older' }, note)),
      told.refused && !told.answer && make('p', { class: 'older' }, inWords(told.refused)),
      (told.answer || !told.refused) && pictures(told.answer),
    ],
    actions: buildWays(linked(`#/build/${id}/tape`, 'At the saw', { class: 'main', 'data-focus': 'tape' })),
  };
});

function pictures(answer) {
  const found = (answer?.sections ?? []).flatMap((section) => section.blocks).filter((block) => block.kind === 'picture');
  if (!found.length) return make('p', {}, 'Nothing to draw yet: add parts first.');
  return found.map(picture);
}

/** A drawing with the same in words; the words are in the drawing too, for an image that is saved. */
function picture({ caption, svg, marks }) {
  return make('figure', { class: 'drawn' },
    make('figcaption', {}, caption),
    make('img', { class: 'drawing', alt: `${caption}. ${marks.join('. ')}.`, src: `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}` }));
}
