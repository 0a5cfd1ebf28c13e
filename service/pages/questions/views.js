/** The start page, where the screw is asked first; and all questions. */
import { prefer, preferences } from '../asking/preferences.js';
import { REGIONS } from '../asking/tables.js';
import { make } from '../drawn/element.js';
import { linked } from '../drawn/frame.js';
import { refresh, route } from '../drawn/routes.js';
import { buildMarks, keptBuilds } from '../builds/views.js';
import { asked } from './asked.js';
import { QUESTIONS } from './list.js';

const MOST_RECENT = 3;

/**
 * The way from anywhere to the three main places.
 * @param {string} here
 */
export function mainWays(here) {
  const ways = [['#/', 'Screw'], ['#/ask', 'Ask'], ['#/builds', 'Builds']];
  return ways.map(([href, words]) => linked(href, words, { 'aria-current': href === here ? 'page' : null, class: href === here ? 'main' : '' }));
}

async function startPage() {
  const [screw, ...others] = QUESTIONS;
  const kept = (await keptBuilds()).slice(0, MOST_RECENT);
  return {
    title: 'Which screw?',
    line: 'a dry fit on paper',
    content: [
      make('p', {}, 'Two pieces of wood, your tools: how long a screw, and what to drill.'),
      await asked(screw),
      make('h2', {}, 'Your builds'),
      kept.length > 0 ? buildMarks(kept) : make('p', {}, 'Write down the parts of a piece, and hear what will not go together before you buy a board.'),
      make('div', { class: 'actions' }, linked('#/builds', kept.length ? 'All builds, or a new one' : 'Start a build')),
      make('h2', {}, 'Ask something else'),
      questionMarks(others),
    ],
    actions: [...mainWays('#/').slice(1), make('button', { type: 'submit', form: 'form-screw', class: 'main' }, screw.button)],
  };
}

async function allQuestions() {
  return {
    title: 'Ask',
    content: [
      settings(), questionMarks(QUESTIONS),
      make('div', { class: 'actions' }, linked('/docs', 'The manual: rules, tables and sources')),
    ],
    actions: mainWays('#/ask'),
  };
}

async function oneQuestion(id) {
  const question = QUESTIONS.find((one) => one.id === id);
  if (!question) return { title: 'Ask', content: [make('p', {}, 'No such question.')], actions: mainWays('#/ask') };
  return {
    title: question.asks,
    content: [await asked(question)],
    actions: [...mainWays('').slice(1), make('button', { type: 'submit', form: `form-${id}`, class: 'main' }, question.button)],
  };
}

function questionMarks(questions) {
  return make('ul', { class: 'stick' }, questions.map((one) =>
    make('li', {}, make('a', { class: 'mark', href: `#/ask/${one.id}` }, make('strong', {}, one.asks)))));
}

/** Where wood is bought and what the tape reads: it holds for every question. */
function settings() {
  const { region, units } = preferences();
  const pick = (name, label, choices, chosen) => {
    const id = `prefer-${name}`;
    const select = make('select', { id, 'data-focus': id, onchange: () => { prefer({ [name]: select.value }); refresh(); } },
      choices.map(([key, words]) => make('option', { value: key, selected: key === chosen }, words)));
    return make('div', { class: 'field' }, make('label', { for: id }, label), select);
  };
  return make('div', { class: 'pair' },
    pick('region', 'Wood is bought in', REGIONS, region),
    pick('units', 'The tape reads', [['in', 'inches'], ['mm', 'millimeters']], units));
}

/** Name these views. */
export function questionRoutes() {
  route('#/', startPage);
  route('#/ask', allQuestions);
  route('#/ask/{id}', oneQuestion);
}
