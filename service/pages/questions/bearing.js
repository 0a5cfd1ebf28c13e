/** What a plank bears, how far wood moves, and whether a piece could go over or come off a wall. */
import { counted, mass, rounded, spanned, tape } from '../answers/shown.js';

const WHERE = [['indoors', 'indoors'], ['damp', 'damp room'], ['covered', 'outdoors, covered'], ['outdoors', 'outdoors']];
const sagged = (size, units) => (units === 'mm' ? `${rounded(size.mm, 1)} mm` : `${rounded(size.in, 3)}"`);

const APPLIES = { true: 'speaks of it', false: 'does not speak of it', null: 'may speak of it: its volume is not given' };

export const sag = {
  id: 'sag',
  asks: 'Will the shelf sag?',
  button: 'How far?',
  path: () => 'sag',
  takes: ['region', 'units'],
  fields: () => [
    { name: 'stock', label: 'Shelf', kind: 'stock' },
    { name: 'span', label: 'Clear span', kind: 'length', like: '36', hint: 'left out: the longest that will do' },
    { name: 'load', label: 'Load', kind: 'text', like: '40 lb, 18 lb/ft or books', wide: true },
    { name: 'wood', label: 'Wood', kind: 'wood' },
    { name: 'stays', label: 'Stays loaded', kind: 'choice', choices: [['yes', 'for years'], ['no', 'now and then']] },
    { name: 'held', label: 'Held', kind: 'choice', blank: 'resting on both ends', choices: [['both-ends', 'fixed at both ends'], ['one-end', 'at one end']] },
    { name: 'laid', label: 'Laid', kind: 'choice', blank: 'flat', choices: [['edge', 'on edge']] },
  ],
  start: () => ({ wood: 'spf', stays: 'yes' }),
  big: (answer, units) => (answer.sag
    ? { number: sagged(answer.sag.now, units), words: `sag under ${mass(answer.load, units)} over ${tape(answer.span)}` }
    : { number: 'Not judged', words: '' }),
  rows: (answer, units) => [
    ['After years', answer.sag?.after_long_loading && spanned(answer.sag.after_long_loading, (one) => sagged(one, units))],
    ['Limit taken', answer.chosen_limit && `${answer.chosen_limit.name}: ${sagged(answer.chosen_limit.allows, units)}, ${answer.chosen_limit.verdict}`],
    ['Longest span for it', answer.longest_span && tape(answer.longest_span)],
    ['What would help', answer.what_would_help],
    ['Stiffness of', answer.stiffness && `${answer.stiffness.of}: ${answer.stiffness.says}`],
  ],
};

export const movement = {
  id: 'movement',
  asks: 'How far does a wide board move?',
  button: 'How far?',
  path: () => 'movement',
  takes: ['region', 'units'],
  fields: () => [
    { name: 'wood', label: 'Wood', kind: 'wood' },
    { name: 'width', label: 'Width', kind: 'length', like: '12' },
    { name: 'humidity', label: 'Humidity, driest and dampest', kind: 'text', like: '30,60', hint: 'in percent' },
    { name: 'held', label: 'Held', kind: 'choice', blank: 'at one edge', choices: [['middle', 'in the middle']] },
  ],
  start: () => ({ humidity: '30,60' }),
  big: (answer) => ({ number: tape(answer.moves.most), words: `${answer.direction === 'neither' ? 'no change' : `${answer.direction} at most`}, over ${tape(answer.width)}` }),
  rows: (answer) => [
    ['Quarter sawn', tape(answer.moves.least)],
    ['At each free side', tape(answer.each_side)],
    ['Moisture', `${answer.moisture.from} to ${answer.moisture.to} %`],
    ['Let it move', answer.let_it_move],
  ],
};

export const tipOver = {
  id: 'tip-over',
  asks: 'Could it tip over?',
  button: 'What tips it?',
  path: () => 'tip-over',
  takes: ['units'],
  fields: () => [
    { name: 'height', label: 'Height', kind: 'length', like: '40' },
    { name: 'depth', label: 'Depth', kind: 'length', like: '12' },
    { name: 'weight', label: 'Weight', kind: 'text', like: '60 lb' },
    { name: 'push_at', label: 'Pulled at height', kind: 'length', hint: 'left out: at the top' },
    { name: 'kind', label: 'What it is', kind: 'choice', choices: [['dresser', 'dresser'], ['chest-of-drawers', 'chest of drawers'], ['wardrobe', 'wardrobe'], ['bookcase', 'bookcase'], ['cabinet', 'cabinet'], ['other', 'other']] },
    { name: 'children', label: 'Youngest child near it', kind: 'whole', like: 'age' },
  ],
  big: (answer, units) => ({ number: mass(answer.tips_at_pull, units), words: `a pull at ${tape(answer.push_at)} tips it` }),
  rows: (answer) => [
    ['Goes over leaning', `${answer.tips_leaning_degrees} degrees`],
    ['What to do', answer.fix_it],
    ['Rule on clothing storage', answer.clothing_rule && `${APPLIES[answer.clothing_rule.applies]}. This says ${answer.clothing_rule.means}.`],
  ],
};

export const hanging = {
  id: 'hanging',
  asks: 'Does the screw reach the stud?',
  button: 'Does it?',
  path: () => 'hanging',
  takes: ['units'],
  fields: () => [
    { name: 'rail', label: 'Rail length', kind: 'length', like: '36' },
    { name: 'studs', label: 'Studs apart', kind: 'length', like: '16' },
    { name: 'through', label: 'Rail thickness', kind: 'length', like: '3/4' },
    { name: 'wallboard', label: 'Wallboard', kind: 'length', like: '1/2' },
    { name: 'screw', label: 'Screw length', kind: 'length', like: '3' },
    { name: 'load', label: 'Load', kind: 'text', like: '40 lb', hint: 'with how far it stands out, and the arm' },
    { name: 'depth', label: 'Stands out from the wall', kind: 'length', like: '8' },
    { name: 'arm', label: 'Upper screws to where it bears', kind: 'length', like: '10' },
  ],
  start: ({ units }) => ({ studs: units === 'mm' ? '400' : '16' }),
  big: (answer) => (answer.bite
    ? { number: tape(answer.bite), words: `in the stud; shops want ${spanned(answer.wanted, tape)}` }
    : { number: answer.judged ? counted(answer.studs_met?.least ?? 0, 'stud') : 'Not judged', words: 'met wherever it is put' }),
  rows: (answer, units) => [
    ['Pull on each upper screw', mass(answer.pull_on_each, units)],
    ['Studs met', answer.studs_met && spanned({ low: answer.studs_met.least, high: answer.studs_met.most })],
    ['Always', answer.always],
  ],
};

export const moisture = {
  id: 'moisture',
  asks: 'How dry will the wood be?',
  button: 'How dry?',
  path: () => 'moisture',
  takes: ['region'],
  fields: () => [
    { name: 'where', label: 'Place', kind: 'choice', choices: WHERE },
    { name: 'humidity', label: 'Or humidity', kind: 'text', like: '45', hint: 'in percent, instead of the place' },
    { name: 'temperature', label: 'Temperature', kind: 'text', like: '68F' },
  ],
  start: () => ({ where: 'indoors' }),
  keeps: (values) => (values.humidity === undefined ? ['where', 'temperature'] : ['humidity', 'temperature']),
  big: (answer) => ({ number: `${[...new Set(answer.moisture_percent)].join(' to ')} %`, words: 'moisture, as the wood settles' }),
  rows: (answer) => [['At', `${answer.temperature.F} F, ${answer.temperature.C} C`]],
};
