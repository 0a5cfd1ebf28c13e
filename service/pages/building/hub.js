/** A build along its story stick: every part of it, what is found there, and the verdict. */
import { severities, verdictCard } from '../answers/verdict.js';
import { facts, grounds } from '../answers/shown.js';
import { lastTold, notesOn, tell } from '../builds/asking.js';
import { about, findingsOf, mendAll } from '../builds/checking.js';
import { download, exported, fileName } from '../builds/files.js';
import { removeBuild } from '../builds/views.js';
import { make } from '../drawn/element.js';
import { linked, say } from '../drawn/frame.js';
import { refresh } from '../drawn/routes.js';
import { cards, inWords } from './entries.js';
import { SHEETS, concerned } from './sheets.js';
import { buildWays, withBuild } from './ways.js';

const LISTS = [['parts', 'Parts'], ['joints', 'Joints'], ['runs', 'Runs'], ['loads', 'Loads'], ['steps', 'Steps']];

export const hubView = withBuild(async (kept) => {
  const { id, document } = kept;
  const told = await lastTold('check');
  const findings = findingsOf(told);
  askIfNew(told, document);
  const [piece, shop, buying] = SHEETS.map((sheet) => mark(id, sheet.key, sheet.title, '', concerned(findings, sheet.concerns)));
  const lists = LISTS.map(([list, words]) => mark(id, list, words, document[list]?.length ? `${document[list].length}` : 'none yet', about(findings, list)));
  return {
    title: document.name || 'Without a name',
    line: '',
    content: [
      verdictOf(told, document),
      make('ul', { class: 'stick' }, piece, lists, shop, buying,
        mark(id, 'cuts', 'What to buy and how to cut it', '', []),
        mark(id, 'tape', 'At the saw: one piece at a time', '', []),
        mark(id, 'drawings', 'Drawings', 'boards, sheets and angled parts', []),
        mark(id, 'handout', 'Handout', 'to print or to publish', []),
        mark(id, 'document', 'The document', 'for what has no form', [])),
      make('div', { class: 'actions' },
        make('button', { type: 'button', onclick: () => download(fileName(document, 'json'), exported(document)) }, 'Export as a file'),
        make('button', { type: 'button', onclick: () => removeBuild(kept) }, 'Take off this device'),
        linked('#/builds', 'Other builds')),
    ],
    actions: buildWays(linked(`#/build/${id}/check`, 'Findings', { class: 'main', 'data-focus': 'check' })),
  };
});

function mark(id, key, words, number, findings) {
  const shown = findings.filter((one) => one.severity !== 'unread');
  const unread = findings.length - shown.length;
  const said = [number, shown.length > 0 && severities(shown), unread > 0 && `${unread} can’t be read`].filter(Boolean).join('; ');
  return make('li', {}, make('a', { class: 'mark', href: `#/build/${id}/${key}`, 'data-focus': `mark ${key}` },
    make('strong', {}, words), said && make('span', { class: 'faint small' }, said)));
}

/** A build that was never checked is checked when it is first looked at. */
function askIfNew(told, document) {
  if (!told.answer && !told.refused && document.parts.length) tell('check').then(refresh);
}

function verdictOf(told, document) {
  if (document.parts.length === 0) return make('p', {}, 'Add a part, and the check begins.');
  if (told.answer) return verdictCard(told.answer, notesOn(told));
  if (told.refused) return make('p', { class: 'older' }, inWords(told.refused));
  return make('p', {}, 'Being checked.');
}

/** All findings, worst first, each with its place and its mend. */
export const checkView = withBuild(async ({ document }) => {
  const told = await lastTold('check');
  const findings = document.parts.length ? findingsOf(told) : [];
  const mendable = findings.filter((one) => one.mend?.patch).length;
  askIfNew(told, document);
  return {
    title: 'Findings',
    content: [
      verdictOf(told, document),
      cards(findings, 'finding', true),
      told.answer && grounds(told.answer),
      told.answer && sizes(told.answer),
    ],
    actions: buildWays(make('button', { type: 'button', class: 'main', disabled: mendable === 0, 'data-focus': 'mend all', onclick: all }, 'Mend all')),
  };
});

async function all() {
  try {
    await mendAll();
    say('Every exact mend is applied. Undo takes it back.');
  } catch (failure) {
    say(inWords(failure));
  }
}

/** The real sizes that the check took, so that they can be held against the boards. */
function sizes(answer) {
  const rows = answer.parts.map((part) => [part.id, [part.thickness, part.width].filter(Boolean).map((size) => size.listed.tape).join(' x ')]);
  return make('details', { 'data-focus': 'sizes' }, make('summary', {}, 'Real sizes taken'), facts(rows));
}
