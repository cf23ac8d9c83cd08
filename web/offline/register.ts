import { whenIdle } from '../parts/whenIdle.ts';

/** What the look-up and the desk need without a connection, asked for once on the first visit. */
const firstReads = ['/api/state', '/api/find', '/api/desk'];
const reloadedPlace = 'sumpwise.reloaded-at';
const reloadPauseMs = 60_000;
const registeredWithinMs = 5000;

/** A part of an earlier build that is gone: the page is opened anew, once a minute at most. */
function reloadForNewBuild(): void {
  window.addEventListener('vite:preloadError', () => {
    const last = Number(sessionStorage.getItem(reloadedPlace) ?? 0);
    if (Date.now() - last < reloadPauseMs) return;
    sessionStorage.setItem(reloadedPlace, String(Date.now()));
    window.location.reload();
  });
}

/** Lets the pages be installed and work without a connection, where the browser can; after the first page is drawn. */
export function registerOffline(): void {
  reloadForNewBuild();
  if (!('serviceWorker' in navigator)) return;
  const register = (): void => {
    const first = navigator.serviceWorker.controller === null;
    navigator.serviceWorker
      .register('/worker.js', { updateViaCache: 'none' })
      .then(() => navigator.serviceWorker.ready)
      .then(() => (first ? Promise.all(firstReads.map((path) => fetch(path))) : []))
      // a private window, a full device: the pages work as before, with a connection
      .catch(() => undefined);
  };
  const soon = (): void => void whenIdle(register, registeredWithinMs);
  if (document.readyState === 'complete') soon();
  else window.addEventListener('load', soon);
}
