/** A build as a file: out of the page and into it. The file is the document itself, as it is sent. */
import { make } from '../drawn/element.js';

const LISTS = ['parts', 'joints', 'runs', 'shapes', 'loads', 'steps', 'moving'];
const OBJECTS = ['place', 'people', 'shop', 'buying', 'stands', 'stocks'];

const isObject = (value) => value !== null && typeof value === 'object' && !Array.isArray(value);

/**
 * Read a text as a build. Only its shape is looked at; the service says what it can't read.
 * @param {string} text
 * @returns {any}
 * @throws {SyntaxError|TypeError} with a sentence that says why it is none
 */
export function asBuild(text) {
  let document;
  try {
    document = JSON.parse(text);
  } catch (failure) {
    throw new SyntaxError(`This is not JSON: ${failure.message}`);
  }
  if (!isObject(document)) throw new TypeError('A build is an object with a name and parts.');
  if (!Array.isArray(document.parts)) throw new TypeError('There is no list of parts in it.');
  for (const list of LISTS) {
    if (document[list] !== undefined && !(Array.isArray(document[list]) && document[list].every(isObject))) {
      throw new TypeError(`${list} must be a list of objects.`);
    }
  }
  for (const name of OBJECTS) {
    if (document[name] !== undefined && !isObject(document[name])) throw new TypeError(`${name} must be an object.`);
  }
  return document;
}

/**
 * Give the reader a file.
 * @param {string} name
 * @param {Blob} content
 */
export function download(name, content) {
  const href = URL.createObjectURL(content);
  const link = make('a', { href, download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(href), 60_000);
}

/**
 * A name for a file that every system takes.
 * @param {any} document
 * @param {string} ending
 */
export function fileName(document, ending) {
  const plain = String(document.name ?? '').normalize('NFKD').replace(/[^\w -]/g, '').trim().replace(/\s+/g, '-').toLowerCase();
  return `${plain.slice(0, 60) || 'build'}.${ending}`;
}

/** @param {any} document */
export function exported(document) {
  return new Blob([`${JSON.stringify(document, null, 2)}\n`], { type: 'application/json' });
}
