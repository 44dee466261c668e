/** Keeps the page for when its server is gone; from a file on a stick there is nothing to keep. */
export function keepOffline(): void {
  if (!('serviceWorker' in navigator) || !location.protocol.startsWith('http')) return;
  void navigator.serviceWorker.register('./keep.js');
}
