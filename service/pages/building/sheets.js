/** Forms over the whole document: the piece itself, the shop, and buying. */
import { REGIONS } from '../asking/tables.js';
import { bench, change } from '../builds/bench.js';
import { currentFindings } from '../builds/checking.js';
import { make } from '../drawn/element.js';
import { linked } from '../drawn/frame.js';
import { go } from '../drawn/routes.js';
import { makeForm } from '../forms/form.js';
import { cards, contextOf } from './entries.js';
import { withBuild } from './ways.js';

const WHERE = [['indoors', 'indoors'], ['damp', 'damp room'], ['covered', 'outdoors, covered'], ['outdoors', 'outdoors']];
const SAWS = ['miter-saw', 'table-saw', 'circular-saw', 'band-saw', 'jigsaw', 'hand-saw', 'miter-box'].map((one) => [one, one.replace('-', ' ')]);
const PER = [['foot', 'foot'], ['board-foot', 'board foot'], ['sheet', 'sheet']];

/** @type {Array<{key: string, title: string, concerns: string[], fields: Array}>} */
export const SHEETS = [
  {
    key: 'piece', title: 'The piece', concerns: ['name', 'place', 'uses', 'people', 'stands', 'moving', 'wood', 'region', 'stocks', 'shapes'], fields: [
      { name: 'name', label: 'Name', kind: 'text', wide: true },
      { name: 'wood', label: 'Wood', kind: 'wood', wide: true },
      { name: 'region', label: 'Bought in', kind: 'choice', blank: 'United States', choices: REGIONS.map(([key, words]) => [key, words]) },
      { name: 'units', label: 'Bare numbers are', kind: 'choice', blank: 'inches', choices: [['in', 'inches'], ['mm', 'millimeters']] },
      { name: 'place.where', label: 'Place', kind: 'choice', choices: WHERE },
      { name: 'people.youngest', label: 'Youngest near it, years', kind: 'whole' },
      { legend: 'How it stands', folded: true, fields: [
        { name: 'stands.height', label: 'Height', kind: 'length' },
        { name: 'stands.depth', label: 'Depth', kind: 'length' },
        { name: 'stands.width', label: 'Width', kind: 'length' },
        { name: 'stands.fixed', label: 'Fixed to the wall', kind: 'yesno' },
      ] },
      { legend: 'The wall it hangs on', folded: true, fields: [
        { name: 'place.wall.kind', label: 'Wall', kind: 'choice', choices: [['studs', 'studs'], ['masonry', 'masonry'], ['unknown', 'not known']] },
        { name: 'place.wall.studs', label: 'Studs apart', kind: 'length' },
        { name: 'place.wall.board', label: 'Wallboard', kind: 'length' },
      ] },
      { legend: 'What it is for', folded: true, fields: [{ name: 'uses', label: 'What it is for', kind: 'ticks', bare: true, long: true, from: (known) => known.uses }] },
    ],
  },
  {
    key: 'shop', title: 'Shop and tools', concerns: ['shop'], fields: [
      { name: 'shop.kerf', label: 'Saw kerf', kind: 'length', like: '1/8' },
      { name: 'shop.longest_board', label: 'Longest board for the car', kind: 'length', like: '97' },
      { name: 'shop.end_trim', label: 'Trimmed off each end', kind: 'length', like: '0' },
      { name: 'shop.saws', label: 'Saws', kind: 'several', one: 'saw', fields: [
        { name: 'kind', label: 'Kind', kind: 'choice', choices: SAWS, blank: 'choose' },
        { name: 'blade', label: 'Blade', kind: 'length', like: '10' },
        { name: 'crosscut', label: 'Crosscuts', kind: 'length' },
        { name: 'slides', label: 'Slides', kind: 'yesno' },
      ] },
      { name: 'shop.tools', label: 'Tools', kind: 'ticks', from: (known) => known.tools },
    ],
  },
  {
    key: 'buying', title: 'Prices and wood on hand', concerns: ['buying'], fields: [
      { name: 'buying.price_list.currency', label: 'Currency', kind: 'text', like: 'USD' },
      { name: 'buying.budget', label: 'Budget', kind: 'money' },
      { name: 'buying.tax_percent', label: 'Tax, percent', kind: 'money' },
      { name: 'buying.price_list.prices', label: 'Prices', kind: 'several', one: 'price', fields: [
        { name: 'stock', label: 'Stock', kind: 'stock' },
        { name: 'length', label: 'Length', kind: 'length', like: '96' },
        { name: 'width', label: 'Sheet width', kind: 'length' },
        { name: 'price', label: 'Price', kind: 'money', like: '8.60' },
        { name: 'per', label: 'For each', kind: 'choice', blank: 'piece', choices: PER },
      ] },
      { name: 'buying.offcuts', label: 'Pieces on hand', kind: 'several', one: 'offcut', fields: [
        { name: 'stock', label: 'Stock', kind: 'stock' },
        { name: 'length', label: 'Length', kind: 'length' },
        { name: 'width', label: 'Width, if a sheet', kind: 'length' },
        { name: 'quantity', label: 'How many', kind: 'whole', like: '1' },
      ] },
      { name: 'buying.planned', label: 'What you mean to buy', kind: 'several', one: 'board', fields: [
        { name: 'stock', label: 'Stock', kind: 'stock' },
        { name: 'length', label: 'Length', kind: 'length' },
        { name: 'width', label: 'Width, if a sheet', kind: 'length' },
        { name: 'quantity', label: 'How many', kind: 'whole', like: '1' },
      ] },
    ],
  },
];

/**
 * The view of one of these forms.
 * @param {typeof SHEETS[0]} sheet
 */
export function sheetView(sheet) {
  return withBuild(async ({ id, document }) => {
    const form = makeForm(sheet.fields, document, await contextOf(document), (value) => kept(sheet, id, value));
    form.element.id = 'entry';
    const findings = concerned(await currentFindings(), sheet.concerns);
    form.mark(findings.filter((one) => one.severity === 'unread').map((one) => ({ pointer: one.at, detail: one.detail })));
    return {
      title: sheet.title,
      content: [cards(findings.filter((one) => one.severity !== 'unread'), sheet.key, true), form.element],
      actions: [linked(`#/build/${id}`, 'Leave'), make('button', { type: 'submit', form: 'entry', class: 'main' }, 'Keep')],
    };
  });
}

async function kept(sheet, id, value) {
  await change(sheet.title.toLowerCase(), () => value);
  go(bench().document.parts.length ? `#/build/${id}` : `#/build/${id}/parts`);
}

/**
 * The findings about any of these fields of the document.
 * @param {any[]} findings
 * @param {string[]} names
 */
export function concerned(findings, names) {
  return findings.filter((finding) => names.some((name) => finding.at === `#/${name}` || finding.at?.startsWith(`#/${name}/`)));
}
