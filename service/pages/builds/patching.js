/** Mends as the service gives them: JSON Patch (RFC 6902), as far as mends go. */

/**
 * Apply a patch.
 * @param {any} document changed in place
 * @param {Array<{op: 'add'|'replace'|'remove', path: string, value?: any}>} patch
 * @throws {RangeError} where the document has no such place
 */
export function applyPatch(document, patch) {
  for (const { op, path, value } of patch) {
    const steps = path.split('/').slice(1).map((step) => step.replaceAll('~1', '/').replaceAll('~0', '~'));
    const last = steps.pop();
    const place = steps.reduce((inner, step) => inner?.[step], document);
    if (place === null || typeof place !== 'object') throw new RangeError(`Nothing is at ${path}.`);
    put(place, last, op, structuredClone(value));
  }
}

function put(place, last, op, value) {
  if (!Array.isArray(place)) {
    if (op === 'remove') delete place[last];
    else place[last] = value;
    return;
  }
  const index = last === '-' ? place.length : Number(last);
  if (op === 'add') place.splice(index, 0, value);
  else if (op === 'remove') place.splice(index, 1);
  else place[index] = value;
}
