/** Joints: which two pieces meet, how, and what holds them; the service proposes. */
import { send } from '../asking/service.js';
import { bench } from '../builds/bench.js';
import { fill, make } from '../drawn/element.js';
import { say } from '../drawn/frame.js';
import { headOf, holes, optionInWords, particulars, SURFACES } from '../questions/screw.js';
import { counted, facts, written } from '../answers/shown.js';
import { inWords } from './entries.js';

const METHODS = [
  ['screw', 'screws'], ['pocket-screw', 'pocket screws'], ['glue', 'glue alone'], ['brad', 'brads'], ['finish-nail', 'finish nails'],
  ['nail', 'nails'], ['staple', 'staples'], ['dowel', 'dowels'], ['lap', 'a lap'], ['bolt', 'bolts'], ['clip', 'clips that let it move'],
  ['hinge', 'a hinge'], ['loose', 'nothing, it lies loose'],
];
const driven = (joint) => !['glue', 'lap', 'loose', undefined].includes(joint.method);

/** @type {import('./entries.js').Kind} */
export const joints = {
  list: 'joints',
  one: 'joint',
  many: 'Joints',
  empty: 'No joints yet. A joint says which two parts meet and what holds them; leave out how, and the service proposes.',
  summary: (joint, { units }) => ({
    name: joint.id ?? 'without a name',
    tape: written(joint.fastener?.length, units),
    what: [`${joint.through ?? '?'} into ${joint.into ?? '?'}`, METHODS.find(([key]) => key === joint.method)?.[1] ?? joint.method ?? 'to be proposed', joint.count && `${joint.count} in each`, joint.glue && joint.glue !== 'none' && `glue ${joint.glue}`].filter(Boolean).join(', '),
  }),
  fresh: (document) => ({ id: `joint ${(document.joints ?? []).length + 1}` }),
  fields: (context) => [
    { name: 'id', label: 'Name', kind: 'text', wide: true },
    { name: 'through', label: 'Through', kind: 'choice', choices: context.parts, blank: 'choose', hint: 'holds the head, or the pocket' },
    { name: 'into', label: 'Into', kind: 'choice', choices: [...context.parts, ['wall', 'the wall']], blank: 'choose', hint: 'the fastener ends here' },
    { name: 'touches', label: 'First touches with its', kind: 'choice', choices: SURFACES },
    { name: 'enters', label: 'Second is met on its', kind: 'choice', choices: SURFACES },
    { name: 'quantity', label: 'Joints like this', kind: 'whole', like: '1' },
    { name: 'method', label: 'Held by', kind: 'choice', choices: METHODS, blank: 'to be proposed' },
    { name: 'glue', label: 'Glue', kind: 'choice', choices: [['none', 'none'], ...context.glues] },
    { name: 'count', label: 'Fasteners in each', kind: 'whole', when: driven },
    { name: 'fastener.length', label: 'Fastener length', kind: 'length', when: driven },
    { name: 'fastener.gauge', label: 'Gauge', kind: 'whole', when: driven },
    {
      legend: 'More about the fastener', folded: true, fields: [
        { name: 'fastener.diameter', label: 'Diameter', kind: 'length' },
        { name: 'fastener.thread', label: 'Thread', kind: 'choice', choices: [['coarse', 'coarse'], ['fine', 'fine']] },
        { name: 'fastener.coating', label: 'Coating', kind: 'choice', choices: ['plain', 'zinc', 'exterior', 'galvanized', 'stainless'].map((one) => [one, one]) },
        { name: 'pilot', label: 'Pilot hole', kind: 'yesno' },
        { name: 'sunk', label: 'Head sunk by', kind: 'length' },
        { name: 'slope', label: 'Driven at, degrees', kind: 'number' },
        { name: 'end_distance', label: 'From the end', kind: 'length' },
        { name: 'edge_distance', label: 'From the edge', kind: 'length' },
        { name: 'crosses', label: 'Held across the grain over', kind: 'length' },
        { name: 'lets_move', label: 'Lets the wood move', kind: 'yesno' },
      ],
    },
  ],
  follow: (document, before, after) => {
    const renamed = (id) => (before.id && id === before.id ? after.id : id);
    for (const step of document.steps ?? []) if (Array.isArray(step.joints)) step.joints = step.joints.map(renamed);
  },
  more: (form, index) => {
    const place = make('section', { 'aria-label': 'Proposals', tabindex: '-1' });
    const ask = () => propose(form, index, place);
    return make('div', {}, make('button', { type: 'button', onclick: ask }, 'Propose what holds it'), place);
  },
};

const TOLD = new Set(['bolt', 'hinge', 'clip', 'lap']); // told of as they are, not replaced

/** Ask for ways to fasten the joint as it stands in the form, and offer to use one. */
async function propose(form, index, place) {
  const document = structuredClone(bench().document);
  document.joints = document.joints ?? [];
  const stated = form.read();
  const { method, fastener, ...open } = stated;
  document.joints[index] = TOLD.has(method) ? stated : open;
  try {
    const { joints: answers } = await send('fasteners', document);
    const mine = answers.find((one) => one.at === `#/joints/${index}`) ?? answers[index];
    fill(place, make('h2', {}, 'Proposals'), mine.options.map((option) => offered(option, form)), facts([...particulars(mine), ['Not', mine.ruled_out.map((one) => `${one.method}: ${one.why}`)], ['Mind', mine.cautions]]));
    say(mine.options.length || !mine.particulars.length ? `${counted(mine.options.length, 'proposal')}.` : 'What to know of it.');
  } catch (failure) {
    fill(place, make('p', { class: 'older', role: 'alert' }, inWords(failure)));
  }
  place.focus();
}

function offered(option, form) {
  return make('div', { class: 'option' },
    make('p', { class: 'big' }, headOf(option)),
    make('p', {}, optionInWords(option)),
    make('p', { class: 'small' }, option.why),
    make('details', {}, make('summary', {}, 'Holes and places'), facts(holes(option))),
    make('button', { type: 'button', onclick: () => use(option, form) }, 'Use this'));
}

/** Fill the form in with a proposal and keep it. */
function use(option, form) {
  const { method, fastener, ...open } = form.read();
  form.keep({ ...open, ...option.in_a_build, ...(option.count ? { count: option.count } : {}) });
}
