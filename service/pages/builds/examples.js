/** Builds to start from, each a file beside this page. */

/** @type {Array<{file: string, name: string, about: string}>} */
export const EXAMPLES = [
  { file: 'herb-trough.json', name: 'Herb trough for a window sill', about: 'Three boards and screws: a first piece.' },
  { file: 'mug-shelf.json', name: 'Mug shelf with a rail', about: 'Fits an alcove; what adds up to what.' },
  { file: 'hat-ledge-with-mistakes.json', name: 'Hat ledge with mistakes in it', about: 'To see findings, and mend them.' },
  { file: 'side-stand.json', name: 'Side stand on splayed legs', about: 'Angled cuts.' },
  { file: 'parts-cabinet.json', name: 'Cabinet for small parts', about: 'Plywood sheets and many pieces.' },
  { file: 'tray-mm.json', name: 'Serving tray in millimeters', about: 'Metric, and bought in the United Kingdom.' },
];
