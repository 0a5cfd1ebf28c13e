/** Which screw holds this joint? */
import { preferences } from '../asking/preferences.js';
import { tape } from '../answers/shown.js';

const COMMON_TOOLS = [
  ['drill', 'drill'], ['driver', 'screwdriver or driver'], ['clamps', 'clamps'], ['hammer', 'hammer'],
  ['pocket-jig', 'pocket-hole jig'], ['brad-nailer', 'brad nailer'], ['finish-nailer', 'finish nailer'], ['doweling-jig', 'doweling jig'],
];

export const SURFACES = [['face', 'face'], ['edge', 'edge'], ['end', 'end grain']];

export const screw = {
  id: 'screw',
  asks: 'Which screw holds it, and how long?',
  button: 'Which screw?',
  path: () => 'fasteners',
  takes: ['region', 'units'],
  fields: () => [
    { name: 'through', label: 'Through', kind: 'stock', hint: 'the piece that the screw passes' },
    { name: 'into', label: 'Into', kind: 'stock', hint: 'the piece that it ends in' },
    { name: 'tools', label: 'Tools you have', kind: 'ticks', choices: COMMON_TOOLS },
    {
      legend: 'More about the joint', folded: true, fields: [
        { name: 'touches', label: 'First piece touches with its', kind: 'choice', choices: SURFACES },
        { name: 'enters', label: 'Second piece is met on its', kind: 'choice', choices: SURFACES, blank: 'face' },
        { name: 'wood', label: 'Wood', kind: 'wood' },
        { name: 'where', label: 'Place', kind: 'choice', choices: [['indoors', 'indoors'], ['damp', 'damp room'], ['covered', 'outdoors, covered'], ['outdoors', 'outdoors']] },
        { name: 'fastener', label: 'Or judge this one', kind: 'text', like: '8x1-5/8in' },
        { name: 'method', label: 'Only this way', kind: 'choice', choices: [['screw', 'screw'], ['pocket-screw', 'pocket screw'], ['brad', 'brad'], ['finish-nail', 'finish nail'], ['nail', 'nail'], ['dowel', 'dowel'], ['glue', 'glue alone'], ['bolt', 'bolt'], ['hinge', 'hinge'], ['clip', 'clip that lets a top move'], ['lap', 'lap']] },
      ],
    },
  ],
  start: () => ({ tools: preferences().tools }),
  big: (answer) => {
    const best = answer.options[0];
    const known = answer.particulars.find((one) => one.what === 'length' || one.what === 'depth' || one.what === 'screws');
    const size = known?.least ?? known?.most;
    if (!best && size) return { number: tape(size), words: known.words };
    if (!best && answer.particulars.length) return { number: answer.particulars[0].what, words: answer.particulars[0].words };
    if (!best) return { number: 'None fits', words: 'Change the thickness of a piece, or turn the joint.' };
    return { number: headOf(best), words: optionInWords(best) };
  },
  rows: (answer) => {
    const best = answer.options[0];
    if (!best) return [...particulars(answer), ['Mind', answer.cautions]];
    return [
      ['Why', best.why],
      ...holes(best),
      ['Or', answer.options.slice(1, 4).map(optionInWords)],
      ['Not', answer.ruled_out.map((one) => `${one.method.replaceAll('-', ' ')}: ${one.why}`)],
      ['Mind', answer.cautions],
    ];
  },
};

/**
 * What to ask for first: how long it is, or the way without a length.
 * @param {any} option of an answer about fasteners
 */
export function headOf(option) {
  return option.length ? tape(option.length) : option.method.replaceAll('-', ' ');
}

/**
 * What to know of a bolt, a hinge, a clip, a lap or a wall, as rows.
 * @param {any} answer for one joint
 */
export function particulars(answer) {
  return answer.particulars.map((one) => {
    const what = one.what.replaceAll('-', ' ');
    return [what[0].toUpperCase() + what.slice(1), one.words + (one.from_memory ? ' (from memory in part)' : '')];
  });
}

/**
 * One way to fasten a joint, in a line.
 * @param {any} option of an answer about fasteners
 */
export function optionInWords(option) {
  const thick = option.gauge ? `#${option.gauge} ` : option.diameter ? `${Math.round(option.diameter.mm * 10) / 10} mm ` : ''; // no gauge: a metric one
  const gauge = option.method === 'screw' ? thick : '';
  const length = option.length ? ` ${tape(option.length)}` : '';
  const count = option.count ? `${option.count} x ` : '';
  const slope = option.slope ? ` at ${option.slope} degrees` : '';
  const glue = option.glue ? `, glue ${option.glue}` : '';
  return `${count}${gauge}${option.type}${length}${slope}${glue}`;
}

/**
 * What to drill and how far from the edges, as rows.
 * @param {any} option
 */
export function holes(option) {
  const apart = (distance) => distance && `${tape(distance.advised)} advised, ${tape(distance.least)} at least`;
  return [
    ['Pilot hole', option.pilot && `${tape(option.pilot.usual)}; ${(option.pilot_needed ?? '').replace('-', ' ')}`],
    ['Clearance hole', option.clearance_hole && tape(option.clearance_hole.usual)],
    ['From the end', apart(option.end_distance)],
    ['From the edge', apart(option.edge_distance)],
    ['Bite', option.bite && tape(option.bite)],
    ['Tip stops short by', option.tip_clearance && tape(option.tip_clearance)],
  ];
}
