/** Parts: what each is cut from, how long, and how its ends are cut. */
import { written } from '../answers/shown.js';

const FITS = [['to-fit', 'to fit, measured from the piece']];
const MEASURED = [
  ['long-to-long', 'long point to long point'], ['short-to-short', 'short point to short point'],
  ['long-to-short', 'along the edge with the first long point'], ['short-to-long', 'along the other edge'], ['center', 'along the middle'],
];

const slants = (value) => (value.ends ?? []).some((end) => end?.miter || end?.bevel);

/** @type {import('./entries.js').Kind} */
export const parts = {
  list: 'parts',
  one: 'part',
  many: 'Parts',
  empty: 'No parts yet. A part is one line of the list: a name, what it is cut from, how long, and how many.',
  summary: (part, { units }, names) => ({
    name: part.id ?? 'without a name',
    tape: written(part.length, units),
    what: [`${part.quantity ?? 1} of ${stockInWords(part.stock, names)}`, part.width !== undefined && `${written(part.width, units)} wide`, part.wood, endsInWords(part)].filter(Boolean).join(', '),
  }),
  fresh: (document) => ({ id: `part ${document.parts.length + 1}`, ...lastStock(document) }),
  fields: () => [
    { name: 'id', label: 'Name', kind: 'text', wide: true },
    { name: 'stock', label: 'Cut from', kind: 'stock' },
    { name: 'length', label: 'Length', kind: 'length', like: '24 1/2' },
    { name: 'quantity', label: 'How many', kind: 'whole', like: '1' },
    {
      legend: 'Width, wood and fit', folded: true, fields: [
        { name: 'width', label: 'Ripped to width', kind: 'length' },
        { name: 'thickness', label: 'Planed to thickness', kind: 'length' },
        { name: 'wood', label: 'Wood', kind: 'wood', blank: 'as the whole piece' },
        { name: 'fit', label: 'Cut', kind: 'choice', blank: 'to the list', choices: FITS },
        { name: 'grain', label: 'Grain runs along', kind: 'choice', blank: 'its length', choices: [['width', 'its width'], ['any', 'either']] },
        { name: 'measured_thickness', label: 'Thickness as measured', kind: 'length' },
        { name: 'measured_width', label: 'Width as measured', kind: 'length' },
        { name: 'moisture', label: 'Moisture, percent', kind: 'number' },
      ],
    },
    {
      legend: 'Angled ends', folded: true, fields: [
        { name: 'ends.0.miter', label: 'First end, miter', kind: 'number', hint: 'degrees off square' },
        { name: 'ends.1.miter', label: 'Second end, miter', kind: 'number', hint: 'degrees off square' },
        { name: 'ends.0.bevel', label: 'First end, bevel', kind: 'number' },
        { name: 'ends.1.bevel', label: 'Second end, bevel', kind: 'number' },
        { name: 'ends_lean', label: 'The two ends lean', kind: 'choice', when: slants, choices: [['opposite', 'apart, like a frame'], ['same', 'the same way, like a leg']] },
        { name: 'measured', label: 'Length is measured', kind: 'choice', when: slants, choices: MEASURED },
      ],
    },
  ],
  tidy: (part) => {
    if (slants(part)) return { ...part, ends: [part.ends[0] ?? {}, part.ends[1] ?? {}] };
    const { ends, ends_lean, measured, ...square } = part;
    return square;
  },
  follow: (document, before, after) => {
    if (before.id && before.id !== after.id) rename(document, before.id, after.id);
  },
};

function lastStock(document) {
  const last = document.parts.at(-1);
  return last?.stock === undefined ? {} : { stock: last.stock };
}

function stockInWords(stock, names) {
  if (stock === undefined) return 'no stock';
  if (typeof stock === 'string') return names.get(stock) ?? stock;
  return Object.entries(stock).map(([name, size]) => `${name} ${size}`).join(', ');
}

function endsInWords(part) {
  if (!slants(part)) return '';
  const one = (end) => [end?.miter && `${end.miter}° miter`, end?.bevel && `${end.bevel}° bevel`].filter(Boolean).join(' and ') || 'square';
  return `ends ${one(part.ends[0])} and ${one(part.ends[1])}`;
}

/** Every place that names a part follows it to its new name. */
function rename(document, before, after) {
  const renamed = (id) => (id === before ? after : id);
  const inList = (holder, name) => {
    if (Array.isArray(holder?.[name])) holder[name] = holder[name].map(renamed);
  };
  const inField = (holder, name) => {
    if (holder?.[name] === before) holder[name] = after;
  };
  for (const joint of document.joints ?? []) ['through', 'into'].forEach((name) => inField(joint, name));
  for (const run of document.runs ?? []) {
    [...(run.pieces ?? []), run.equals].forEach((piece) => inField(piece, 'part'));
    inList(run, 'gives');
  }
  for (const shape of document.shapes ?? []) Object.keys(shape.parts ?? {}).forEach((role) => inList(shape.parts, role));
  for (const load of document.loads ?? []) [load, ...(load.stiffened_by ?? [])].forEach((one) => inField(one, 'part'));
  for (const step of document.steps ?? []) inList(step, 'parts');
  for (const one of document.moving ?? []) inField(one, 'part');
  for (const part of document.parts) (part.cutouts ?? []).forEach((cutout) => inField(cutout, 'for'));
  for (const piece of [...(document.buying?.offcuts ?? []), ...(document.buying?.planned ?? [])]) inList(piece, 'for');
}
