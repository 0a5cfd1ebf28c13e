/** The document itself, for what has no form: read, write, and hear what can't be read and where. */
import { Refused, send } from '../asking/service.js';
import { change } from '../builds/bench.js';
import { asBuild } from '../builds/files.js';
import { fill, make } from '../drawn/element.js';
import { linked, say } from '../drawn/frame.js';
import { go } from '../drawn/routes.js';
import { withBuild } from './ways.js';

export const documentView = withBuild(async ({ id, document }) => {
  const text = make('textarea', { id: 'text', spellcheck: 'false', autocapitalize: 'off', 'aria-describedby': 'text-wrong' }, JSON.stringify(document, null, 2));
  const wrong = make('div', { id: 'text-wrong', role: 'alert' });
  const form = make('form', { id: 'entry', onsubmit: (event) => { event.preventDefault(); keep(id, text, wrong); } },
    make('p', {}, 'This is the whole build as the service reads it. Entries without a form of their own, such as shapes and cutouts, can be written here.'),
    wrong,
    make('div', { class: 'field wide' }, make('label', { for: 'text' }, 'The document'), text));
  return {
    title: 'The document',
    content: [form, make('div', { class: 'actions' }, make('button', { type: 'button', onclick: () => look(text, wrong) }, 'Try it without keeping'))],
    actions: [linked(`#/build/${id}`, 'Leave'), make('button', { type: 'submit', form: 'entry', class: 'main' }, 'Keep')],
  };
});

function readOf(text, wrong) {
  try {
    return asBuild(text.value);
  } catch (failure) {
    fill(wrong, make('p', { class: 'older' }, failure.message));
    text.focus();
    return null;
  }
}

async function keep(id, text, wrong) {
  const document = readOf(text, wrong);
  if (!document) return;
  await change('the document', () => document);
  go(`#/build/${id}`);
}

/** Send it to be checked, and list what can't be read by its place. */
async function look(text, wrong) {
  const document = readOf(text, wrong);
  if (!document) return;
  try {
    const { verdict } = await send('check', document);
    fill(wrong, make('p', { class: 'older' }, `The service can read it: ${verdict}.`));
  } catch (refused) {
    if (!(refused instanceof Refused)) throw refused;
    const faults = refused.faults.map((fault) => make('li', {}, make('code', {}, fault.pointer ?? ''), ` ${fault.detail}`));
    fill(wrong, make('p', { class: 'older' }, refused.message), make('ul', {}, faults));
  }
  say('Tried.');
}
