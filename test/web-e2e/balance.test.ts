/** The view of the balance: what is shown is what the core computes of the same files. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { balanceTable } from '../../src/core/aircraft/balance-state.ts';
import { fuelled } from '../../src/core/plan/fuel-today.ts';
import { inletAsFlown } from '../../src/core/plan/inlet-flown.ts';
import { balanceSentences } from '../../src/present/balance.ts';
import { inletSentences } from '../../src/present/inlet.ts';
import { gaugesIn, plainSpaces } from '../../src/present/units.ts';
import { longLoopText, requestOf } from '../support/demo.ts';
import { type App, openApp, picture, view } from './support/app.ts';

let app: App;
const request = requestOf(longLoopText);
const gauges = gaugesIn(request.aircraft.gauges.units);

beforeAll(async () => {
  app = await openApp();
  await view(app.page, 'Balance');
});

afterAll(async () => {
  await app.close();
  expect(app.complaints).toEqual([]);
});

describe('the view of the balance', () => {
  it('[WEB-90] says at the Mach asked for whether the centre of gravity stays inside', async () => {
    const { page } = app;
    const aircraft = fuelled(request.aircraft, request.sortie.aircraft);
    for (const mach of [0.75, 2.85]) {
      await page.getByLabel('Mach', { exact: true }).fill(String(mach));
      await page.getByLabel('Mach', { exact: true }).press('Enter');
      const [sentence] = balanceSentences(balanceTable(aircraft, mach, 1000), gauges);
      await page.getByText(plainSpaces(sentence)).waitFor();
    }
    await page.getByText('At M 2.85').first().waitFor();
    await page.getByRole('img', { name: 'Centre of gravity along the flight' }).waitFor();
    await picture(page, 'balance');
  });

  it('[WEB-91] tells what inlets off their schedule cost, flown in the worker', async () => {
    const { page } = app;
    const inlet = inletAsFlown(request);
    if (!inlet) throw new Error('the deck of the demonstration has a table of it');
    for (const leg of inlet.legs) {
      await page.getByText(plainSpaces(inletSentences(inlet, leg, gauges)[0])).waitFor();
    }
    expect(await page.getByText('Inlets off their schedule').count()).toBe(1);
  });
});
