/** Even spacing, and saw settings for what leans, is mitered or has many sides. */
import { tape } from '../answers/shown.js';

const gap = (answer) => ({ number: tape(answer.gap), words: `gap; ${tape(answer.ends)} at each end` });

export const spacing = {
  id: 'spacing',
  asks: 'Where do the slats go?',
  button: 'Where?',
  path: () => 'spacing',
  takes: ['region', 'units'],
  fields: () => [
    { name: 'within', label: 'Opening', kind: 'length', like: '36' },
    { name: 'pieces', label: 'Pieces', kind: 'whole', like: '5' },
    { name: 'piece', label: 'Each is wide', kind: 'length', like: '1 1/2' },
    { name: 'ends', label: 'At the ends', kind: 'choice', blank: 'a gap like the others', choices: [['flush', 'a piece, flush'], ['half', 'half a gap']] },
  ],
  big: gap,
  rows: (answer) => [
    ['Near sides at', answer.readings],
    ['How', answer.trace],
    ['Try it first', answer.test_cut],
    ['Measured', answer.axes],
  ],
};

const SHAPES = [
  ['leaning', 'a leaning leg', [['height', 'Height', '16'], ['lean', 'Lean, degrees', '12']]],
  ['splayed-legs', 'four splayed legs', [['height', 'Height', '16'], ['lean', 'Lean, degrees', '10'], ['top_outside', 'Outside at the top', '11'], ['rail_top_at', 'Rail top at', '9']]],
  ['mitered-frame', 'a mitered frame', [['opening', 'Opening, wide x high', '8x10in']]],
  ['butted-frame', 'a butted frame', [['opening', 'Opening, wide x high', '8x10in']]],
  ['sloped-box', 'a box with sloped sides', [['sides', 'Sides', '4'], ['height', 'Height', '8'], ['slope', 'Slope, degrees', '15'], ['rim', 'Rim', '12x12in']]],
  ['polygon', 'a ring of equal sides', [['sides', 'Sides', '6'], ['side', 'Side', '10']]],
  ['brace', 'a brace', [['run', 'Run', '12'], ['rise', 'Rise', '12']]],
  ['crossed-legs', 'crossed legs', [['width', 'Width', '20'], ['height', 'Height', '18']]],
  ['prop', 'a prop behind a board', [['lean', 'Lean, degrees', '15'], ['up', 'Up the board', '20'], ['foot', 'Foot behind', '10']]],
  ['tapered-leg', 'a tapered leg', [['length', 'Length', '28'], ['top', 'Top', '2'], ['foot', 'Foot', '1'], ['straight', 'Straight at the top', '5']]],
  ['ends', 'any cut piece', [['length', 'Length', '20'], ['miter', 'Miters', '10,10'], ['bevel', 'Bevels', '0,0']]],
];

/** Fields that hold no length. */
const OTHERS = new Set(['lean', 'slope', 'sides', 'opening', 'rim', 'miter', 'bevel']);

const named = [...new Map(SHAPES.flatMap(([, , own]) => own.map(([name, label, like]) => [name, { label, like }])))];

export const angles = {
  id: 'angles',
  asks: 'How is the saw set?',
  button: 'How?',
  path: (values) => `angles/${values.shape}`,
  inPath: ['shape'],
  takes: ['region', 'units'],
  fields: () => [
    { name: 'shape', label: 'For', kind: 'choice', choices: SHAPES.map(([key, words]) => [key, words]), blank: 'choose', wide: true },
    { name: 'stock', label: 'Stock', kind: 'stock' },
    ...named.map(([name, { label, like }]) => ({
      name, label, like, kind: OTHERS.has(name) ? 'text' : 'length',
      when: (value) => SHAPES.some(([key, , own]) => key === value.shape && own.some(([one]) => one === name)),
    })),
  ],
  start: () => ({ shape: 'leaning', stock: '2x2' }),
  keeps: (values) => {
    const own = SHAPES.find(([key]) => key === values.shape)?.[2] ?? [];
    return ['shape', 'stock', 'width', 'thickness', ...own.map(([name]) => name)];
  },
  big: (answer) => {
    const way = answer.saw[0]?.ways[0];
    if (!way) return { number: 'Square', words: 'no cut is off square' };
    const { table, blade } = way.off_square;
    const number = [table && `${table}° miter`, blade && `${blade}° bevel`].filter(Boolean).join(', ');
    return { number: number || 'Square', words: `${answer.saw[0].part}, ${answer.saw[0].cut}, ${way.how}` };
  },
  rows: (answer) => [
    ['Cut', answer.parts.map((part) => `${part.quantity ?? 1} ${part.id}: ${part.length}${part.measured ? `, ${part.measured}` : ''}`)],
    ['Saw', answer.saw.flatMap((one) => one.ways.map((way) => `${one.part}, ${one.cut}, ${way.how}: table ${way.off_square.table}°, blade ${way.off_square.blade}° off square (${way.from_90.table}° and ${way.from_90.blade}° where square is 90)`))],
    ['Marks', answer.marks.map((mark) => `${mark.on}: ${tape(mark.at)} ${mark.words}`)],
    ['Sizes', Object.entries(answer.figures).map(([name, size]) => `${name}: ${typeof size === 'number' ? `${size} degrees` : tape(size)}`)],
    ['Without angles', answer.trace],
    ['Test cut', answer.test_cut],
    ['Measured', answer.axes],
  ],
  drawing: (answer) => answer.svg,
};
spacing.drawing = angles.drawing;
