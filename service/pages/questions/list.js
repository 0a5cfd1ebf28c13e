/** Every one-line question, in the order of a builder's day; the screw comes first. */
import { angles, spacing } from './angles.js';
import { hanging, moisture, movement, sag, tipOver } from './bearing.js';
import { clamps, coverage, glueUp, pilotHoles } from './gluing.js';
import { screw } from './screw.js';
import { boardFeet, measure, size, weight } from './sizes.js';

/**
 * @typedef {Object} Question
 * @property {string} id
 * @property {string} asks
 * @property {string} button
 * @property {(values: Object) => string} path
 * @property {string[]} [inPath] values that are part of the path
 * @property {string[]} takes which of the reader's preferences it takes
 * @property {(context: any) => Array} fields see forms/form.js
 * @property {(context: any) => Object} [start] what the fields hold at first
 * @property {(values: Object) => string[]} [keeps] the fields that count, where not all do
 * @property {(answer: any, units: string) => {number: any, words: string}} big
 * @property {(answer: any, units: string) => Array<[string, any]>} rows
 * @property {(answer: any) => string} [drawing] an SVG text
 */

/** @type {Question[]} */
export const QUESTIONS = [
  screw, size, spacing, pilotHoles, angles, sag, movement, moisture, glueUp, clamps, coverage,
  weight, boardFeet, measure, tipOver, hanging,
];
