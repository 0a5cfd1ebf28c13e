/** Findings, each with what is wrong, why, and a button that applies its mend. */
import { make } from '../drawn/element.js';
import { ask } from '../asking/service.js';

const WORDS = { fault: 'fault', warn: 'warning', note: 'note', unread: 'can’t be read' };

/**
 * One finding.
 * @param {any} finding as the service gives it
 * @param {Object} [options]
 * @param {string} [options.place] where, in words
 * @param {string} [options.href] the form that it concerns
 * @param {(finding: any) => void} [options.onmend]
 * @param {string} [options.key] what to call its buttons, so that focus finds them again
 */
export function findingCard(finding, { place, href, onmend, key = '' } = {}) {
  const severity = WORDS[finding.severity] ? finding.severity : 'note';
  const mend = finding.mend;
  return make('article', { class: `finding ${severity}`, 'data-code': finding.code },
    make('p', {}, make('span', { class: 'severity' }, WORDS[severity]), make('h3', {}, finding.title)),
    place && make('p', { class: 'at small' }, 'At ', href ? make('a', { href }, place) : place),
    make('p', {}, finding.detail),
    mend && make('p', {}, make('strong', {}, 'Mend: '), mend.words),
    make('div', { class: 'actions' },
      mend?.patch && onmend && make('button', { type: 'button', 'data-focus': `mend ${key}`, onclick: () => onmend(finding) }, 'Apply this mend'),
      finding.code && why(finding, key)));
}

function why(finding, key) {
  const told = make('p', { class: 'small' }, '');
  const details = make('details', { 'data-focus': `why ${key}` }, make('summary', {}, 'Why'), told);
  details.addEventListener('toggle', async () => {
    if (!details.open || told.textContent) return;
    try {
      const { answer } = await ask(`why/${finding.code}`);
      const sources = answer.sources.map((one) => one.title).join('; ');
      told.textContent = `${answer.why} Basis: ${finding.basis}.${sources ? ` Sources: ${sources}.` : ''}`;
    } catch (refused) {
      told.textContent = refused.message;
    }
  });
  return details;
}
