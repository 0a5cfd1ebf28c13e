/** Where the page begins: views by their addresses, the check, and the worker for no connection. */
import { keepChecking } from './builds/checking.js';
import { buildRoutes } from './builds/views.js';
import { buildingRoutes } from './building/views.js';
import { cuttingRoutes } from './cutting/views.js';
import { refresh, start } from './drawn/routes.js';
import { closeKeys } from './forms/tape-keys.js';
import { questionRoutes } from './questions/views.js';

questionRoutes();
buildRoutes();
buildingRoutes();
cuttingRoutes();
window.addEventListener('hashchange', closeKeys);
keepChecking(refreshList);
start();
keepForLater();

/** Views that show the open build are drawn anew; a form that is being filled in is left alone. */
function refreshList() {
  if (/^#\/build\/[^/]+(\/[a-z]+)?$/.test(window.location.hash) && !document.querySelector('#main form')) refresh();
}

/** The worker needs a secure address, or this machine's own; without it the page works online. */
function keepForLater() {
  if ('serviceWorker' in navigator) navigator.serviceWorker.register('/page/worker.js', { scope: '/' }).catch(console.warn);
}
