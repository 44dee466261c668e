/** The frame that is being made is on the screen. */
export function drawn(): Promise<void> {
  return new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
}
