/** The view of the manoeuvres: what is shown is what the core judges of the same files. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { answerManoeuvre } from '../../src/core/plan/manoeuvre-question.ts';
import { judgedSentences } from '../../src/present/manoeuvre.ts';
import { gaugesIn, plainSpaces } from '../../src/present/units.ts';
import { longLoopText, requestOf } from '../support/demo.ts';
import { type App, openApp, picture, view } from './support/app.ts';

let app: App;
const request = requestOf(longLoopText);

beforeAll(async () => {
  app = await openApp();
  await view(app.page, 'Manoeuvre');
});

afterAll(async () => {
  await app.close();
  expect(app.complaints).toEqual([]);
});

describe('the view of the manoeuvres', () => {
  it('[WEB-100] judges what is typed, and says what a value without its unit lacks', async () => {
    const { page } = app;
    await page.getByLabel('Bank').fill('60 deg');
    await page.getByLabel('Bank').press('Enter');
    const answer = answerManoeuvre(request, {
      pressureAltitudeM: 3000 * 0.3048,
      speed: { key: 'calibratedAirspeedMS', si: (250 * 1852) / 3600 },
      fuelKg: 30_000,
      bankRad: Math.PI / 3,
      loadFactor: null,
      place: null,
      timeS: null,
      groundM: null,
    });
    if (!('judged' in answer)) throw new Error('a bank asks for a manoeuvre that is judged');
    const [verdict] = judgedSentences(answer.judged, gaugesIn(request.aircraft.gauges.units));
    await page.getByText(plainSpaces(verdict)).waitFor();
    const drawn = page.getByRole('img', { name: /Load factor against speed, 30/ });
    await drawn.waitFor();
    for (const name of ['warning', 'push', 'structure', 'structure, rolling', 'held to', 'thrust', 'asked']) {
      expect(await drawn.getByText(name, { exact: true }).count()).toBe(1);
    }
    await picture(page, 'manoeuvre');
    await page.getByLabel('Speed').fill('250 kt');
    await page.getByLabel('Speed').press('Enter');
    await page.getByText('KCAS', { exact: false }).first().waitFor();
  });

  it('[WEB-101] has a row for each turn of the plan', async () => {
    const { page } = app;
    const turns = page.getByRole('region', { name: 'Turns where they come nearest' });
    await turns.getByText('Alder').first().waitFor();
    expect(await turns.getByRole('row').count()).toBeGreaterThan(4);
  });
});
