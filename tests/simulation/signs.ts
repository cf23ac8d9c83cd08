import { noticing, onRecord, type EngineBench } from './engineBench.ts';
import { coverWord, note, phaseDeviation, screenShare } from './looks.ts';
import { renewPlanned, signers } from './renewals.ts';
import { chainPercent, hasBelt, hasChain } from './wearPhysics.ts';

/** Codes, disturbances and the shop's answer, one day at a time. */
export function watchForSigns(bench: EngineBench, day: number): void {
  const { random, plan, wear, use } = bench;
  if (use.km <= 0) return;
  if (plan.disturbed) disturb(bench, day);
  if (!noticing(bench, day)) return;
  if (random.chance(1 / 5200)) {
    bench.events.push({
      kind: 'code',
      day,
      code: random.pick(['P0340', 'P0341', 'P0335', 'P0010']),
      status: 'stored',
    });
    bench.events.push({ kind: 'repair', day: day + random.integer(1, 8), works: ['cam_sensor'], note: null });
  }
  if (bench.underWatch || (bench.plan.quietFromDay !== null && day > bench.plan.quietFromDay - 25)) return;
  if (plan.family.engine.phasers > 0) {
    const worn = Math.max(0, wear.phaser - 0.5);
    if (random.chance(0.008 * worn * worn + 0.0009 * Math.max(0, wear.sludge - 3.5))) phaserCode(bench, day);
  }
  if (hasChain(plan.family) && !bench.underWatch) {
    const stretched = Math.max(0, chainPercent(wear) / plan.family.chainEndPercent - 0.8);
    if (random.chance(0.02 * stretched * stretched)) correlationCode(bench, day);
  }
  renewByRule(bench, day);
}

function disturb(bench: EngineBench, day: number): void {
  const { random, plan } = bench;
  if (!bench.ventilation && random.chance(1 / 5000)) bench.ventilation = true;
  if (!bench.thermostat && random.chance(1 / 5500)) bench.thermostat = true;
  if (!bench.ventilation && !bench.thermostat) return;
  bench.disturbedDays++;
  if (!random.chance(1 / 150)) return;
  if (onRecord(bench, day)) {
    const [finding, work] = bench.ventilation
      ? (['ventilation_fault', 'ventilation_valve'] as const)
      : (['thermostat_open', 'thermostat'] as const);
    note(bench, day, finding, 'yes', { note: `site ${plan.place.name}` });
    bench.events.push({ kind: 'repair', day, works: [work], note: null });
  }
  bench.ventilation = bench.thermostat = false;
  bench.disturbedDays = 0;
}

function phaserCode(bench: EngineBench, day: number): void {
  const { random, plan } = bench;
  const second = plan.family.engine.phasers > 2 && random.chance(0.5);
  const code = random.pick(second ? ['P0021', 'P0024', 'P000C'] : ['P0011', 'P0012', 'P0014', 'P000A']);
  bench.events.push({ kind: 'code', day, code, status: random.pick(['stored', 'pending']) });
  bench.underWatch = true;
  bench.pending.push({ day: day + random.integer(2, 16), act: (later) => answerPhaserCode(bench, later) });
}

function answerPhaserCode(bench: EngineBench, day: number): void {
  const { random, wear } = bench;
  bench.underWatch = false;
  if (bench.disposal !== null) return;
  const share = screenShare(bench);
  note(bench, day, 'screen_blocked_share', share.toFixed(2), { bank: '1' });
  if (random.chance(0.4)) note(bench, day, 'cover_view', coverWord(bench));
  if (wear.phaser > 0.75 && random.chance(0.75)) renewPlanned(bench, day, 'phaser');
  else if (share > 0.12)
    bench.events.push({ kind: 'repair', day, works: ['screen_cleaned', 'oil_control_solenoid'], note: null });
  else
    bench.events.push({
      kind: 'repair',
      day,
      works: random.chance(0.5) ? ['oil_control_solenoid'] : ['inspection'],
      note: null,
    });
}

function correlationCode(bench: EngineBench, day: number): void {
  const { random } = bench;
  bench.events.push({ kind: 'code', day, code: random.pick(['P0016', 'P0017']), status: 'stored' });
  bench.underWatch = true;
  bench.pending.push({ day: day + random.integer(1, 6), act: (later) => answerCorrelation(bench, later) });
}

function answerCorrelation(bench: EngineBench, day: number): void {
  const { random, plan, wear } = bench;
  bench.underWatch = false;
  if (bench.disposal !== null) return;
  note(bench, day, 'phase_deviation_crank_deg', String(phaseDeviation(bench)), {
    bank: '1',
    note: 'phaser parked',
  });
  if (chainPercent(wear) > 0.82 * plan.family.chainEndPercent && random.chance(0.85)) {
    renewPlanned(bench, day, 'chain');
    return;
  }
  bench.events.push({
    kind: 'repair',
    day,
    works: ['crank_sensor'],
    note: 'phase within limits, sensor renewed',
  });
  note(bench, day, 'cleared', random.pick(signers), { note: 'phase measured within limits', always: true });
}

/** The shop renews what has run long enough, unless the unit is about to go. */
function renewByRule(bench: EngineBench, day: number): void {
  const { plan, random } = bench;
  if (bench.timingKm < plan.family.renewAtKm) return;
  if (plan.plannedDisposalDay !== null && plan.plannedDisposalDay - day < 300) return;
  if (hasBelt(plan.family)) {
    if (random.chance(0.012)) renewPlanned(bench, day, 'belt');
  } else if (hasChain(plan.family) && random.chance(0.0035)) renewPlanned(bench, day, 'chain');
}
