/** What is touched is planned again, and what is shown of it is what the command line makes of the same text. */
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { comparePlans } from '../../src/core/plan/compare.ts';
import type { Plan } from '../../src/core/plan/plan.ts';
import { signed } from '../../src/present/change.ts';
import { sentences } from '../../src/present/sentences.ts';
import { gaugesOf, read } from '../../src/present/units.ts';
import { type App, fingerprint, openApp, replanned, settled, view, words } from './support/app.ts';
import { demonstration, example, planned } from './support/planned.ts';

let app: App;
let before: Plan;

beforeAll(async () => {
  before = demonstration().plan;
  app = await openApp({ acceptDownloads: true });
  await view(app.page, 'Map');
});

afterAll(async () => {
  await app.close();
  expect(app.complaints).toEqual([]);
});

const button = (name: string) => app.page.getByRole('button', { name, exact: true });
const birch = () => app.page.getByRole('button', { name: /^waypoint Birch/ });
const place = async () => /\d+\.\d+N \d+\.\d+W/.exec((await birch().getAttribute('aria-label')) ?? '')?.[0];

const after = (old: string) => replanned(app.page, old);

/** The text of the sortie as it is saved. */
async function savedText(): Promise<string> {
  await view(app.page, 'Sortie file');
  const download = app.page.waitForEvent('download');
  await button('Save sortie').click();
  const text = readFileSync(await (await download).path(), 'utf8');
  await view(app.page, 'Map');
  return text;
}

async function expectGates(plan: Plan): Promise<void> {
  const { marks } = comparePlans(before, plan, { keys: [], split: null, notFlown: [] });
  const fuel = gaugesOf(plan)('fuelKg');
  const cells = await app.page
    .getByRole('table')
    .filter({ has: app.page.getByRole('columnheader', { name: 'In hand' }) })
    .getByRole('cell')
    .allTextContents();
  const fuels = marks.flatMap(({ to, change }) => [
    read(fuel, to.fuelKg, 'available'),
    signed(fuel, change.fuelKg),
    signed(fuel, change.inHandKg),
  ]);
  // The first of four cells is the time with its change.
  expect(cells.filter((_, i) => i % 4 > 0)).toEqual(fuels);
}

/** Everything that the view shows of the sortie as it stands now. */
async function expectPlanned(): Promise<void> {
  const { plan, answers } = await planned(await savedText());
  expect(await fingerprint(app.page)).toBe(plan.fingerprint);
  expect(answers).toEqual(sentences(plan));
  const main = await words(app.page.getByRole('main'));
  for (const answer of answers) expect(main).toContain(answer);
  await expectGates(plan);
}

describe('what is touched', () => {
  it('[WEB-20] a waypoint is moved with the arrow keys', async () => {
    const [old, from] = [await fingerprint(app.page), await place()];
    await birch().press('ArrowUp');
    await after(old);
    const next = await fingerprint(app.page);
    await birch().press('Shift+ArrowRight');
    await after(next);
    expect(await place()).not.toBe(from);
    await expectPlanned();
  });

  it('[WEB-21] a waypoint is moved by the pointer, in one step of undo', async () => {
    const [old, from] = [await fingerprint(app.page), await place()];
    const box = await birch().boundingBox();
    if (!box) throw new Error('the waypoint has no place on the page');
    const { mouse } = app.page;
    await mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await mouse.down();
    await mouse.move(box.x + 60, box.y - 20, { steps: 8 });
    await mouse.up();
    await after(old);
    expect(await place()).not.toBe(from);
    await expectPlanned();
    const moved = await fingerprint(app.page);
    await button('Undo').click();
    expect(await after(moved)).toBe(old);
    expect(await place()).toBe(from);
  });

  it('[WEB-22] load, climb speed, take-off and air are moved by sliders and by steps', async () => {
    for (const name of [/^Fuel at take-off/, /^Take-off/, /^Climb speed/]) {
      const old = await fingerprint(app.page);
      const slider = app.page.getByRole('slider', { name }).first();
      const value = await slider.inputValue();
      await slider.press('ArrowLeft');
      await after(old);
      expect(await slider.inputValue()).not.toBe(value);
    }
    const old = await fingerprint(app.page);
    await app.page
      .getByRole('button', { name: /one step more$/ })
      .first()
      .click();
    await after(old);
    await expectPlanned();
  });

  it('[WEB-23] undo goes back to the beginning and redo to the end, exactly', async () => {
    const end = await fingerprint(app.page);
    /** All words, those of the areas in reach too, which are drawn last. */
    const main = async () => {
      await app.page.locator('#reach-none').waitFor();
      return words(app.page.getByRole('main'));
    };
    const endWords = await main();
    while (await button('Undo').isEnabled()) await button('Undo').click();
    await settled(app.page);
    expect(await fingerprint(app.page)).toBe(before.fingerprint);
    expect(await savedText()).toBe(example('long-loop.yaml'));
    while (await button('Redo').isEnabled()) await button('Redo').click();
    await settled(app.page);
    expect(await fingerprint(app.page)).toBe(end);
    await expect.poll(main, { timeout: 60_000 }).toBe(endWords);
  });

  it('[WEB-24] differences are taken against the version that is kept', async () => {
    await button('Keep this version').click();
    const { plan } = await planned(await savedText());
    before = plan;
    await expectGates(plan);
  });
});
