/** The page for the flight: typed by its keys, asked where a reading cannot be, the same after the page was closed. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { Estimator } from '../../src/core/airborne/estimator.ts';
import { Expectation } from '../../src/core/airborne/expectation.ts';
import { reachNow } from '../../src/core/airborne/reach-now.ts';
import type { Entry } from '../../src/core/airborne/reading.ts';
import type { Plan } from '../../src/core/plan/plan.ts';
import { airborneSentences, reachNowTable } from '../../src/present/airborne.ts';
import { plainSpaces } from '../../src/present/units.ts';
import { type App, openApp, picture, ready, view } from './support/app.ts';
import { demonstration } from './support/planned.ts';

let app: App;
let plan: Plan;
const minuteS = 60;

beforeAll(async () => {
  app = await openApp();
  ({ plan } = demonstration());
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

async function type(minute: number, kg: number): Promise<void> {
  await app.page
    .getByLabel('At [h:min from take-off]')
    .fill(`${Math.floor(minute / 60)}:${String(minute % 60).padStart(2, '0')}`);
  for (const digit of String(kg)) await button(digit).click();
  await button('Enter').click();
}

it('[WEB-130] says what the readings come to, asks about a slip, and goes on after it was closed', async () => {
  const { page } = app;
  await view(page, 'Airborne');
  await button(/^Fly this plan/).click();
  const estimator = new Estimator(new Expectation(plan));
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

  const expectShown = async () => {
    const answer = estimator.answer();
    for (const text of airborneSentences(answer, plan)) await page.getByText(plainSpaces(text)).waitFor();
    if (!plan.reach) throw new Error('the plan of the demonstration has its reach');
    const table = reachNowTable(reachNow(plan.reach, answer.planTimeS, answer.fuelKg.mean), plan);
    const rows = page.getByRole('region', { name: table.title }).getByRole('row');
    expect(await rows.count()).toBe(table.rows.length + 1);
    for (const [i, row] of table.rows.entries()) {
      expect(
        await rows
          .nth(i + 1)
          .getByRole('cell')
          .allTextContents(),
      ).toEqual(row);
    }
  };
  await expectShown();
  await picture(page, 'airborne');

  await page.reload();
  await ready(page);
  await view(page, 'Airborne');
  await page.getByText('1:20 Fuel on board').first().waitFor();
  await expectShown();
});
