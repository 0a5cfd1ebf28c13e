/** What a press of a tape key does to the text of a length. */

/** The marks of a tape, coarsest form of each: 1/16 to 15/16. */
export const FRACTIONS = [
  '1/16', '1/8', '3/16', '1/4', '5/16',
  '3/8', '7/16', '1/2', '9/16', '5/8',
  '11/16', '3/4', '13/16', '7/8', '15/16',
];

const UNIT = /\s*(ft|in|mm|cm|['"])$/;
const FRACTION = /[\s-]*\d+\/\d+$/;

/**
 * The text after a digit or a point: behind a fraction nothing more can come.
 * @param {string} text
 * @param {string} digit
 */
export function withDigit(text, digit) {
  if (digit === '.' && /\.\d*$/.test(text)) return text;
  if (/(ft|')$/.test(text.trim())) return `${text.trim()} ${digit}`;
  return UNIT.test(text) || FRACTION.test(text) ? text : text + digit;
}

/**
 * The text with this fraction, in place of the one that was there. In a metric document a
 * fraction is of an inch, and says so.
 * @param {string} text
 * @param {string} fraction
 * @param {boolean} metric
 */
export function withFraction(text, fraction, metric) {
  const feet = /(ft|')$/.test(text.trim());
  const plain = feet ? text.trim() : text.replace(UNIT, '').replace(FRACTION, '').replace(/\.\d*$/, '').trim();
  const joined = plain ? `${plain} ${fraction}` : fraction;
  return metric ? `${joined} in` : joined;
}

/**
 * The text with this unit, in place of the one that was there; feet go on with inches.
 * @param {string} text
 * @param {string} unit
 */
export function withUnit(text, unit) {
  const plain = text.trim().replace(UNIT, '').trim();
  return plain ? `${plain} ${unit}` : '';
}

/**
 * The text without what was pressed last: a fraction and a unit go as a whole.
 * @param {string} text
 */
export function without(text) {
  for (const piece of [UNIT, FRACTION]) {
    if (piece.test(text)) return text.replace(piece, '');
  }
  return text.slice(0, -1).trimEnd();
}
