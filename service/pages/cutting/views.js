/** The addresses of what is done with a build: buying, cutting, handing it on. */
import { route } from '../drawn/routes.js';
import { drawingsView } from './drawings.js';
import { handoutView } from './handout.js';
import { cutsView } from './plan.js';
import { sawView } from './saw.js';

/** Name these views. */
export function cuttingRoutes() {
  route('#/build/{id}/cuts', cutsView);
  route('#/build/{id}/tape', sawView);
  route('#/build/{id}/drawings', drawingsView);
  route('#/build/{id}/handout', handoutView);
}
