/** The views of contacts and of the acceleration: what is shown is what the core computes of the same files. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { accelerationOf } from '../../src/core/plan/acceleration.ts';
import { accelerationSentences } from '../../src/present/acceleration.ts';
import { contactSentences } from '../../src/present/contact.ts';
import { plainSpaces } from '../../src/present/units.ts';
import { longLoopText, requestOf } from '../support/demo.ts';
import { type App, openApp, picture, view } from './support/app.ts';
import { demonstration } from './support/planned.ts';

let app: App;

beforeAll(async () => {
  app = await openApp();
});

afterAll(async () => {
  await app.close();
  expect(app.complaints).toEqual([]);
});

it('[WEB-120] the contacts say where thrust ends and which burner to light when', async () => {
  const { page } = app;
  const { plan } = demonstration();
  await view(page, 'Contact');
  for (const study of plan.contacts) {
    const part = page.getByRole('region', { name: study.tanker, exact: true });
    for (const text of contactSentences(plan, study)) await part.getByText(plainSpaces(text)).waitFor();
    expect(await part.locator('figure').count()).toBe(2);
    expect(await part.getByText('lights late').count()).toBe(1);
  }
  await picture(page, 'contact');
});

it('[WEB-121] the acceleration says the heading and the push of least fuel of each leg', async () => {
  const { page } = app;
  const { plan } = demonstration();
  await view(page, 'Acceleration');
  for (const leg of accelerationOf(requestOf(longLoopText))) {
    const part = page.getByRole('region', { name: leg.name, exact: true });
    for (const text of accelerationSentences(leg, plan)) {
      await part.getByText(plainSpaces(text)).first().waitFor();
    }
  }
});
