/** Pilot holes, glue, clamps and finish. */
import { counted, mass, rounded, spanned, tape, time } from '../answers/shown.js';
import { SURFACES } from './screw.js';

const POUND = 0.45359237; // kilograms, by the agreement of 1959

export const pilotHoles = {
  id: 'pilot-holes',
  asks: 'What do I drill for that screw?',
  button: 'What drill?',
  path: () => 'pilot-holes',
  takes: ['region', 'units'],
  fields: () => [
    { name: 'gauge', label: 'Screw gauge', kind: 'text', like: '8' },
    { name: 'wood', label: 'Wood', kind: 'wood' },
    { name: 'spot', label: 'Into', kind: 'choice', choices: SURFACES, blank: 'face' },
    { name: 'end_distance', label: 'From the end', kind: 'length' },
  ],
  start: () => ({ wood: 'spf' }),
  big: (answer) => ({ number: answer.pilot ? tape(answer.pilot.usual) : 'None', words: `${answer.need.replace('-', ' ')}: ${answer.why}` }),
  rows: (answer) => [
    ['Drill from', answer.pilot && spanned(answer.pilot, tape)],
    ['Clearance hole', answer.clearance_hole && tape(answer.clearance_hole.usual)],
    ['Countersink', answer.countersink && tape(answer.countersink.usual)],
    ['From the end', answer.end_distance && `${tape(answer.end_distance.advised)} advised, ${tape(answer.end_distance.least)} at least`],
    ['From the edge', answer.edge_distance && `${tape(answer.edge_distance.advised)} advised, ${tape(answer.edge_distance.least)} at least`],
  ],
};

export const glueUp = {
  id: 'glue-up',
  asks: 'How much can I glue at once?',
  button: 'How much?',
  path: () => 'glue-up',
  takes: ['region'],
  fields: (context) => [
    { name: 'glue', label: 'Glue', kind: 'choice', choices: context.glues },
    { name: 'joints', label: 'Joints', kind: 'whole', like: '12' },
    { name: 'minutes_each', label: 'Minutes each', kind: 'text', like: '1' },
    { name: 'people', label: 'People', kind: 'whole', like: '1' },
    { name: 'temperature', label: 'Temperature', kind: 'text', like: '68F' },
    { name: 'open_time', label: 'Open time on the label', kind: 'text', like: '10 min' },
  ],
  start: () => ({ glue: 'pva-yellow' }),
  big: (answer) => ({ number: answer.working_time_min ? spanned(answer.working_time_min, time) : 'See the label', words: `to spread and close ${answer.name}` }),
  rows: (answer) => [
    ['This glue-up', answer.glue_up?.minutes && `${counted(answer.glue_up.joints, 'joint')} in ${time(answer.glue_up.minutes)}: ${answer.glue_up.fits ? 'in time' : 'too long'}`],
    ['In groups of', answer.glue_up?.groups?.length > 1 && answer.glue_up.groups.join(', ')],
    ['In clamps', answer.clamp_time_min && spanned(answer.clamp_time_min, time)],
    ['Before it is stressed', answer.stressed_after_min && spanned(answer.stressed_after_min, time)],
    ['Not colder than', answer.coldest_f && spanned(answer.coldest_f, (one) => `${one} F (${rounded((one - 32) / 1.8, 0)} C)`)],
    ['End grain', answer.end_grain],
    ['Label', answer.label],
  ],
};

export const clamps = {
  id: 'clamps',
  asks: 'How many clamps?',
  button: 'How many?',
  path: () => 'clamps',
  takes: ['region', 'units'],
  fields: () => [
    { name: 'length', label: 'Length of the joint', kind: 'length', like: '36' },
    { name: 'thickness', label: 'Thickness', kind: 'length', like: '3/4' },
    { name: 'wood', label: 'Wood', kind: 'wood' },
  ],
  start: () => ({ wood: 'spf' }),
  big: (answer) => ({ number: answer.clamps, words: `${answer.clamps === 1 ? 'clamp' : 'clamps'}, ${spanned(answer.apart, tape)} apart` }),
  rows: (answer, units) => [
    ['Outer ones', `${spanned(answer.from_ends, tape)} from the ends`],
    ['Force on each', answer.force_each_lb && spanned(answer.force_each_lb, (one) => mass({ lb: one, kg: one * POUND }, units))],
    ['Also said', answer.also_said],
  ],
};

export const coverage = {
  id: 'coverage',
  asks: 'How much finish?',
  button: 'How much?',
  path: () => 'coverage',
  takes: ['region'],
  fields: (context) => [
    { name: 'finish', label: 'Finish', kind: 'choice', choices: context.finishes },
    { name: 'area', label: 'Area', kind: 'text', like: '20 ft2 or 2 m2' },
    { name: 'faces', label: 'Faces', kind: 'whole', like: '1' },
    { name: 'coats', label: 'Coats', kind: 'whole' },
  ],
  start: () => ({ finish: 'water-polyurethane' }),
  big: (answer, units) => {
    const [unit, amount] = units === 'mm' ? ['L', answer.amount?.L] : ['qt', answer.amount?.qt];
    return { number: amount ? `${spanned(amount, (one) => rounded(one, 2))} ${unit}` : 'Not known', words: answer.why_not ?? `${answer.finish}, ${counted(spanned(answer.coats), 'coat')}` };
  },
  rows: (answer) => [
    ['Next coat after', answer.hours?.recoat && spanned(answer.hours.recoat, (one) => `${one} h`)],
    ['Handle after', answer.hours?.handle && spanned(answer.hours.handle, (one) => `${one} h`)],
    ['Cured after', answer.hours?.cure && spanned(answer.hours.cure, (one) => `${one} h`)],
    ['Label', answer.label],
  ],
};
