/** Runs: lines along which sizes add up to a size, to a part, or go into an opening. */
import { written } from '../answers/shown.js';

const ALONG = [['length', 'length'], ['width', 'width'], ['thickness', 'thickness'], ['rise', 'rise, where it leans'], ['reach', 'reach, where it leans']];
const SIZE = 'a size', GAP = 'a gap';
const ofPart = (piece) => ![SIZE, GAP, undefined].includes(piece.what);

const PIECE_FIELDS = (context) => [
  { name: 'what', label: 'Piece', kind: 'choice', blank: 'choose', choices: [...context.parts, [SIZE, 'a fixed size'], [GAP, 'a gap']] },
  { name: 'along', label: 'Its', kind: 'choice', choices: ALONG, blank: 'length', when: ofPart },
  { name: 'extent', label: 'Size', kind: 'length', when: (piece) => !ofPart(piece) && piece.what !== undefined },
  { name: 'count', label: 'How many', kind: 'whole', like: '1' },
  { name: 'let_in', label: 'Let in by', kind: 'length', when: ofPart, like: 'depth' },
  { name: 'less', label: 'Taken off', kind: 'yesno', blank: 'no' },
];

/** A piece of the document as the fields hold it, with one word for what it is. */
function openPiece({ part, size, gap, ...rest }) {
  if (part !== undefined) return { what: part, ...rest };
  return gap !== undefined ? { what: GAP, extent: gap, ...rest } : { what: size === undefined ? undefined : SIZE, extent: size, ...rest };
}

function tidyPiece({ what, extent, along, ...rest }) {
  if (what === SIZE) return { size: extent, ...rest };
  if (what === GAP) return { gap: extent, ...rest };
  return { part: what, ...(along === undefined ? {} : { along }), ...rest };
}

/** A piece in words: `2 x side thickness`. */
function pieceInWords(piece, units) {
  const count = piece.count > 1 ? `${piece.count} x ` : '';
  if (piece.part !== undefined) return `${count}${piece.part} ${piece.along ?? 'length'}`;
  if (piece.gap !== undefined) return `${count}gap ${written(piece.gap, units)}`;
  return `${count}${piece.name ?? written(piece.size, units)}`;
}

function summary(run, { units }) {
  const signed = (piece, index) => `${index ? (piece.less ? ' − ' : ' + ') : ''}${pieceInWords(piece, units)}`;
  const sum = (run.pieces ?? []).map(signed).join('');
  const ofPart = run.equals !== null && typeof run.equals === 'object';
  const target = ofPart ? pieceInWords(run.equals, units) : written(run.fits ?? run.equals, units);
  return {
    name: run.id ?? 'without a name',
    tape: ofPart ? '' : target,
    what: `${sum} ${run.fits === undefined ? 'makes' : 'fits into'} ${target || 'nothing said yet'}`,
  };
}

/** @type {import('./entries.js').Kind} */
export const runs = {
  list: 'runs',
  one: 'run',
  many: 'Runs',
  empty: 'No runs yet. A run is a line along which sizes add up: side, shelf, side comes to the whole width. It is how a wrong length is found.',
  summary,
  fresh: (document) => ({ id: `run ${(document.runs ?? []).length + 1}`, pieces: [{}, {}] }),
  fields: (context) => [
    { name: 'id', label: 'Name', kind: 'text', wide: true, hint: 'such as width, or height inside' },
    { name: 'pieces', label: 'Pieces in line', kind: 'several', one: 'piece', fields: PIECE_FIELDS(context), open: openPiece, tidy: tidyPiece },
    { name: 'target', label: 'Together they', kind: 'choice', blank: 'choose', choices: [['size', 'come to a size'], ['part', 'are as long as a part'], ['fits', 'go into an opening']], wide: true },
    { name: 'size', label: 'Size', kind: 'length', when: (run) => run.target === 'size' },
    { name: 'equals.part', label: 'Part', kind: 'choice', choices: context.parts, when: (run) => run.target === 'part' },
    { name: 'equals.along', label: 'Its', kind: 'choice', choices: ALONG, blank: 'length', when: (run) => run.target === 'part' },
    { name: 'fits', label: 'Opening', kind: 'length', when: (run) => run.target === 'fits' },
    { name: 'clearance', label: 'Room to leave, in all', kind: 'length', when: (run) => run.target === 'fits' },
    { name: 'gives', label: 'Parts that may be cut to make it right', kind: 'ticks', from: (known) => known.parts },
  ],
  open: (run) => {
    const { equals, ...rest } = run;
    if (run.fits !== undefined) return { ...rest, target: 'fits' };
    if (equals !== null && typeof equals === 'object') return { ...rest, equals, target: 'part' };
    return equals === undefined ? rest : { ...rest, size: equals, target: 'size' };
  },
  tidy: ({ target, size, equals, fits, clearance, ...run }) => {
    if (target === 'size') return { ...run, equals: size };
    if (target === 'part') return { ...run, equals };
    if (target === 'fits') return { ...run, fits, ...(clearance === undefined ? {} : { clearance }) };
    return run;
  },
};
