/** The page for the flight: typed by its keys, asked where a reading cannot be, flown on, the same after the page was closed or killed. */
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

import { AxeBuilder } from '@axe-core/playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import packageFile from '../../package.json' with { type: 'json' };
import { Estimator } from '../../src/core/airborne/estimator.ts';
import { Expectation } from '../../src/core/airborne/expectation.ts';
import type { Entry } from '../../src/core/airborne/reading.ts';
import { toTheEnd } from '../../src/core/plan/explain.ts';
import type { Plan } from '../../src/core/plan/plan.ts';
import { readPlanRequest } from '../../src/files/plan-request.ts';
import { typedUnits } from '../../src/files/readings.ts';
import { airborneSentences } from '../../src/present/airborne.ts';
import {
  adviceTable,
  followSentences,
  fuelTable,
  limitsTable,
  reachNowTable,
} from '../../src/present/airborne-follows.ts';
import type { Table } from '../../src/present/table.ts';
import { plainSpaces } from '../../src/present/units.ts';
import { Flying } from '../../src/web/views/airborne/flying.ts';
import { type App, openApp, openProfile, picture, ready, view } from './support/app.ts';
import { demonstration } from './support/planned.ts';

let app: App;
let plan: Plan;
let flying: Flying;
const minuteS = 60;

beforeAll(async () => {
  app = await openApp();
  ({ plan } = demonstration());
  const program = `${packageFile.name} ${packageFile.version}`;
  flying = new Flying(plan, await readPlanRequest('examples/long-loop.yaml', program));
});

afterAll(async () => {
  await app.close();
  expect(app.complaints).toEqual([]);
});

const button = (name: string | RegExp) => app.page.getByRole('button', { name, exact: true });

/** Fuel of the plan at a minute, to ten kilograms. */
function planned(minute: number): number {
  const { timeS, fuelKg } = plan.trace.columns;
  const high = timeS.findIndex((time) => time >= minute * minuteS);
  const part = (minute * minuteS - timeS[high - 1]) / (timeS[high] - timeS[high - 1]);
  return 10 * Math.round((fuelKg[high - 1] + part * (fuelKg[high] - fuelKg[high - 1])) / 10);
}

/** By the keys alone, the time last. */
async function type(minute: number, kg: number): Promise<void> {
  await button('Fuel on board').click();
  for (const digit of String(kg)) await button(digit).click();
  await button('Time').click();
  for (const digit of `${Math.floor(minute / 60)}${String(minute % 60).padStart(2, '0')}`)
    await button(digit).click();
  await button('Enter').click();
}

function newEstimator(): Estimator {
  const { slopes } = flying;
  const expectation = new Expectation(plan, slopes === null ? undefined : (node) => slopes[node]);
  return new Estimator(expectation, { typedUnits: typedUnits(plan.aircraft.gaugeUnits) });
}

async function expectShown(estimator: Estimator): Promise<void> {
  const { page } = app;
  const answer = estimator.answer();
  const { follows, areas } = toTheEnd(flying.follow(answer, estimator.entries));
  expect(follows.flown).toBe(true);
  expect(areas.length).toBeGreaterThan(0);
  for (const text of airborneSentences(answer, plan)) await page.getByText(plainSpaces(text)).waitFor();
  await page.locator('section[aria-busy=false]').waitFor();
  for (const text of followSentences(follows, answer, plan))
    await page.getByText(plainSpaces(text)).waitFor();
  const tables: Table[] = [
    fuelTable(follows, plan),
    reachNowTable(follows.reach ?? [], plan),
    limitsTable(follows, plan),
  ];
  if (follows.advice !== null) tables.push(adviceTable(follows.advice, plan));
  for (const table of tables) {
    const rows = page.getByRole('region', { name: table.title }).getByRole('row');
    const cells = await rows.evaluateAll((all) =>
      all.slice(1).map((row) => [...row.querySelectorAll('td')].map((cell) => cell.textContent)),
    );
    expect(cells).toEqual(table.rows);
  }
}

async function expectAccessible(): Promise<void> {
  const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];
  const { violations } = await new AxeBuilder({ page: app.page }).withTags(tags).analyze();
  expect(violations.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html}`))).toEqual([]);
}

it('[WEB-130] says what the readings come to, asks about a slip, flies on, and goes on after it was closed', async () => {
  const { page } = app;
  await view(page, 'Airborne');
  await button(/^Fly this plan/).click();
  const estimator = newEstimator();
  const reading = (minute: number, value: number): Entry => ({
    timeS: minute * minuteS,
    key: 'fuelKg',
    value,
    status: 'read',
  });
  for (const minute of [70, 75]) {
    await type(minute, planned(minute));
    estimator.add(reading(minute, planned(minute)));
  }
  // What was typed wrong is taken back.
  await type(78, planned(78) - 150);
  await page.getByRole('region', { name: 'Reading' }).getByRole('button', { name: 'Undo' }).click();
  // Tonnes and hundreds exchanged: far from what can be.
  const right = planned(80);
  const digits = [...String(right)];
  [digits[0], digits[1]] = [digits[1], digits[0]];
  const slip = Number(digits.join(''));
  expect(Math.abs(slip - right)).toBeGreaterThan(5000);
  await type(80, slip);
  estimator.add(reading(80, slip));
  const asked = page.getByRole('alert').filter({ hasText: 'with two digits exchanged' });
  await asked.waitFor();
  await asked.getByRole('button', { name: /^It is / }).click();
  const [question] = estimator.answer().questions;
  estimator.add({ ...reading(80, question.meant as number), status: 'corrected' });
  await asked.waitFor({ state: 'detached' });

  await expectShown(estimator);
  await picture(page, 'airborne');

  await page.reload();
  await ready(page);
  await view(page, 'Airborne');
  await page.getByText('1:20 Fuel on board').first().waitFor();
  await expectShown(estimator);
  await expectAccessible();
  await button('Night').click();
  await expectAccessible();
  await picture(page, 'airborne night');
  await button('Night').click();
});

it('[WEB-131] every key of the pad is 25 mm with 8 mm between', async () => {
  const boxes = await app.page.locator('.keys button').evaluateAll((keys) =>
    keys.map((key) => {
      const { left, right, top, bottom } = key.getBoundingClientRect();
      return { left, right, top, bottom };
    }),
  );
  // 96 px to the inch.
  const mm = 96 / 25.4;
  expect(boxes.length).toBeGreaterThan(20);
  for (const box of boxes) {
    expect(box.right - box.left).toBeGreaterThanOrEqual(25 * mm - 0.5);
    expect(box.bottom - box.top).toBeGreaterThanOrEqual(25 * mm - 0.5);
    for (const other of boxes) {
      if (other === box) continue;
      const across = Math.max(box.left - other.right, other.left - box.right);
      const along = Math.max(box.top - other.bottom, other.top - box.bottom);
      expect(Math.max(across, along)).toBeGreaterThanOrEqual(8 * mm - 0.5);
    }
  }
});

/** The browser that keeps its profile in a folder: its own process, none of those that it started. */
function browserIn(folder: string): number {
  const own = readdirSync('/proc').filter((name) => /^\d+$/.test(name));
  const found = own.find((pid) => {
    const words = commandOf(pid);
    return words.includes(`--user-data-dir=${folder}`) && !words.some((word) => word.startsWith('--type='));
  });
  return Number(found);
}

function commandOf(pid: string): readonly string[] {
  try {
    return readFileSync(`/proc/${pid}/cmdline`, 'utf8').split('\0');
  } catch {
    return [];
  }
}

it.runIf(existsSync('/proc/self/cmdline'))(
  '[WEB-132] a reading that is told to be kept outlives a browser that is killed',
  async () => {
    const folder = mkdtempSync(join(tmpdir(), 'ramrise-profile-'));
    const open = async () => {
      const context = await openProfile(folder);
      const page = context.pages()[0] ?? (await context.newPage());
      await page.goto(app.address);
      await ready(page);
      await view(page, 'Airborne');
      return page;
    };
    const page = await open();
    await page.getByRole('button', { name: /^Fly this plan/ }).click();
    await page.getByLabel('At [h:min from take-off]').fill('1:10');
    await page.getByLabel(/^Fuel on board/).fill(String(planned(70)));
    await page.getByLabel(/^Fuel on board/).press('Enter');
    await page.getByText('Kept in this browser: 1.').waitFor();
    const gone = page.waitForEvent('close');
    process.kill(browserIn(folder), 'SIGKILL');
    await gone;
    const again = await open();
    await again.getByText('1:10 Fuel on board').waitFor();
    await again.context().close();
    rmSync(folder, { recursive: true });
  },
);
