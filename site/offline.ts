// Keeps the served page at hand for when there is no network.

/** Has the browser keep this build of the page. The single file, which is all there at once, needs none of it. */
export function stayOffline(): void {
  if (!document.querySelector('link[rel=manifest]') || !isSecureContext || !('serviceWorker' in navigator)) return;
  // Where this is refused the page works all the same, while there is a network.
  navigator.serviceWorker.register('offline.js').catch(() => undefined);
}
