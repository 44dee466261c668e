/** The deck and the weather of the sortie: what is shown is what the core computes of the same files. */
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { curvesOf } from '../../src/core/aircraft/curves.ts';
import { airColumn } from '../../src/core/plan/air-column.ts';
import type { Plan } from '../../src/core/plan/plan.ts';
import { loadDeck } from '../../src/files/deck.ts';
import { deckFolder } from '../../src/files/deck-folder.ts';
import { thrustFigure } from '../../src/present/chart/deck-power.ts';
import { columnSentence } from '../../src/present/chart/weather-column.ts';
import { momentAt } from '../../src/present/moment.ts';
import { PAPER } from '../../src/present/theme.ts';
import { gaugesIn, gaugesOf, plainSpaces } from '../../src/present/units.ts';
import { atCursor } from '../../src/web/views/aircraft/chosen.ts';
import { longLoopText, requestOf } from '../support/demo.ts';
import { type App, openApp, picture, root, view } from './support/app.ts';
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

async function enter(label: string, text: string): Promise<void> {
  await app.page.getByLabel(label).fill(text);
  await app.page.getByLabel(label).press('Enter');
}

describe('the view of the aircraft', () => {
  beforeAll(() => view(app.page, 'Aircraft'));

  it('[WEB-80] says what the deck is and that it is sane', async () => {
    const { page } = app;
    await page.getByRole('heading', { name: 'Sandmartin, edition 1' }).waitFor();
    await page.getByText('No faults, no doubts in the deck.').waitFor();
    expect(await page.getByRole('figure').count()).toBe(10);
    await picture(page, 'aircraft');
  });

  it('[WEB-81] draws the tables at the altitude, offset, fuel and power that are asked for', async () => {
    const { page } = app;
    await enter('Altitude', '60000');
    await enter('Off standard', '5');
    await enter('Fuel on board', '10000');
    await page.getByLabel('Power').selectOption('military');
    const { deck, aircraft } = loadDeck(deckFolder(join(root, 'decks', 'sandmartin')));
    const at = { pressureAltitudeM: 60_000 * 0.3048, temperatureOffsetK: 5, power: 2, fuelKg: 10_000 };
    const look = { theme: PAPER, width: 500 };
    const { table, note } = thrustFigure(curvesOf(deck, aircraft, at), gaugesIn(deck.gauges.units), look);
    await page.locator('figcaption', { hasText: plainSpaces(note) }).waitFor();
    await page.getByText('Thrust of all engines as a table').click();
    const cells = page.getByRole('region', { name: 'Thrust of all engines' }).locator('tbody td');
    await cells.first().waitFor();
    expect(await cells.allTextContents()).toEqual(table.rows.flat());
  });

  it('[WEB-82] says of a number that cannot be why not, and keeps what is shown', async () => {
    const { page } = app;
    await enter('Off standard', '80');
    await page.getByText(/temperature offset 80 K/).waitFor();
    await enter('Off standard', '0');
    await page.locator('figcaption', { hasText: 'on the standard day' }).first().waitFor();
  });
});

describe('the view of the weather', () => {
  beforeAll(() => view(app.page, 'Weather'));

  it('[WEB-83] reads the column under the flight at the cursor', async () => {
    const { page } = app;
    for (let ten = 1; ten <= 9; ten++) await page.getByRole('button', { name: '10 min later' }).click();
    const { day, sortie } = requestOf(longLoopText);
    const { latitudeDeg, longitudeDeg } = momentAt(plan, 5400);
    const place = {
      latitudeRad: (latitudeDeg * Math.PI) / 180,
      longitudeRad: (longitudeDeg * Math.PI) / 180,
    };
    const flownM = atCursor(plan, 5400).pressureAltitudeM;
    const column = airColumn(day, place, sortie.takeOff.timeS + 5400, flownM + 1500, [flownM]);
    await page.getByText(columnSentence(column, flownM, gaugesOf(plan))).waitFor();
    await picture(page, 'weather');
  });

  it('[WEB-84] holds what the file holds, and prints whom it is owed to', async () => {
    const { page } = app;
    await page
      .getByRole('cell', { name: '1000 hPa to 1 hPa, pressure altitude 364 ft to 156890 ft' })
      .waitFor();
    for (const text of plan.weather.attribution)
      await page.getByRole('main').getByText(text).first().waitFor();
  });

  it('[WEB-85] goes to a place that is typed, and says where there is no weather', async () => {
    const { page } = app;
    await enter('Another place', '20N 40W');
    await page.getByText(/There is no weather at 20\.00N 040\.00W/).waitFor();
    await enter('Another place', '20 40');
    await page.getByText(/20 40/).waitFor();
    await page.getByRole('button', { name: 'Under the flight' }).click();
    await page.getByText(/^At the height flown/).waitFor();
  });
});
