/** At the saw: one piece at a time, its length large enough to be read from where the blade is. */
import { stockNames } from '../asking/tables.js';
import { lastTold } from '../builds/asking.js';
import { bench, tick } from '../builds/bench.js';
import { tape } from '../answers/shown.js';
import { make } from '../drawn/element.js';
import { linked } from '../drawn/frame.js';
import { refresh } from '../drawn/routes.js';
import { buildWays, withBuild } from '../building/ways.js';
import { boardsOf } from './pieces.js';
import { planTold } from './plan.js';

const LONG = 8; // characters, from which a length is set smaller so as to stay on one line

/** Which piece is shown, by build. */
const shown = new Map();

export const sawView = withBuild(async ({ id, cut, document }) => {
  const told = await planTold();
  const back = linked(`#/build/${id}/cuts`, 'Plan');
  if (!told.answer) {
    return { title: 'At the saw', content: [make('p', {}, told.refused?.message ?? 'There is no plan yet: add parts first.')], actions: buildWays(back) };
  }
  const pieces = boardsOf(told.answer, await stockNames(document.region)).flatMap((board) => board.pieces);
  const index = Math.min(shown.get(id) ?? firstUncut(pieces, cut), pieces.length - 1);
  keepAwake();
  return { title: 'At the saw', content: await onePiece(pieces, index), actions: moves(id, pieces, index) };
});

function firstUncut(pieces, cut) {
  return Math.max(0, pieces.findIndex((piece) => !cut[piece.key]));
}

async function onePiece(pieces, index) {
  const piece = pieces[index];
  if (!piece) return [make('p', {}, 'There is nothing to cut.')];
  const part = (await lastTold('check')).answer?.parts.find((one) => one.id === piece.part);
  const length = part?.length ? tape(part.length) : piece.marks;
  const measured = Object.entries(part?.cut?.lengths ?? {}).map(([name, size]) => make('li', {}, `${tape(size)} ${name.replaceAll('-', ' ')}`));
  return [
    make('p', {}, `Piece ${index + 1} of ${pieces.length}`, bench().cut[piece.key] && ', cut already'),
    make('p', { class: length.length > LONG ? 'huge long' : 'huge' }, length),
    make('p', { class: 'big-words' }, make('span', { class: 'letter' }, piece.letter), piece.part),
    measured.length > 0 && make('ul', {}, measured),
    piece.angles && make('p', {}, piece.angles),
    make('p', {}, `On the board: ${piece.marks}`),
    make('p', { class: 'faint' }, piece.from),
  ];
}

function moves(id, pieces, index) {
  const to = (next) => { shown.set(id, next); refresh(); };
  const done = pieces[index] && bench().cut[pieces[index].key];
  const toggle = async ({ detail }) => {
    if (detail > 1) return; // the second press of two would be for the next piece, unseen
    await tick(pieces[index].key, !done);
    to(done ? index : Math.min(index + 1, pieces.length - 1));
  };
  return [
    linked(`#/build/${id}/cuts`, 'Plan', { 'data-focus': 'plan' }),
    make('button', { type: 'button', 'data-focus': 'before', disabled: index <= 0, onclick: () => to(index - 1) }, 'Before'),
    make('button', { type: 'button', 'data-focus': 'after', disabled: index >= pieces.length - 1, onclick: () => to(index + 1) }, 'After'),
    make('button', { type: 'button', class: 'main', 'data-focus': 'cut', disabled: pieces.length === 0, onclick: toggle }, done ? 'Not cut' : 'Cut'),
  ];
}

/** Hold the screen awake while a piece is shown, where the device can. */
async function keepAwake() {
  try {
    const lock = await navigator.wakeLock?.request('screen');
    if (lock) window.addEventListener('hashchange', () => lock.release(), { once: true });
  } catch {
    // Refused, for example when the battery is low: the screen goes dark as it always does.
  }
}
