/** Places inside a document, as words with points between them: `place.where`, `ends.0.miter`. */

const holds = (value) => value !== null && typeof value === 'object'; // a text has a length, too

/**
 * @param {any} value
 * @param {string} path
 */
export function valueAt(value, path) {
  return path.split('.').reduce((inner, step) => (holds(inner) ? inner[step] : undefined), value);
}

/**
 * Put a value at a place; undefined takes away what is there, and an object left empty by it.
 * What can't hold anything on the way there gives way.
 * @param {any} value changed in place
 * @param {string} path
 * @param {any} put
 */
export function putAt(value, path, put) {
  const [step, ...rest] = path.split('.');
  if (rest.length) {
    if (!holds(value[step])) {
      if (put === undefined) return;
      value[step] = /^\d+$/.test(rest[0]) ? [] : {};
    }
    putAt(value[step], rest.join('.'), put);
    const left = value[step];
    if (!Array.isArray(value) && !Array.isArray(left) && Object.keys(left).length === 0) delete value[step];
  } else if (put === undefined) {
    if (!Array.isArray(value)) delete value[step];
  } else {
    value[step] = put;
  }
}
