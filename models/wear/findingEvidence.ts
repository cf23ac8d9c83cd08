import type { Coefficients } from '../schema/coefficient.ts';
import { dayFromIso } from '../schema/day.ts';
import type { Engine } from '../schema/engine.ts';
import { coverViews } from '../schema/finding.ts';
import type { CoverView, Finding } from '../schema/finding.ts';
import type { Sourced, UnitHistory } from '../schema/history.ts';
import type { Evidence } from './evidence.ts';
import { latent } from './latents.ts';
import { crankDegreesPerPercent, driveOfEngine } from './phaseGeometry.ts';
import type { ChainLimit } from './phaseGeometry.ts';
import { bankOf } from './renewals.ts';
import type { Trajectory } from './trajectory.ts';

/** A number written in a finding's value: `0.4`, `40 %` (as 40), `1,5`; null when there is none. */
export function findingNumber(value: string | null): number | null {
  if (value === null) return null;
  const found = /-?\d+(?:[.,]\d+)?/.exec(value);
  if (found === null) return null;
  const number = Number(found[0].replace(',', '.'));
  return Number.isFinite(number) ? number : null;
}

/** A share written as 0..1 or as per cent (`0.4`, `40`, `40 %`); null when it is neither. */
export function findingShare(value: string | null): number | null {
  const number = findingNumber(value);
  if (number === null || number < 0) return null;
  const share = number > 1 || (value ?? '').includes('%') ? number / 100 : number;
  return share <= 1 ? share : null;
}

/** Whether a yes/no finding says yes; empty counts as yes, since the finding itself was recorded. */
export function findingYes(value: string | null): boolean {
  return value === null || !/^\s*(no|false|0|negative|none|n)\b/i.test(value);
}

/** Chain elongation of a bank; the worse of both where the bank is not told. */
export function chainOf(states: Trajectory, segment: number, bank: string | null): number {
  if (bank === '1') return states.chain1[segment];
  if (bank === '2') return states.chain2[segment];
  return Math.max(states.chain1[segment], states.chain2[segment]);
}

/** Phaser wear of a bank; the worse of both where the bank is not told. */
export function phaserOf(states: Trajectory, segment: number, bank: string | null): number {
  if (bank === '1') return states.phaser1[segment];
  if (bank === '2') return states.phaser2[segment];
  return Math.max(states.phaser1[segment], states.phaser2[segment]);
}

/** What the builders of evidence need of a unit. */
export interface EvidenceSetting {
  readonly engine: Engine | null;
  readonly chainLimit: ChainLimit | null;
  readonly hasPhaser: boolean;
  readonly coefficients: Coefficients;
  /** segment that ends on a day; -1 when the day lies outside */
  readonly segmentAt: (day: number) => number;
}

/** The findings of a unit as evidence; those outside the timeline or without a readable value are left out. */
export function findingEvidence(history: UnitHistory, setting: EvidenceSetting): readonly Evidence[] {
  const found: Evidence[] = [];
  for (const finding of history.findings) {
    const segment = setting.segmentAt(dayFromIso(finding.foundOn));
    if (segment < 0) continue;
    const evidence = evidenceOf(finding, segment, setting);
    if (evidence !== null) found.push(evidence);
  }
  return found;
}

function evidenceOf(finding: Sourced<Finding>, segment: number, setting: EvidenceSetting): Evidence | null {
  switch (finding.finding) {
    case 'cover_view':
      return coverEvidence(finding, segment, setting);
    case 'screen_blocked_share':
      return screenEvidence(finding, segment, setting);
    case 'phase_deviation_crank_deg':
      return phaseEvidence(finding, segment, setting);
    case 'chain_elongation_percent':
      return elongationEvidence(finding, segment, setting);
    case 'start_rattle_s':
      return rattleEvidence(finding, segment, setting);
    case 'hot_idle_pressure_kpa':
      return pressureEvidence(finding, segment, setting);
    default:
      return null;
  }
}

function base(
  finding: Sourced<Finding>,
  segment: number,
): Pick<Evidence, 'day' | 'segment' | 'recordId' | 'bank' | 'teaches'> {
  return {
    day: dayFromIso(finding.foundOn),
    segment,
    recordId: finding.source.id,
    bank: bankOf(finding.bank),
    // a rattle is written down when it is heard
    teaches: finding.finding === 'start_rattle_s' ? 'unit' : 'looks',
  };
}

function coverEvidence(finding: Sourced<Finding>, segment: number, s: EvidenceSetting): Evidence | null {
  const word = coverViews.find((view) => view === finding.value?.trim().toLowerCase());
  if (word === undefined) return null;
  const observed = 10 - s.coefficients[`evidence.cover_merit.${word}`];
  return {
    ...base(finding, segment),
    state: 'sludge',
    words: `view under the cover: ${word}`,
    observed,
    likelihood: {
      kind: 'between',
      ...coverBounds(word, s.coefficients),
      sd: s.coefficients['evidence.cover_sd'],
    },
    expect: (states) => states.sludge[segment],
  };
}

/** The span of sludge that a word stands for: half way to its neighbours, open at both ends. */
function coverBounds(word: CoverView, c: Coefficients): { from: number; to: number } {
  const place = coverViews.indexOf(word);
  const sludge = (index: number): number => 10 - c[`evidence.cover_merit.${coverViews[index]}`];
  return {
    from: place === 0 ? Number.NEGATIVE_INFINITY : (sludge(place - 1) + sludge(place)) / 2,
    to: place === coverViews.length - 1 ? Number.POSITIVE_INFINITY : (sludge(place) + sludge(place + 1)) / 2,
  };
}

function screenEvidence(finding: Sourced<Finding>, segment: number, s: EvidenceSetting): Evidence | null {
  const share = findingShare(finding.value);
  if (share === null) return null;
  const { coefficients: c } = s;
  const sludgeAt = (blocked: number): number =>
    c['evidence.screen_scale'] * Math.pow(blocked, c['evidence.screen_exponent']);
  const observed = sludgeAt(share);
  const least = c['evidence.screen_least_share'];
  return {
    ...base(finding, segment),
    state: 'sludge',
    words: `screen ${Math.round(share * 100)} % blocked`,
    observed,
    // a clear screen says only that there is less than can be seen
    likelihood:
      share <= least
        ? {
            kind: 'between',
            from: Number.NEGATIVE_INFINITY,
            to: sludgeAt(least),
            sd: c['evidence.screen_sd'],
          }
        : { kind: 'measured', value: observed, sd: c['evidence.screen_sd'] },
    expect: (states) => states.screen[segment],
    stateOf: (states) => states.screen[segment],
  };
}

function phaseEvidence(finding: Sourced<Finding>, segment: number, s: EvidenceSetting): Evidence | null {
  const degrees = findingNumber(finding.value);
  if (degrees === null || s.chainLimit === null) return null;
  const { coefficients } = s;
  const drive = driveOfEngine(s.engine);
  const perPercent = drive === null ? coefficients['evidence.phase_default'] : crankDegreesPerPercent(drive);
  const noise = coefficients['evidence.phase_noise_sd'];
  // without the drive's measures the degrees per per cent are themselves uncertain
  const doubt = drive === null ? coefficients['evidence.phase_default_log_sd'] * Math.abs(degrees) : 0;
  const shared = base(finding, segment);
  const bias = shared.bank === '2' ? latent.phaseBias2 : latent.phaseBias1;
  return {
    ...shared,
    state: 'chain',
    words: `phase ${degrees}° of the crank off nominal`,
    observed: degrees / perPercent,
    likelihood: { kind: 'measured', value: degrees, sd: Math.hypot(noise, doubt) },
    expect: (states, unknowns) => perPercent * chainOf(states, segment, shared.bank) + unknowns[bias],
    stateOf: (states) => chainOf(states, segment, shared.bank),
  };
}

function elongationEvidence(finding: Sourced<Finding>, segment: number, s: EvidenceSetting): Evidence | null {
  const percent = findingNumber(finding.value);
  if (percent === null || percent < 0 || s.chainLimit === null) return null;
  const sd = Math.hypot(
    s.coefficients['evidence.elongation_sd'],
    s.coefficients['evidence.elongation_relative_sd'] * percent,
  );
  const shared = base(finding, segment);
  return {
    ...shared,
    state: 'chain',
    words: `elongation measured: ${percent} %`,
    observed: percent,
    likelihood: { kind: 'measured', value: percent, sd },
    expect: (states) => chainOf(states, segment, shared.bank),
  };
}

function rattleEvidence(finding: Sourced<Finding>, segment: number, s: EvidenceSetting): Evidence | null {
  const seconds = findingNumber(finding.value);
  if (seconds === null || seconds < 0 || (s.chainLimit === null && !s.hasPhaser)) return null;
  const { coefficients: c } = s;
  const soakH = finding.soakH ?? c['evidence.rattle_default_soak_h'];
  const built = -Math.expm1(-soakH / c['evidence.rattle_soak_h']);
  const byPhaser = s.hasPhaser ? built * c['evidence.rattle_phaser_s'] : 0;
  const byChain = s.chainLimit === null ? 0 : (built * c['evidence.rattle_chain_s']) / s.chainLimit.percent;
  const shared = base(finding, segment);
  const expected = (states: Trajectory): number =>
    byPhaser * phaserOf(states, segment, shared.bank) + byChain * chainOf(states, segment, shared.bank);
  const state = s.hasPhaser ? 'phaser' : 'chain';
  return {
    ...shared,
    state,
    words: `start rattle ${seconds} s after ${finding.soakH === null ? 'a soak not recorded' : `${soakH} h`}`,
    observed: seconds / Math.max(1e-6, s.hasPhaser ? byPhaser : byChain),
    // a lasting rattle tells no more than that it lasts
    likelihood: {
      kind: 'measured',
      value: Math.min(seconds, c['evidence.rattle_lasting_s']),
      sd: c[finding.soakH === null ? 'evidence.rattle_unknown_soak_sd' : 'evidence.rattle_sd'],
    },
    expect: expected,
    stateOf: (states) =>
      state === 'phaser' ? phaserOf(states, segment, shared.bank) : chainOf(states, segment, shared.bank),
  };
}

function pressureEvidence(finding: Sourced<Finding>, segment: number, s: EvidenceSetting): Evidence | null {
  const pressure = findingNumber(finding.value);
  if (pressure === null || pressure <= 0) return null;
  const { coefficients: c } = s;
  const rpm = finding.engineRpm ?? c['evidence.pressure_rpm'];
  const oilC = finding.oilTemperatureC ?? c['evidence.pressure_temperature'];
  const known = finding.engineRpm !== null && finding.oilTemperatureC !== null;
  const nominal =
    Math.log(c['evidence.pressure_nominal_kpa'] * Math.max(0.3, rpm / c['evidence.pressure_rpm'])) -
    c['evidence.pressure_temperature_effect'] * (oilC - c['evidence.pressure_temperature']);
  const perPhaser = s.hasPhaser ? c['evidence.pressure_per_phaser'] : 0;
  return {
    ...base(finding, segment),
    state: 'sludge',
    words: `hot idle pressure ${pressure} kPa`,
    observed: null,
    likelihood: {
      kind: 'measured',
      value: Math.log(pressure),
      sd: c['evidence.pressure_log_sd'] * (known ? 1 : 1.5),
    },
    expect: (states) =>
      nominal -
      c['evidence.pressure_per_sludge'] * states.sludge[segment] -
      perPhaser * phaserOf(states, segment, null),
    stateOf: (states) => states.sludge[segment],
  };
}
