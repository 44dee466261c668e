/** Where to go: the view of each failure and the areas at the cursor show what the core works out of the same files. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makePlan } from '../../src/core/plan/make-plan.ts';
import type { Reach } from '../../src/core/plan/plan.ts';
import { areasInReach } from '../../src/core/plan/reach-area.ts';
import { askedOf } from '../../src/core/plan/reach-asked.ts';
import { closingTable, minuteAt, momentTable, reachSentences } from '../../src/present/reach.ts';
import { gaugesOf, plainSpaces } from '../../src/present/units.ts';
import { longLoopText, requestOf } from '../support/demo.ts';
import { type App, openApp, picture, view, whole, words } from './support/app.ts';
import { demonstration } from './support/planned.ts';

let app: App;
const { plan } = demonstration();
const gauges = gaugesOf(plan);

beforeAll(async () => {
  app = await openApp();
});

afterAll(async () => {
  await app.close();
  expect(app.complaints).toEqual([]);
});

const cursor = () => app.page.getByRole('slider', { name: /^Cursor/ });
const atS = async () => Number(await cursor().getAttribute('aria-valuenow'));

/** The rows of a table on the page, without its head. */
async function rows(name: string): Promise<string[][]> {
  const found = await app.page.getByRole('region', { name }).getByRole('row').all();
  const cells = await Promise.all(found.map((row) => row.getByRole('cell').allTextContents()));
  return cells.filter((row) => row.length > 0).map((row) => row.map((cell) => plainSpaces(cell)));
}

describe('where to go', () => {
  it('[WEB-140] is told of every failure in the words of the command line, until when and at the cursor', async () => {
    const { reach } = plan as { reach: Reach };
    await cursor().press('Home');
    for (let i = 0; i < 7; i++) await cursor().press('PageUp');
    const minute = minuteAt(reach, await atS());
    await view(app.page, 'Reach');
    await whole(app.page);
    const main = app.page.getByRole('main');
    const said = plainSpaces(await words(main));
    for (const sentence of reachSentences(reach, gauges)) expect(said).toContain(plainSpaces(sentence));
    for (const key of ['oneEngine', 'tankerHalf']) {
      await main.getByLabel('After').selectOption(key);
      const ladder = reach.ladders.find((each) => each.key === key);
      if (!ladder) throw new Error(`no ladder ${key}`);
      const plain = (table: { rows: readonly (readonly string[])[] }) =>
        table.rows.map((row) => row.map((cell) => plainSpaces(cell)));
      expect(await rows(`${ladder.name}: until when`)).toEqual(plain(closingTable(reach, ladder, gauges)));
      const moment = momentTable(reach, [ladder], minute, plan.takeOff, gauges);
      expect(await rows(moment.title)).toEqual(plain(moment));
    }
    await picture(app.page, 'reach');
  });

  it('[WEB-141] is shown on the map from the cursor after each failure, named apart, with where the weather ends', async () => {
    await view(app.page, 'Strip');
    const timeS = await atS();
    await view(app.page, 'Map');
    await app.page.locator('#reach-oneEngine').waitFor({ state: 'attached' });
    const request = requestOf(longLoopText);
    const asked = askedOf(request, makePlan(request));
    if (asked === null) throw new Error('the demonstration has failures');
    const areas = areasInReach(asked, timeS);
    const inReach = app.page.getByRole('img', { name: /^In reach from the cursor/ });
    const names = areas.flatMap(({ name, ringDeg }) => (ringDeg === null ? [] : [name]));
    expect(await inReach.getAttribute('aria-label')).toContain(names.join(', '));
    const labels = await inReach.locator('text').all();
    const texts = await inReach.locator('text').allTextContents();
    expect(texts.filter((text) => names.includes(text)).length).toBeGreaterThan(2);
    if (areas.some(({ endsBy }) => endsBy.includes('weather'))) {
      expect(texts).toContain('the weather ends here, not the fuel');
    }
    const boxes = await Promise.all(labels.map((label) => label.boundingBox()));
    boxes.forEach((a, i) => {
      for (const b of boxes.slice(0, i)) {
        if (a === null || b === null) throw new Error('a label is not shown');
        const apart =
          a.x + a.width <= b.x + 1 ||
          b.x + b.width <= a.x + 1 ||
          a.y + a.height <= b.y + 1 ||
          b.y + b.height <= a.y + 1;
        expect(apart, `${texts[i]}`).toBe(true);
      }
    });
    await picture(app.page, 'map-reach');
  });
});
