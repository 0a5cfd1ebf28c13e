/** Where the reader buys wood and what the tape reads: asked once, kept on the device. */

const NAME = 'dryfit-preferences';
const STARTING = { region: 'us', units: 'in', tools: ['drill', 'driver', 'hammer', 'clamps'] };

/** @returns {{region: string, units: 'in'|'mm', tools: string[]}} */
export function preferences() {
  try {
    return { ...STARTING, ...JSON.parse(localStorage.getItem(NAME) ?? '{}') };
  } catch {
    return { ...STARTING }; // storage is off, or holds something else
  }
}

/** @param {Object} changed some of the preferences */
export function prefer(changed) {
  try {
    localStorage.setItem(NAME, JSON.stringify({ ...preferences(), ...changed }));
  } catch {
    // Storage is off: the preference holds until the page is left.
    Object.assign(STARTING, changed);
  }
}
