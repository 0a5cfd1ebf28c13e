/** What does a board really measure, how much wood is it, and what does it weigh? */
import { mass, rounded, tape } from '../answers/shown.js';

const across = (stock) => [stock.thickness?.listed, stock.width?.listed].filter(Boolean).map((size) => tape(size)).join(' x ');

export const size = {
  id: 'size',
  asks: 'What does a board really measure?',
  button: 'What size?',
  path: (values) => `sizes/${encodeURIComponent(values.stock ?? '')}`,
  inPath: ['stock'],
  takes: ['region', 'units'],
  fields: () => [
    { name: 'stock', label: 'Name at the store', kind: 'text', like: '1x6, 2x4, 3/4 plywood', wide: true },
  ],
  big: ({ sold }) => ({ number: across(sold), words: `${sold.name}${sold.condition ? `, ${sold.condition}` : ''}` }),
  rows: (answer) => [
    ['Sold in lengths of', answer.sold.lengths?.map((one) => tape(one)).join(', ')],
    ['Lengths are', answer.sold.lengths_from_memory && 'from memory: look in the shop'],
    ['Board feet a foot', answer.board_feet_per_foot && rounded(answer.board_feet_per_foot, 3)],
    ['Also sold', answer.others.map((one) => `${one.name}${one.condition ? `, ${one.condition}` : ''}: ${across(one)}`)],
  ],
};

const PIECE = [
  { name: 'stock', label: 'Stock', kind: 'stock' },
  { name: 'length', label: 'Length', kind: 'length', like: '24' },
  { name: 'count', label: 'How many', kind: 'whole', like: '1' },
];

export const weight = {
  id: 'weight',
  asks: 'What does it weigh?',
  button: 'What weight?',
  path: () => 'weight',
  takes: ['region', 'units'],
  fields: () => [...PIECE, { name: 'wood', label: 'Wood', kind: 'wood' }],
  start: () => ({ wood: 'spf' }),
  big: (answer, units) => ({
    number: answer.total ? mass(usual(answer.total), units) : 'Not known',
    words: answer.why_not ?? `${answer.count} of ${answer.stock ?? 'this size'}`,
  }),
  rows: (answer, units) => [
    ['Each', answer.each && mass(usual(answer.each), units)],
    ['Lifting', words(answer.lifting)],
  ],
};

function usual(spread) {
  return { lb: spread.lb.usual ?? spread.lb, kg: spread.kg.usual ?? spread.kg };
}

function words(value) {
  return typeof value === 'string' ? value : value?.words;
}

export const boardFeet = {
  id: 'board-feet',
  asks: 'How many board feet, at what price?',
  button: 'How many?',
  path: () => 'board-feet',
  takes: ['region', 'units'],
  fields: () => [...PIECE, { name: 'price', label: 'Price a board foot', kind: 'money', like: '3.20' }],
  big: (answer) => ({ number: rounded(answer.board_feet, 2), words: answer.board_feet === 1 ? 'board foot' : 'board feet' }),
  rows: (answer) => [
    ['Counted', answer.counted?.why],
    ['Each', rounded(answer.board_feet_each, 2)],
    ['Cost', answer.cost],
  ],
};

export const measure = {
  id: 'measure',
  asks: 'What does the tape read?',
  button: 'Read it',
  path: () => 'measure',
  takes: ['units'],
  fields: () => [
    { name: 'value', label: 'Length', kind: 'length', like: '527 mm' },
    { name: 'to', label: 'To the nearest', kind: 'choice', blank: 'as the tape goes', choices: [['1/8', '1/8 in'], ['1/16', '1/16 in'], ['1/32', '1/32 in'], ['1 mm', '1 mm']] },
    { name: 'round', label: 'Rounded', kind: 'choice', blank: 'to the nearest', choices: [['down', 'down'], ['up', 'up']] },
  ],
  big: (answer) => ({ number: answer.rounded ? tape(answer.rounded) : tape(answer.value), words: answer.off_by && answer.off_by !== '0' ? `off by ${answer.off_by}` : 'exactly' }),
  rows: (answer) => [
    ['Exactly', answer.exact],
    ['Inches', rounded(answer.value.in, 4)],
    ['Millimeters', rounded(answer.value.mm, 2)],
  ],
};
