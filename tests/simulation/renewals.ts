import type { WorkKind } from '../../models/schema/service.ts';
import { refill } from './drains.ts';
import { noticing, onRecord, type EngineBench } from './engineBench.ts';
import { note } from './looks.ts';
import type { Component } from './truth.ts';
import { chainPercent } from './wearPhysics.ts';

/** Names that the shop signs with; invented. */
export const signers = ['Ines R.', 'Tobin K.', 'Maud S.', 'Oskar V.', 'Petra L.'] as const;

/** What the shop renews for a component. */
export function worksFor(
  component: Component,
  outcome: 'planned' | 'failed',
  bench: EngineBench,
): readonly WorkKind[] {
  const { random, plan } = bench;
  const wrecked = outcome === 'failed' && plan.family.engine.interference;
  if (component === 'belt')
    return wrecked && random.chance(0.3) ? ['engine'] : ['belt', 'oil_change', 'filter'];
  if (component === 'chain') {
    if (wrecked && random.chance(0.2)) return ['engine'];
    const withPhaser = plan.family.engine.phasers > 0 && random.chance(0.45);
    return withPhaser
      ? ['timing_set', 'phaser', 'oil_change', 'filter']
      : ['timing_set', 'oil_change', 'filter'];
  }
  return random.chance(0.15) && plan.family.engine.timingDrive === 'chain'
    ? ['timing_set', 'phaser', 'oil_change', 'filter']
    : ['phaser', 'oil_change', 'filter'];
}

/** Renews parts: their wear begins anew, the oil is fresh, the unit stands for a while. */
export function renew(
  bench: EngineBench,
  day: number,
  component: Component,
  outcome: 'planned' | 'failed',
  works: readonly WorkKind[],
  gone = false,
): void {
  const { engine } = bench.plan.family;
  const { random, wear } = bench;
  const usual = outcome === 'failed' ? engine.unplannedDowntimeDays : (engine.plannedDowntimeDays ?? 2);
  const downDays = Math.max(1, Math.round(usual * random.logNormal(0.25)));
  const disposed = gone || (outcome === 'failed' && givesUp(bench, day));
  bench.events.push({ kind: 'renewal', day, component, works, outcome, disposed, downDays });
  if (disposed) {
    bench.disposal = { day: day + random.integer(5, 25), reason: 'timing failure, not worth the repair' };
    bench.standFor(60);
    return;
  }
  if (works.includes('timing_set') || works.includes('engine')) {
    wear.chainLasting = 0;
    wear.chainHours = 0;
    bench.timingKm = 0;
  }
  // the front cover and the pan were off: loose deposits went out with them
  wear.sludge *= 0.6;
  if (works.includes('phaser') || works.includes('engine')) wear.phaser = 0;
  if (works.includes('belt') || works.includes('engine')) {
    wear.belt = 0;
    bench.timingKm = 0;
  }
  if (works.includes('engine')) wear.sludge = 0;
  refill(bench);
  bench.standFor(downDays);
  bench.underWatch = false;
}

function givesUp(bench: EngineBench, day: number): boolean {
  const { plan, random } = bench;
  if (!onRecord(bench, day) || plan.scripted.length > 0) return false;
  const old = day - plan.inServiceDay > 9 * 365;
  const leavingSoon = plan.plannedDisposalDay !== null && plan.plannedDisposalDay - day < 200;
  return (old || leavingSoon) && random.chance(0.45);
}

/** A failure in service, with what was noticed on the day. */
export function failInService(bench: EngineBench, day: number, component: Component): void {
  const works = worksFor(component, 'failed', bench);
  if (noticing(bench, day) && bench.random.chance(0.6)) {
    bench.events.push({ kind: 'code', day, code: codeOf(component, bench), status: 'stored' });
    if (component !== 'belt') note(bench, day, 'start_rattle_s', '7', { soakH: 10, note: 'did not go away' });
    const signer = bench.random.pick(signers);
    bench.pending.push({
      day: day + bench.plan.family.engine.unplannedDowntimeDays + 6,
      act: (later) =>
        note(bench, later, 'cleared', signer, { note: 'repaired and road tested', always: true }),
    });
  }
  renew(bench, day, component, 'failed', works);
}

function codeOf(component: Component, bench: EngineBench): string {
  if (component === 'phaser') return bench.random.pick(['P0011', 'P0012', 'P0014', 'P000A']);
  return bench.random.pick(['P0016', 'P0017']);
}

/** A renewal decided by the shop; the old chain is measured while it lies on the bench. */
export function renewPlanned(bench: EngineBench, day: number, component: Component): void {
  const percent = chainPercent(bench.wear) + 0.02 * bench.random.normal();
  const works = worksFor(component, 'planned', bench);
  if (component === 'chain' && bench.random.chance(0.7))
    note(
      bench,
      day - 1,
      'chain_elongation_percent',
      String(Math.max(0.01, Math.round(100 * percent) / 100)),
      {
        note: 'old chain, 24 links under load',
      },
    );
  renew(bench, day, component, 'planned', works);
  if (component === 'chain') {
    const signer = bench.random.pick(signers);
    bench.pending.push({
      day: day + 2,
      act: (later) =>
        note(bench, later, 'cleared', signer, { note: 'timing renewed, marks checked', always: true }),
    });
  }
}
