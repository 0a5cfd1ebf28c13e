/** What to buy, and the boards with their pieces to tick off. */
import { facts, grounds, rounded, tape } from '../answers/shown.js';
import { verdictCard } from '../answers/verdict.js';
import { stockNames } from '../asking/tables.js';
import { lastTold, notesOn, tell } from '../builds/asking.js';
import { bench, tick, untick } from '../builds/bench.js';
import { make } from '../drawn/element.js';
import { linked, say } from '../drawn/frame.js';
import { refresh } from '../drawn/routes.js';
import { inWords } from '../building/entries.js';
import { buildWays, withBuild } from '../building/ways.js';
import { boardsOf } from './pieces.js';

export const cutsView = withBuild(async ({ id, document }) => {
  const told = await planTold();
  const names = await stockNames(document.region);
  const checked = await lastTold('check');
  return {
    title: 'What to buy and how to cut it',
    content: [
      notesOn(told).map((note) => make('p', { class: 'older' }, note)),
      told.refused && !told.answer && make('p', { class: 'older' }, inWords(told.refused)),
      told.answer ? planned(told.answer, names) : make('p', {}, told.refused ? '' : 'Being planned.'),
      checked.answer && verdictCard(checked.answer, notesOn(checked)),
    ],
    actions: buildWays(linked(`#/build/${id}/tape`, 'At the saw', { class: 'main', 'data-focus': 'tape' })),
  };
});

/** What is known of the plan; where that is nothing, or older than the document, it is asked anew. */
export async function planTold() {
  const before = await lastTold('cut-plan');
  const current = before.answer && notesOn(before).length === 0;
  return current || bench().document.parts.length === 0 ? before : tell('cut-plan');
}

function planned(plan, names) {
  const boards = boardsOf(plan, names);
  const pieces = boards.flatMap((board) => board.pieces);
  return [
    outlay(plan),
    make('h2', {}, 'Buy'),
    plan.buy.length ? make('ul', {}, plan.buy.map((one) => make('li', {}, lineToBuy(one, names)))) : make('p', {}, 'Nothing: all is on hand.'),
    notPlaced(plan.unplaced),
    make('h2', {}, 'Cut'),
    stopBlocks(plan),
    make('p', { id: 'cut-count' }, cutCount(pieces)),
    boards.map((board) => boardSection(board, pieces)),
    make('div', { class: 'actions' }, make('button', { type: 'button', 'data-focus': 'untick', onclick: async () => { await untick(); say('No piece is ticked.'); refresh(); } }, 'Take all ticks away')),
    facts([['Used', `${rounded(plan.used_percent, 0)} %`], ['Kept', `${rounded(plan.kept_percent, 0)} %`], ['Waste', `${rounded(plan.waste_percent, 0)} %`]]),
    grounds(plan),
  ];
}

/** What it costs, how sure that is, and what has no price; without prices, how much is to buy. */
function outlay(plan) {
  const priced = plan.cost !== null && plan.cost !== undefined;
  const count = plan.buy.reduce((sum, one) => sum + one.count, 0);
  const least = plan.status === 'optimal' ? 'proved least' : `at least ${plan.bound}`;
  const missing = plan.without_prices?.length ? `; no price for ${plan.without_prices.join(', ')}` : '';
  return [
    make('p', { class: 'big' }, priced ? `${plan.outlay ?? plan.cost} ${plan.currency ?? ''}` : `${count} to buy`),
    make('p', { class: 'big-words' }, priced ? least + missing : 'no prices given'),
  ];
}

function notPlaced(unplaced) {
  return unplaced.length > 0 && make('div', { class: 'finding fault' },
    make('p', {}, make('span', { class: 'severity' }, 'not placed')),
    make('ul', {}, unplaced.map((one) => make('li', {}, `${one.part}: ${one.why}`))));
}

function stopBlocks(plan) {
  return plan.stop_blocks?.length > 0 && [
    facts(plan.stop_blocks.map((one) => [`Stop at ${tape(one.length)}`, `${one.count} of ${one.parts.join(', ')}`])),
    make('p', { class: 'small' }, plan.stop_block_side),
  ];
}

function lineToBuy(one, names) {
  const size = one.width ? `${tape(one.length)} x ${tape(one.width)}` : tape(one.length);
  const price = one.total ? `, ${one.count > 1 ? `${one.price} each, ${one.total} in all` : one.total}` : '';
  return `${one.count} of ${names.get(one.stock) ?? one.stock}, ${size}${one.spare ? ` (${one.spare} to spare)` : ''}${price}`;
}

function cutCount(pieces) {
  const done = pieces.filter((piece) => bench().cut[piece.key]).length;
  return `${done} of ${pieces.length} cut`;
}

function boardSection(board, pieces) {
  return make('section', { class: 'board', 'aria-label': board.name },
    make('h3', {}, board.name),
    strip(board),
    make('ul', { class: 'cuts' }, board.pieces.map((piece) => make('li', {}, tickFor(piece, pieces)))),
    board.cuts?.length > 0 && make('details', { 'data-focus': board.name }, make('summary', {}, 'Cuts in order'),
      make('ol', {}, board.cuts.map((cut) => make('li', {}, `${cut.across}: at ${tape(cut.at)}, ${cut.by === 'store' ? 'by the store' : 'at home'}`)))),
    make('p', { class: 'small faint' }, board.left.length ? `Left: ${board.left.join('; ')}` : 'Nothing is left.'));
}

function tickFor(piece, pieces) {
  const words = make('span', { class: bench().cut[piece.key] ? 'done' : '' }, make('span', { class: 'letter' }, piece.letter), piece.part);
  const box = make('input', { type: 'checkbox', checked: Boolean(bench().cut[piece.key]) });
  box.addEventListener('change', async () => {
    await tick(piece.key, box.checked);
    words.className = box.checked ? 'done' : '';
    document.getElementById('cut-count').textContent = cutCount(pieces);
    say(cutCount(pieces));
  });
  return make('label', { class: 'tick' }, box, make('span', {}, words, make('span', { class: 'marks' }, piece.marks), piece.angles && make('span', { class: 'marks' }, piece.angles)));
}

/** The board to scale: letters where the pieces lie, the leftover blank. */
function strip(board) {
  const spans = board.pieces.filter((piece) => piece.span);
  if (!spans.length) return null;
  return make('div', { class: 'strip', 'aria-hidden': 'true' }, spans.map((piece) => {
    const part = make('span', {}, piece.letter);
    part.style.left = `${(100 * piece.span.start) / board.length}%`;
    part.style.width = `${(100 * (piece.span.end - piece.span.start)) / board.length}%`;
    return part;
  }));
}
