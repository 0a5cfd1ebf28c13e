/** The ledge of a build's views: back to the stick, undo, redo, and what can be done here. */
import { bench, redo, take, undo } from '../builds/bench.js';
import { make } from '../drawn/element.js';
import { linked, say } from '../drawn/frame.js';
import { mainWays } from '../questions/views.js';

/**
 * @param {...Node} main what can be done here, the main thing last
 * @returns {Node[]}
 */
export function buildWays(...main) {
  const { id, past, future } = bench();
  const step = (words, steps, act, done) => {
    const next = steps.at(-1)?.words;
    return make('button', {
      type: 'button', disabled: !next, 'data-focus': words, 'aria-label': next ? `${words}: ${next}` : words,
      onclick: async () => say(`${done}: ${await act()}`),
    }, words);
  };
  return [
    linked(`#/build/${id}`, 'Stick', { 'aria-label': 'Stick: all of this build', 'data-focus': 'stick' }),
    step('Undo', past, undo, 'Taken back'),
    step('Redo', future, redo, 'Done again'),
    ...main,
  ];
}

/**
 * A view of the build whose id comes first in the address.
 * @param {(kept: import('../builds/shelf.js').Kept, ...parts: string[]) => Promise<import('../drawn/frame.js').View>} view
 */
export function withBuild(view) {
  return async (id, ...parts) => {
    const kept = await take(id);
    if (!kept) {
      return { title: 'No such build', content: [make('p', {}, 'This build is not on this device.')], actions: mainWays('') };
    }
    return { line: kept.document.name, ...await view(kept, ...parts) };
  };
}
