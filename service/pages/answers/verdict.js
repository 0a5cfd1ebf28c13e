/** The verdict on a build, never without what was not judged. */
import { make } from '../drawn/element.js';
import { counted } from './shown.js';

const STAMPS = { 'mend-first': 'Mend first', look: 'Have a look', 'nothing-found': 'Nothing found' };

/**
 * @param {{verdict: string, findings: any[], not_judged: string[]}} answer
 * @param {string[]} [notes] what else to say of it, such as that it is older than the document
 */
export function verdictCard(answer, notes = []) {
  return make('section', { class: 'verdict', 'aria-label': 'Verdict' },
    make('p', { class: 'stamp' }, STAMPS[answer.verdict] ?? answer.verdict),
    make('p', {}, severities(answer.findings)),
    notes.map((note) => make('p', { class: 'older' }, note)),
    make('div', { class: 'unjudged' },
      make('p', {}, make('strong', {}, 'Not judged: ')),
      make('ul', {}, answer.not_judged.map((one) => make('li', {}, one)))));
}

/**
 * How many findings of each kind, in words.
 * @param {Array<{severity: string}>} findings
 */
export function severities(findings) {
  const of = (severity, one) => {
    const number = findings.filter((finding) => finding.severity === severity).length;
    return number && counted(number, one);
  };
  const said = [of('fault', 'fault'), of('warn', 'warning'), of('note', 'note')].filter(Boolean);
  return said.join(', ') || 'No findings';
}
