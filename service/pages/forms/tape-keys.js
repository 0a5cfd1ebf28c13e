/** The keys for a length, at the bottom of the page: digits, a tape's fractions, units. */
import { fill, make } from '../drawn/element.js';
import { FRACTIONS, withDigit, withFraction, withUnit, without } from './fractions.js';

const keys = () => document.getElementById('tape-keys');
const ledge = () => document.getElementById('ledge');
let input = null;
let output = null;

/**
 * Open the keys for one input.
 * @param {HTMLInputElement} target
 * @param {boolean} metric whether bare numbers in it are millimeters
 */
export function openKeys(target, metric) {
  if (input === target) return;
  input = target;
  output = make('output', {}, target.value);
  fill(keys(), output, key('Done', closeKeys, 'main'), ...FRACTIONS.map((one) =>
    key(one, () => write(withFraction(input.value, one, metric)), 'fraction')), ...plainKeys());
  keys().hidden = false;
  ledge().hidden = true;
  target.scrollIntoView({ block: 'center' });
}

/** Close the keys and give the ledge its place back. */
export function closeKeys() {
  if (!input) return;
  keys().hidden = true;
  ledge().hidden = false;
  input.dispatchEvent(new Event('change', { bubbles: true }));
  input = null;
}

/**
 * Keep the line of the keys in step with an input that is typed into.
 * @param {HTMLInputElement} target
 */
export function follow(target) {
  if (input === target) output.textContent = target.value;
}

function plainKeys() {
  const digit = (one) => key(one, () => write(withDigit(input.value, one)));
  const unit = (one) => key(one, () => write(withUnit(input.value, one)));
  return [
    ...['1', '2', '3', '4', '5'].map(digit), ...['6', '7', '8', '9', '0'].map(digit),
    digit('.'), unit('ft'), unit('in'), unit('mm'), key('Erase', () => write(without(input.value))),
  ];
}

function key(words, press, kind = '') {
  const stay = (event) => event.preventDefault(); // the input keeps the focus
  return make('button', { type: 'button', class: kind, onpointerdown: stay, onclick: press }, words);
}

function write(text) {
  input.value = text;
  input.dispatchEvent(new Event('input', { bubbles: true }));
}
