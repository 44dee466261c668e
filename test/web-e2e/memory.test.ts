/** Thousands of edits leave nothing behind: not in the page, not in the planner. */
import type { CDPSession } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, fingerprint, openApp, settled, view } from './support/app.ts';

/** RAMRISE_LARGE=1 makes ten times as many. */
const rounds = process.env.RAMRISE_LARGE === '1' ? 1000 : 100;
const editsOfRound = 20;

/**
 * One round of edits, four a frame: a slider is moved 14 steps in one gesture, a waypoint 3 by keys, and all of it is undone. Of
 * what is asked for while a plan is made only the last is made, as under a hand; that is waited for.
 */
const round = `
  (async () => {
    let edits = 0;
    const frame = () => (++edits % 4 === 0 ? new Promise(requestAnimationFrame) : Promise.resolve());
    const button = (name) => [...document.querySelectorAll('button')].find((one) => one.textContent.trim() === name);
    const slider = document.querySelectorAll('input[type=range]')[1];
    slider.dispatchEvent(new PointerEvent('pointerdown', { bubbles: true }));
    for (let i = 1; i <= 14; i++) {
      slider.value = String(Number(slider.value) - Number(slider.step));
      slider.dispatchEvent(new Event('input', { bubbles: true }));
      await frame();
    }
    slider.dispatchEvent(new PointerEvent('pointerup', { bubbles: true }));
    const place = document.querySelector('[aria-label^="waypoint Birch"]');
    for (let i = 0; i < 3; i++) {
      place.dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowUp', bubbles: true }));
      await frame();
    }
    while (!button('Undo').disabled) {
      button('Undo').click();
      await frame();
    }
    while (document.querySelector('main').ariaBusy === 'true') await new Promise(requestAnimationFrame);
    return edits;
  })()`;

let app: App;

beforeAll(async () => {
  app = await openApp();
  await view(app.page, 'Map');
  await app.page.getByRole('slider').first().waitFor();
});

afterAll(() => app.close());

/** The planner's own connection to the debugger, through that of the page. */
async function planner(session: CDPSession) {
  const attached = new Promise<string>((found) => {
    session.on('Target.attachedToTarget', ({ sessionId, targetInfo }) => {
      if (targetInfo.type === 'worker') found(sessionId);
    });
  });
  await session.send('Target.setAutoAttach', {
    autoAttach: true,
    waitForDebuggerOnStart: false,
    flatten: false,
  });
  const sessionId = await attached;
  let asked = 0;
  return async (method: string): Promise<{ usedSize: number }> => {
    const id = ++asked;
    const answer = new Promise<{ usedSize: number }>((found) => {
      session.on('Target.receivedMessageFromTarget', ({ message }) => {
        const read = JSON.parse(message) as { id: number; result: { usedSize: number } };
        if (read.id === id) found(read.result);
      });
    });
    await session.send('Target.sendMessageToTarget', { sessionId, message: JSON.stringify({ id, method }) });
    return answer;
  };
}

describe('many edits', () => {
  it('[WEB-60] leave the heaps of page and planner as they were, within 5 %', async () => {
    const { page } = app;
    const session = await page.context().newCDPSession(page);
    const ofPlanner = await planner(session);
    const heaps = async () => {
      // What the planner lets go of frees what the page keeps for it.
      for (let i = 0; i < 3; i++) {
        await ofPlanner('HeapProfiler.collectGarbage');
        await page.waitForTimeout(300);
        await session.send('HeapProfiler.collectGarbage');
      }
      const { usedSize } = await session.send('Runtime.getHeapUsage');
      return [usedSize, (await ofPlanner('Runtime.getHeapUsage')).usedSize];
    };
    /** What the map shows of the reach is flown last. */
    const rested = async () => {
      await settled(page);
      await page.locator('#reach-none').waitFor();
      await page.getByText('Reach of the last plan or moment').waitFor({ state: 'detached' });
    };
    const first = await fingerprint(page);
    // Until the browser has compiled what runs often: the heaps grow by 4 % for it and stand still from then on.
    for (let i = 0; i < 50; i++) await page.evaluate(round);
    await rested();
    const before = await heaps();
    let edits = 0;
    for (let i = 0; i < rounds; i++) edits += await page.evaluate<number>(round);
    await rested();
    const after = await heaps();
    expect(edits).toBeGreaterThanOrEqual(rounds * editsOfRound);
    expect(await fingerprint(page)).toBe(first);
    before.forEach((bytes, i) => {
      expect(after[i] / bytes, ['page', 'planner'][i]).toBeLessThan(1.05);
    });
    expect(app.complaints).toEqual([]);
  }, 3_600_000);
});
