/** What takes long can be ended, and what fails is begun again and said. */
import type { Worker } from 'playwright-core';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type App, fingerprint, openApp, replanned, settled, view, words } from './support/app.ts';
import { demonstration } from './support/planned.ts';

let app: App;

beforeEach(async () => {
  app = await openApp();
});

afterEach(() => app.close());

const button = (name: string) => app.page.getByRole('button', { name, exact: true });
const notice = () => app.page.getByRole('status').first();

/** Moves the first slider a step, without waiting. */
async function edit(key = 'ArrowLeft'): Promise<void> {
  await view(app.page, 'Map');
  await app.page.getByRole('slider', { name: 'Fuel at take-off' }).press(key);
}

/** The planner begins once the first screen is drawn. */
async function planner(): Promise<Worker> {
  return app.page.workers()[0] ?? app.page.waitForEvent('worker');
}

/** Lets an error that nothing catches happen in the planner. */
async function breakPlanner(): Promise<void> {
  await (await planner()).evaluate("setTimeout(() => { throw new Error('made by the test'); })");
}

/** Lets two seconds pass between the stages of each plan, until the planner is begun again. */
async function slowPlanner(): Promise<void> {
  await (await planner()).evaluate(`
    self.MessageChannel = class extends MessageChannel {
      constructor() {
        super();
        const post = this.port2.postMessage.bind(this.port2);
        this.port2.postMessage = (message) => setTimeout(post, 2000, message);
      }
    };`);
}

describe('the planner', () => {
  it('[WEB-40] is begun again after a failure, says so, and plans as before', async () => {
    const { page } = app;
    await edit();
    const first = await replanned(page, demonstration().plan.fingerprint);
    await breakPlanner();
    await notice().filter({ hasText: 'made by the test' }).waitFor();
    expect(await words(notice())).toContain('started again');
    await edit('ArrowRight');
    expect(await replanned(page, first)).toBe(demonstration().plan.fingerprint);
    await edit();
    expect(await replanned(page, demonstration().plan.fingerprint)).toBe(first);
  });

  it('[WEB-41] makes the plan that was asked for when it failed', async () => {
    const { page } = app;
    await edit();
    await breakPlanner();
    const { plan } = demonstration();
    expect(await replanned(page, plan.fingerprint)).not.toBe(plan.fingerprint);
  });

  it('[WEB-43] is begun again where planning itself fails, and says so', async () => {
    const { page } = app;
    await (await planner()).evaluate(`
      self.MessageChannel = class { constructor() { throw new Error('within a plan'); } };`);
    await edit();
    await notice().filter({ hasText: 'within a plan' }).waitFor();
    const { plan } = demonstration();
    expect(await replanned(page, plan.fingerprint)).not.toBe(plan.fingerprint);
  });

  it('[WEB-42] is ended where it takes long; what is not of the new plan yet is hatched until it is made', async () => {
    const { page } = app;
    await slowPlanner();
    await edit();
    await button('Cancel').click();
    await settled(page);
    expect(await button('Cancel').count()).toBe(0);
    await page.getByText('Hatched: of the last plan.').waitFor();
    const first = await fingerprint(page);
    await edit('ArrowRight');
    expect(await replanned(page, first)).toBe(demonstration().plan.fingerprint);
    expect(await page.getByText('Hatched: of the last plan.').count()).toBe(0);
    await app.page.getByRole('button', { name: 'Undo' }).click();
    expect(await replanned(page, demonstration().plan.fingerprint)).toBe(first);
  });
});
