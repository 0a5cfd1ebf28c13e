/** Choices from the service's tables: stock, woods, tools, glues and finishes by their names. */
import { ask } from './service.js';

/** Regions, with the words for them and the mark under which their panels stand. */
export const REGIONS = [
  ['us', 'United States', 'us'],
  ['uk', 'United Kingdom', 'uk-eu'],
  ['au', 'Australia', 'au'],
  ['nz', 'New Zealand', 'nz'],
];

const got = new Map();

/** The rows of a table, asked for once; an empty list where nothing answers. */
async function rows(table, filters = {}) {
  const name = `${table} ${JSON.stringify(filters)}`;
  if (!got.has(name)) {
    got.set(name, ask(`tables/${table}`, filters).then(({ answer }) => answer.rows).catch(() => {
      got.delete(name);
      return [];
    }));
  }
  return got.get(name);
}

/** Rows of boards and of panels that a region's shops sell. */
function sold(region) {
  const panelRegion = REGIONS.find(([key]) => key === region)?.[2] ?? region;
  return Promise.all([
    rows('lumber_sizes', { region, sold_by_default: 'yes' }),
    rows('panels', { region: panelRegion, sold_by_default: 'yes' }),
  ]);
}

/**
 * What a shop of a region calls each stock, by the key that a build and a plan hold.
 * @param {string} [region]
 * @returns {Promise<Map<string, string>>}
 */
export async function stockNames(region = 'us') {
  const [lumber, panels] = await sold(region);
  return new Map([...lumber.map((row) => [row.stock, row.name]), ...panels.map((row) => [row.stock, panelWords(row)])]);
}

/**
 * What a shop of a region sells.
 * @param {string} region
 * @returns {Promise<Array<{group: string, choices: Array<[string, string]>}>>}
 */
export async function stocks(region) {
  const [lumber, panels] = await sold(region);
  const groups = new Map();
  const add = (group, key, words) => groups.set(group, [...(groups.get(group) ?? []), [key, words]]);
  for (const row of lumber.filter((one) => one.thickness)) add(inWords(row.class), row.stock, boardWords(row));
  for (const row of panels) add(inWords(row.material), row.stock, panelWords(row));
  return [...groups].map(([group, choices]) => ({ group, choices: choices.sort(bySize) }));
}

function boardWords(row) {
  const size = (metric, plain) => (row.region === 'us' ? plain?.printed : (metric ?? plain)?.printed);
  const wide = row.width || row.metric_width ? ` x ${size(row.metric_width, row.width)}` : '';
  return `${row.name}: ${size(row.metric_thickness, row.thickness)}${wide}`;
}

function panelWords(row) {
  const thick = row.region === 'us' ? row.nominal_thickness : (row.metric_thickness ?? row.nominal_thickness);
  return `${inWords(row.material)} ${thick?.printed ?? row.stock}`;
}

function bySize(first, second) {
  return first[0].localeCompare(second[0], 'en', { numeric: true });
}

function inWords(key) {
  return key.replaceAll('-', ' ');
}

async function named(table) {
  return (await rows(table)).map((row) => [row.key, row.name]);
}

/** @returns {Promise<Array<{group: string, choices: Array<[string, string]>}>>} */
export async function woods() {
  const [groups, species] = await Promise.all([named('wood_groups'), named('species')]);
  return [
    { group: 'as shops sell it', choices: groups },
    { group: 'one species', choices: species },
  ];
}

/** @returns {Promise<Array<[string, string]>>} */
export const tools = () => named('tools');
/** @returns {Promise<Array<[string, string]>>} */
export const uses = () => named('uses');
/** @returns {Promise<Array<[string, string]>>} */
export const glues = () => named('glues');
/** @returns {Promise<Array<[string, string]>>} */
export const finishes = () => named('finishes');
