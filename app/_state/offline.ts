/** Keeps the app's own files in this browser, so that it opens again without a network; records are never among them. */
export function keepForOffline(): void {
  // The worker is part of the export; while working on the app there is none.
  if (process.env.NODE_ENV !== 'production' || !('serviceWorker' in navigator)) return;
  // Where it cannot be had (no room, private window) the app works as before, with a network.
  navigator.serviceWorker
    .register(`${process.env['HUBCAUSE_BASE_PATH'] ?? ''}/service-worker.js`)
    .catch(() => undefined);
}
