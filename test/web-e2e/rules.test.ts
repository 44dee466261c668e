/** The views of the rules of the day, of the tankers and of times: what is shown is what the core works out of the same files. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makePlan } from '../../src/core/plan/make-plan.ts';
import { rulesOf } from '../../src/core/plan/rules.ts';
import { tankerMatrix } from '../../src/core/plan/tanker-cases.ts';
import { crewSentences } from '../../src/present/crew.ts';
import { ruleSentences } from '../../src/present/rules.ts';
import { startDownSentences } from '../../src/present/start-down.ts';
import { tankersTable } from '../../src/present/tankers.ts';
import { timingSentence } from '../../src/present/timing.ts';
import { gaugesIn, plainSpaces } from '../../src/present/units.ts';
import { longLoopText, requestOf } from '../support/demo.ts';
import { type App, openApp, picture, view, words } from './support/app.ts';

let app: App;
const request = requestOf(longLoopText);
const gauges = gaugesIn(request.aircraft.gauges.units);

beforeAll(async () => {
  app = await openApp();
});

afterAll(async () => {
  await app.close();
  expect(app.complaints).toEqual([]);
});

const main = () => app.page.getByRole('main');

describe('the views of what goes otherwise', () => {
  it('[WEB-110] tell the rules of the day in the words of the command line, with a row for each driver', async () => {
    await view(app.page, 'Rules');
    const rules = rulesOf(request);
    for (const text of ruleSentences(rules, gauges)) {
      await main().getByText(plainSpaces(text), { exact: true }).waitFor();
    }
    const table = app.page.getByRole('region', { name: 'Cost of each driver' });
    expect(await table.getByRole('row').count()).toBe(1 + rules.drivers.length);
    await picture(app.page, 'rules');
  });

  it('[WEB-111] show each tanker in trouble, and two at a time when asked', async () => {
    await view(app.page, 'Tankers');
    const { rows } = tankersTable(tankerMatrix(request, { pairs: true }), gauges);
    const table = app.page.getByRole('region', { name: 'Tankers in trouble' });
    await table.waitFor();
    expect(await table.getByRole('row').count()).toBe(1 + 6);
    await app.page.getByRole('button', { name: 'Two at a time' }).click();
    await table.getByText(rows[rows.length - 1][0].replaceAll('\u00a0', ' ')).waitFor();
    const shown = await table.getByRole('row').all();
    expect(shown).toHaveLength(1 + rows.length);
    for (const [i, row] of rows.entries()) {
      const cells = await shown[i + 1].getByRole('cell').allTextContents();
      expect(cells.map((cell) => plainSpaces(cell))).toEqual(row.map((cell) => plainSpaces(cell)));
    }
    await picture(app.page, 'tankers');
  });

  it('[WEB-112] show where to start down, what is won or lost of time, and the clock of the crew', async () => {
    await view(app.page, 'Times');
    await main().locator('table').first().waitFor();
    const plan = makePlan(request);
    const text = plainSpaces(await words(main()));
    const said = [
      ...plan.startDowns.map((table) => startDownSentences(plan, table)[0]),
      ...plan.timings.map(timingSentence),
      ...crewSentences(plan),
    ];
    expect(said.length).toBeGreaterThan(6);
    for (const sentence of said) expect(text).toContain(plainSpaces(sentence));
    await picture(app.page, 'times');
  });
});
