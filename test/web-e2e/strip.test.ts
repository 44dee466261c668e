/** One axis, one cursor: what it reads is what the plan file holds. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Plan } from '../../src/core/plan/plan.ts';
import { momentAt } from '../../src/present/moment.ts';
import { stretches } from '../../src/present/phases.ts';
import { type App, openApp, words } from './support/app.ts';
import { demonstration } from './support/planned.ts';

let app: App;
let plan: Plan;

beforeAll(async () => {
  ({ plan } = demonstration());
  app = await openApp();
});

afterAll(async () => {
  await app.close();
  expect(app.complaints).toEqual([]);
});

const landingS = () => plan.events.find(({ kind }) => kind === 'landing')?.timeS ?? Number.NaN;
const cursor = () => app.page.getByRole('slider', { name: /^Cursor/ });
const atCursor = () => app.page.getByRole('complementary', { name: 'At the cursor' });
const at = async () => Number(await cursor().getAttribute('aria-valuenow'));
const aircraft = () =>
  atCursor().getByRole('group', { name: /^Map/ }).locator('> path').getAttribute('transform');

/** The words beside the cursor at a time are those of the plan. */
async function expectMoment(timeS: number): Promise<void> {
  const { when, phase, readings, margins } = momentAt(plan, timeS);
  const of = [...readings, ...margins];
  expect(await atCursor().getByRole('rowheader').getByRole('button').allTextContents()).toEqual(
    of.map(({ name }) => name),
  );
  expect(await atCursor().getByRole('cell').allTextContents()).toEqual(of.map(({ text }) => text));
  const said = await words(atCursor());
  expect(said).toContain(when);
  expect(said).toContain(phase);
}

describe('the strip', () => {
  it('[WEB-10] reads at the cursor what the plan holds, moment by moment', async () => {
    await cursor().press('Home');
    await expectMoment(0);
    for (let minute = 1; minute <= 5; minute++) {
      await cursor().press('ArrowRight');
      await expectMoment(minute * 60);
    }
    for (let ten = 1; ten <= 15; ten++) {
      await cursor().press('PageUp');
      await expectMoment((5 + 10 * ten) * 60);
    }
    await cursor().press('End');
    await expectMoment(landingS());
  });

  it('[WEB-11] moves the aircraft on the map with the cursor', async () => {
    await cursor().press('Home');
    const before = await aircraft();
    await cursor().press('PageUp');
    expect(await aircraft()).not.toBe(before);
    await cursor().press('PageDown');
    expect(await aircraft()).toBe(before);
  });

  it('[WEB-12] goes where the pointer presses, and follows while it is held', async () => {
    const box = await cursor().boundingBox();
    if (!box) throw new Error('the strip has no place on the page');
    const { mouse } = app.page;
    await mouse.move(box.x + box.width * 0.4, box.y + 100);
    await mouse.down();
    const pressed = await at();
    await mouse.move(box.x + box.width * 0.7, box.y + 100, { steps: 4 });
    const dragged = await at();
    await mouse.up();
    await mouse.move(box.x + box.width * 0.2, box.y + 100);
    expect(dragged).toBeGreaterThan(pressed + 600);
    expect(await at()).toBe(dragged);
  });

  it('[WEB-13] is led to a moment by a time in a sentence', async () => {
    const link = app.page
      .getByRole('main')
      .getByRole('link')
      .filter({ hasText: /^\d+:\d\d$/ })
      .first();
    const [hours, minutes] = (await words(link)).split(':').map(Number);
    await link.click();
    expect(await at()).toBe((hours * 60 + minutes) * 60);
    await expectMoment((hours * 60 + minutes) * 60);
  });

  it('[WEB-14] has distance in the place of time, with the cursor at the same moment', async () => {
    await cursor().press('Home');
    for (let i = 0; i < 6; i++) await cursor().press('PageUp');
    const line = () => cursor().locator('line').last().getAttribute('x1');
    const byTime = await line();
    await app.page.getByLabel('Axis').selectOption('distance');
    expect(await line()).not.toBe(byTime);
    expect(await at()).toBe(3600);
    await expectMoment(3600);
    await app.page.getByLabel('Axis').selectOption('time');
    expect(await line()).toBe(byTime);
  });

  it('[WEB-15] opens a phase to fill the width', async () => {
    const phases = stretches(plan, 'name');
    const { last, startS } = phases[Math.floor(phases.length / 2)];
    const { endS } = plan.phases[last];
    await app.page.getByLabel('Show').selectOption(String(last));
    expect(Number(await cursor().getAttribute('aria-valuemin'))).toBeGreaterThanOrEqual(startS);
    expect(Number(await cursor().getAttribute('aria-valuemax'))).toBeCloseTo(endS, 3);
    await app.page.getByLabel('Show').selectOption('');
    expect(Number(await cursor().getAttribute('aria-valuemax'))).toBe(landingS());
  });
});
