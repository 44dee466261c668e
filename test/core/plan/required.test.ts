/** Fuel required is what it is said to be: the rest is flown with it, from places that the plan did not fly from. */
import { describe, expect, it } from 'vitest';
import { inverse } from '../../../src/core/earth/line.ts';
import type { Variation } from '../../../src/core/flight/setup.ts';
import { crewOf, draft, requiredOf } from '../../../src/core/plan/draft.ts';
import { LegFlyer } from '../../../src/core/plan/leg-flyer.ts';
import { copyProgress, newProgress, type Progress } from '../../../src/core/plan/log.ts';
import { recoveryFrom } from '../../../src/core/plan/required.ts';
import { fuelOf } from '../../../src/core/plan/sortie-flyer.ts';
import { longLoopText, requestOf } from '../../support/demo.ts';

const request = requestOf(longLoopText);

function required(variation?: Partial<Variation>) {
  const crew = crewOf(request, variation);
  const drafted = draft(crew);
  return { ...drafted, ...requiredOf(drafted) };
}

const plan = required();
const { crew, log, flown, requiredKg, recoveries } = plan;
const { columns } = log;
const zeroFuelKg = crew.flight.setup.zeroFuelMassKg;

/** What has to arrive at the end of a leg: what the divert needs, or reserve and approach of the sortie file. */
const wantedKg = (leg: number): number => recoveries.find((r) => r.leg === leg)?.fuelRequiredKg ?? 2000 + 400;

/** A place on a leg at a node of a climb or cruise, built from the trace alone. */
function progressAt(node: number): Progress {
  const { leg, name, kind } = log.phases[log.phaseOf[node]];
  const progress = newProgress();
  progress.leg = leg;
  progress.track = log.turns.filter(
    (turn) => turn.leg === leg && turn.endS <= columns.timeS[node] + 1e-6,
  ).length;
  progress.step = request.sortie.legs[leg].fly.findIndex((step) =>
    kind === 'cruise'
      ? step.kind === 'cruise'
      : name.startsWith('Climb at EAS') && step.kind === 'climb' && step.mach > 1,
  );
  const track = flown.legs[leg].route.tracks[progress.track];
  const start = {
    latitudeRad: 0,
    longitudeRad: 0,
    courseRad: 0,
    sinLatitude: 0,
    cosLatitude: 1,
    sinCourse: 0,
    cosCourse: 1,
  };
  track.at(0, start);
  const here = { latitudeRad: columns.latitudeRad[node], longitudeRad: columns.longitudeRad[node] };
  const { state } = progress;
  state.timeS = columns.timeS[node];
  state.distanceM = inverse(start, here).distanceM;
  state.pressureAltitudeM = columns.pressureAltitudeM[node];
  state.trueAirspeedMS = columns.trueAirspeedMS[node];
  state.massKg = columns.massKg[node];
  return progress;
}

/** Fuel that arrives when the rest of the leg is flown from a place with some fuel. */
function arrives(from: Readonly<Progress>, fuelKg: number): number {
  const progress = newProgress();
  copyProgress(from, progress);
  progress.state.massKg = zeroFuelKg + fuelKg;
  const { route, decisions } = flown.legs[from.leg];
  const stopped = new LegFlyer(crew, request.sortie.legs[from.leg], route, decisions, null).fly(progress);
  expect(stopped).toBe(null);
  return fuelOf(crew, progress);
}

const answered = new Set(log.anchors.map((anchor) => anchor.node));
const places = log.phaseOf.flatMap((phase, node) => {
  const { kind, leg, name } = log.phases[phase];
  const climb = name.startsWith('Climb at EAS') && columns.loadFactor[node] > 0.95;
  const usable = leg > 0 && (kind === 'cruise' || climb) && !answered.has(node);
  return usable && node % 3 === 0 ? [node] : [];
});

describe('fuel required', () => {
  it('[FUEL-1] between the places it was solved at, the rest flown with it arrives with what is needed', () => {
    expect(places.length).toBeGreaterThan(40);
    expect(new Set(places.map((node) => log.phases[log.phaseOf[node]].leg)).size).toBe(2);
    for (const node of places) {
      const from = progressAt(node);
      const end = arrives(from, requiredKg[node]);
      const over = end - wantedKg(from.leg);
      expect(over, `${columns.timeS[node]} s`).toBeGreaterThan(-20);
      expect(over, `${columns.timeS[node]} s`).toBeLessThan(40);
    }
  });

  it('[FUEL-2] one per cent more is enough, one per cent less is not', () => {
    for (const node of places.filter((_, i) => i % 9 === 0)) {
      const from = progressAt(node);
      expect(arrives(from, 1.01 * requiredKg[node])).toBeGreaterThan(wantedKg(from.leg));
      expect(arrives(from, 0.99 * requiredKg[node])).toBeLessThan(wantedKg(from.leg));
    }
  });

  it('[FUEL-3] the divert of a contact without fuel, flown with what is required, lands with the reserve', () => {
    for (const recovery of recoveries) {
      const { end } = request.sortie.legs[recovery.leg];
      if (end.kind !== 'contact') throw new Error('a leg with a recovery ends in a contact');
      const leg = flown.legs[recovery.leg];
      const at = newProgress();
      copyProgress(leg.end, at);
      at.state.massKg = zeroFuelKg + recovery.fuelRequiredKg;
      const flownWith = { ...leg, end: at, endFuelKg: recovery.fuelRequiredKg };
      const again = recoveryFrom(crew, end, flownWith, recovery.leg);
      expect(Math.abs(again.fuelOnLandingKg - 2000), recovery.name).toBeLessThan(20);
      expect(Math.abs(again.fuelRequiredKg - recovery.fuelRequiredKg), recovery.name).toBeLessThan(10);
    }
  });

  it('[FUEL-4] at a contact, and until the disconnect, it is what the divert needs; at the end reserve and approach', () => {
    for (const { leg, fuelRequiredKg } of recoveries) {
      const inContact = log.phaseOf.flatMap((phase, node) =>
        log.phases[phase].leg === leg && log.phases[phase].kind === 'contact' ? [node] : [],
      );
      expect(inContact.length).toBeGreaterThan(5);
      for (const node of inContact.slice(0, -1)) expect(requiredKg[node]).toBeCloseTo(fuelRequiredKg, 6);
    }
    expect(requiredKg[log.nodes - 1]).toBeCloseTo(2400, 3);
    expect(flown.landingFuelKg).toBeGreaterThan(2000);
  });

  it('[FUEL-5] is known everywhere from lift-off, falls along a leg, and is less than what is on board', () => {
    for (let node = 0; node < log.nodes; node++) {
      expect(requiredKg[node], `${columns.timeS[node]} s`).toBeGreaterThan(0);
      expect(requiredKg[node], `${columns.timeS[node]} s`).toBeLessThan(columns.fuelKg[node]);
      const within = node > 0 && log.phases[log.phaseOf[node]].kind !== 'contact';
      if (within && log.phases[log.phaseOf[node - 1]].kind !== 'contact') {
        expect(requiredKg[node], `${columns.timeS[node]} s`).toBeLessThan(requiredKg[node - 1] + 0.1);
      }
    }
  });

  it('[FUEL-6] is more with more drag and with more fuel flow', () => {
    for (const variation of [{ dragFactor: 1.005 }, { fuelFlowFactor: 1.005 }]) {
      const more = required(variation);
      recoveries.forEach((recovery, i) => {
        expect(more.recoveries[i].fuelRequiredKg).toBeGreaterThan(recovery.fuelRequiredKg + 2);
      });
      const disconnect = (of: typeof plan): number => {
        const { timeS } = of.log.events.filter((event) => event.kind === 'disconnect')[0];
        return of.requiredKg[of.log.columns.timeS.findIndex((time) => time > timeS + 1)];
      };
      // 0.5 % of the 24 000 kg of the leg, less the fuel that the lighter start saves.
      expect(disconnect(more) - disconnect(plan)).toBeGreaterThan(60);
    }
  });
});
