/** Questions to the service: the public addresses that anybody may ask. */

const LOST = 'No connection to the service.';

/** A refusal by the service, or no answer at all. */
export class Refused extends Error {
  /**
   * @param {string} message
   * @param {Array<{pointer?: string, parameter?: string, detail: string}>} faults
   * @param {number} status 0 where nothing answered
   */
  constructor(message, faults = [], status = 0) {
    super(message);
    this.faults = faults;
    this.status = status;
  }
}

/**
 * Ask a one-line question.
 * @param {string} path such as `sizes/1x4`
 * @param {Object<string, string>} [parameters] empty ones are left out
 * @returns {Promise<{answer: any, kept: string|null}>} `kept` is when, where the answer is one kept before
 */
export async function ask(path, parameters = {}) {
  const given = Object.entries(parameters).filter(([, value]) => value !== '' && value !== undefined);
  const query = new URLSearchParams(given);
  const response = await reached(`/v1/${path}${given.length ? `?${query}` : ''}`, {
    headers: { Accept: 'application/json' },
  });
  return { answer: await read(response), kept: keptAt(response) };
}

/**
 * Send a document.
 * @param {string} path such as `check?mended=true`
 * @param {any} document
 * @returns {Promise<any>}
 */
export async function send(path, document) {
  return read(await post(path, document, 'application/json'));
}

/**
 * Send a document for an answer that is a file.
 * @param {string} path
 * @param {any} document
 * @returns {Promise<Blob>}
 */
export async function sendForFile(path, document) {
  const response = await post(path, document, '*/*');
  if (!response.ok) await read(response);
  return response.blob().catch(() => { throw new Refused(LOST); });
}

function post(path, document, accept) {
  return reached(`/v1/${path}`, {
    method: 'POST',
    headers: { 'Content-Type': 'application/json', Accept: accept },
    body: JSON.stringify(document),
  });
}

async function reached(address, options) {
  try {
    return await fetch(address, options);
  } catch {
    throw new Refused(LOST);
  }
}

/** When the worker kept this answer, if it had to be one kept before. */
function keptAt(response) {
  return response.headers.get('Dryfit-Kept');
}

async function read(response) {
  let body;
  try {
    body = await response.json();
  } catch {
    throw new Refused(`The service answered ${response.status} in a form that can't be read.`, [], response.status);
  }
  if (response.ok) return body;
  throw new Refused(body.detail ?? body.title ?? `The service answered ${response.status}.`, body.errors ?? [], response.status);
}
