/** Steps: what is done, in order. */
import { counted } from '../answers/shown.js';

const DO = [
  ['cut', 'cut'], ['sand', 'sand'], ['dry-fit', 'dry fit'], ['glue', 'glue'], ['assemble', 'assemble'],
  ['stain', 'stain'], ['finish', 'finish'], ['wait', 'wait'], ['use', 'use'],
];
const does = (...words) => (step) => words.includes(step.do);

/** @type {import('./entries.js').Kind} */
export const steps = {
  list: 'steps',
  one: 'step',
  many: 'Steps',
  empty: 'No steps yet. Without them the usual order is taken, and nothing is said about order.',
  summary: (step) => ({
    name: DO.find(([key]) => key === step.do)?.[1] ?? 'nothing said',
    tape: step.hours ? `${step.hours} h` : '',
    what: [...(step.joints ?? []), ...(step.parts ?? []), step.finish, step.grit && `grit ${step.grit}`, step.count && counted(step.count, 'coat')].filter(Boolean).join(', '),
  }),
  fresh: () => ({}),
  fields: () => [
    { name: 'do', label: 'What is done', kind: 'choice', choices: DO, blank: 'choose', wide: true },
    { name: 'joints', label: 'Joints', kind: 'ticks', from: (known) => known.joints, when: does('glue', 'assemble', 'dry-fit') },
    { name: 'parts', label: 'Parts', kind: 'ticks', from: (known) => known.parts, when: does('cut', 'sand', 'stain', 'finish') },
    { name: 'finish', label: 'Finish', kind: 'choice', choices: [], groups: (known) => [{ choices: known.finishes }], when: does('stain', 'finish') },
    { name: 'count', label: 'Coats', kind: 'whole', when: does('stain', 'finish') },
    { name: 'grit', label: 'Grit', kind: 'whole', when: does('sand') },
    { name: 'hours', label: 'Hours', kind: 'number', when: does('wait') },
    { name: 'minutes', label: 'Minutes', kind: 'number', when: does('glue', 'assemble') },
    { name: 'people', label: 'People', kind: 'whole', when: does('glue', 'assemble') },
    { name: 'bare_at_joints', label: 'Joints kept bare', kind: 'yesno', when: does('stain', 'finish') },
  ],
};
