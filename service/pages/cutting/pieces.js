/** The pieces of a cut plan in the order of the saw, each with the name that its tick goes by. */
import { tape } from '../answers/shown.js';

/**
 * One piece to cut.
 * @typedef {Object} Piece
 * @property {string} key part and number: the tick stays with it when the plan changes
 * @property {string} part
 * @property {string} letter
 * @property {string} from the board or sheet, in words
 * @property {string} marks where it is marked, in words
 * @property {string} angles in words, or empty
 * @property {{start: number, end: number}|null} span inches along its board
 */

/**
 * A board or sheet with its pieces.
 * @typedef {{name: string, length: number, pieces: Piece[], left: string[], stops: string}} Board
 */

/**
 * @param {any} plan answer of the cut plan
 * @param {Map<string, string>} names of stocks at the store
 * @returns {Board[]}
 */
export function boardsOf(plan, names) {
  const called = (one) => names.get(one.stock) ?? one.stock;
  const numbers = new Map();
  const keyOf = (part) => {
    numbers.set(part, (numbers.get(part) ?? 0) + 1);
    return `${part}#${numbers.get(part)}`;
  };
  const boards = plan.boards.map((board, index) => ofBoard(board, `Board ${index + 1}: ${called(board)}`, keyOf));
  const sheets = plan.sheets.map((sheet, index) => ofSheet(sheet, `Sheet ${index + 1}: ${called(sheet)}`, keyOf));
  return [...boards, ...sheets];
}

function whence(one) {
  return one.from === 'store' ? 'from the store' : 'on hand';
}

function ofBoard(board, called, keyOf) {
  const name = `${called}, ${tape(board.length)}, ${whence(board)}`;
  const pieces = board.cuts.map((cut) => ({
    key: keyOf(cut.part), part: cut.part, letter: cut.letter, from: name,
    marks: `${tape(cut.start)} to ${tape(cut.end)}`,
    angles: anglesOf(cut),
    span: board.strips.length ? null : { start: cut.start.in, end: cut.end.in },
  }));
  return { name, length: board.length.in, pieces, left: board.left.map((one) => tape(one)) };
}

function anglesOf({ left_angle: left, right_angle: right }) {
  const one = ({ miter, bevel }) => [miter && `${miter}° miter`, bevel && `${bevel}° bevel`].filter(Boolean).join(' and ') || 'square';
  const both = [one(left), one(right)];
  return both.every((end) => end === 'square') ? '' : `first end ${both[0]}, second end ${both[1]}`;
}

function ofSheet(sheet, called, keyOf) {
  const name = `${called}, ${tape(sheet.length)} x ${tape(sheet.width)}, ${whence(sheet)}`;
  const pieces = sheet.pieces.map((piece) => ({
    key: keyOf(piece.part), part: piece.part, letter: piece.letter, from: name,
    marks: `${tape(piece.length)} x ${tape(piece.width)}, ${tape(piece.x)} along and ${tape(piece.y)} across${piece.turned ? ', turned' : ''}`,
    angles: '', span: null,
  }));
  return { name, length: sheet.length.in, pieces, left: sheet.left.map(leftInWords), cuts: sheet.cuts };
}

function leftInWords(left) {
  return left.tape ? tape(left) : `${tape(left.length)} x ${tape(left.width)}`;
}
