/** Loads: what a part carries, over what span. */
import { written } from '../answers/shown.js';

const HELD = [['resting', 'resting on both ends'], ['both-ends', 'fixed at both ends'], ['one-end', 'at one end only'], ['several', 'on several supports']];

/** @type {import('./entries.js').Kind} */
export const loads = {
  list: 'loads',
  one: 'load',
  many: 'Loads',
  empty: 'No loads yet. Say what a part carries and over what span, and its sag is figured.',
  summary: (load, { units }) => ({
    name: load.part ?? 'no part',
    tape: load.carries ?? '',
    what: [load.span !== undefined && `over ${written(load.span, units)}`, HELD.find(([key]) => key === load.held)?.[1], load.stays && 'for years'].filter(Boolean).join(', '),
  }),
  fresh: () => ({}),
  fields: (context) => [
    { name: 'part', label: 'Part', kind: 'choice', choices: context.parts, blank: 'choose' },
    { name: 'carries', label: 'Carries', kind: 'text', like: '40 lb or 18 lb/ft' },
    { name: 'span', label: 'Clear span', kind: 'length' },
    { name: 'held', label: 'Held', kind: 'choice', choices: HELD },
    { name: 'spread', label: 'Spread', kind: 'choice', blank: 'evenly', choices: [['middle', 'in the middle'], ['points', 'at points']] },
    { name: 'stays', label: 'Stays loaded', kind: 'yesno' },
    { name: 'laid', label: 'Laid', kind: 'choice', blank: 'flat', choices: [['edge', 'on edge']] },
    { name: 'boards', label: 'Boards that share it', kind: 'whole', like: '1' },
    { name: 'limit', label: 'May sag by', kind: 'text', like: 'eye, shelf, floor or L/240' },
  ],
};
