/** The application is there at once, needs no server afterwards, and speaks with no other machine. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  type App,
  fingerprint,
  openApp,
  ready,
  replanned,
  settled,
  view,
  viewNames,
  words,
} from './support/app.ts';
import { commanded, type Planned } from './support/planned.ts';

/** Presses a key on the first slider of the map's view and waits for the new plan. */
async function moved({ page }: App): Promise<string> {
  const before = await fingerprint(page);
  await view(page, 'Map');
  await page.getByRole('slider', { name: 'Fuel at take-off' }).press('ArrowLeft');
  return replanned(page, before);
}

describe('served on this machine', () => {
  let app: App;
  let demo: Planned;

  beforeAll(async () => {
    demo = commanded();
    app = await openApp({ serviceWorkers: 'allow' });
  });

  afterAll(() => app.close());

  it('[WEB-1] shows the demonstration planned, with the answers of the command line', async () => {
    const { page } = app;
    expect(await words(page.getByRole('heading', { level: 1 }))).toBe(demo.plan.title);
    expect(await fingerprint(page)).toBe(demo.plan.fingerprint);
    const main = await words(page.getByRole('main'));
    for (const answer of demo.answers) expect(main).toContain(answer);
  });

  it('[WEB-2] says on every view what it was made from and that it is not approved data', async () => {
    const { page } = app;
    for (const name of await viewNames(page)) {
      await view(page, name);
      const foot = await words(page.getByRole('contentinfo'));
      expect(foot).toContain(demo.plan.fingerprint);
      expect(foot).toContain(demo.plan.caution);
      for (const attribution of demo.plan.weather.attribution) expect(foot).toContain(attribution);
    }
  });

  it('[WEB-3] opens and plans again without its server', async () => {
    const { page } = app;
    await page.evaluate(`navigator.serviceWorker.ready.then(({ active }) =>
      active.state === 'activated' || new Promise((done) => active.addEventListener('statechange', done)))`);
    await app.stop();
    await page.reload();
    await ready(page);
    expect(await fingerprint(page)).toBe(demo.plan.fingerprint);
    const fresh = await moved(app);
    await page.getByRole('button', { name: 'Undo' }).click();
    await settled(page);
    expect(await fingerprint(page)).toBe(demo.plan.fingerprint);
    expect(fresh).not.toBe(demo.plan.fingerprint);
  });

  it('[WEB-4] has asked no other machine for anything', () => {
    expect(app.requests.length).toBeGreaterThan(10);
    for (const url of app.requests) expect(url).toMatch(new RegExp(`^(${app.address}|data:|blob:)`));
    expect(app.complaints).toEqual([]);
  });
});

describe('one file from a folder', () => {
  let app: App;

  beforeAll(async () => {
    app = await openApp({ single: true });
  });

  afterAll(() => app.close());

  it('[WEB-5] shows the demonstration and plans it again', async () => {
    const before = await fingerprint(app.page);
    expect(await moved(app)).not.toBe(before);
    await app.page.getByRole('button', { name: 'Undo' }).click();
    await settled(app.page);
    expect(await fingerprint(app.page)).toBe(before);
  });

  it('[WEB-6] lays out and prints the cards', async () => {
    const { page } = app;
    await view(page, 'Cards');
    await page.getByRole('img', { name: /^Contents/ }).waitFor();
    await page.getByRole('button', { name: 'Print the pack' }).click();
    expect(await words(page.getByText(/is made\.$/))).toContain(await fingerprint(page));
  });

  it('[WEB-7] reads no other file', () => {
    const [first, ...others] = app.requests;
    expect(first).toBe(app.address);
    // The viewer of PDFs is a part of the browser.
    for (const url of others) expect(url).toMatch(/^(data|blob|chrome|chrome-extension):/);
    expect(app.complaints).toEqual([]);
  });
});
