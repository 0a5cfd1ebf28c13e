/** The addresses of a build's views. */
import { route } from '../drawn/routes.js';
import { documentView } from './document.js';
import { entryView, listView } from './entries.js';
import { checkView, hubView } from './hub.js';
import { joints } from './joints.js';
import { loads } from './loads.js';
import { parts } from './parts.js';
import { runs } from './runs.js';
import { SHEETS, sheetView } from './sheets.js';
import { steps } from './steps.js';

/** Name these views. */
export function buildingRoutes() {
  route('#/build/{id}', hubView);
  route('#/build/{id}/check', checkView);
  route('#/build/{id}/document', documentView);
  for (const sheet of SHEETS) route(`#/build/{id}/${sheet.key}`, sheetView(sheet));
  for (const kind of [parts, joints, runs, loads, steps]) {
    route(`#/build/{id}/${kind.list}`, listView(kind));
    route(`#/build/{id}/${kind.list}/{index}`, entryView(kind));
  }
}
