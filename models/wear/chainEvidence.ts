import type { Finding } from '../schema/finding.ts';
import type { Sourced } from '../schema/history.ts';
import type { Evidence } from './evidence.ts';
import { chainOf, phaserOf } from './evidenceSetting.ts';
import type { EvidenceSetting } from './evidenceSetting.ts';
import { findingBase } from './findingBase.ts';
import { findingNumber } from './findingValue.ts';
import { latent } from './latents.ts';
import { crankDegreesPerPercent, driveOfEngine } from './phaseGeometry.ts';
import type { Trajectory } from './trajectory.ts';

/** A phase reading against the engine's own offset; null without a chain or a number. */
export function phaseEvidence(
  finding: Sourced<Finding>,
  segment: number,
  s: EvidenceSetting,
): Evidence | null {
  const degrees = findingNumber(finding.value);
  if (degrees === null || s.chainLimit === null) return null;
  const { coefficients } = s;
  const drive = driveOfEngine(s.engine);
  const perPercent = drive === null ? coefficients['evidence.phase_default'] : crankDegreesPerPercent(drive);
  const noise = coefficients['evidence.phase_noise_sd'];
  // without the drive's measures the degrees per per cent are themselves uncertain
  const doubt = drive === null ? coefficients['evidence.phase_default_log_sd'] * Math.abs(degrees) : 0;
  const shared = findingBase(finding, segment);
  const bias = shared.bank === '2' ? latent.phaseBias2 : latent.phaseBias1;
  return {
    ...shared,
    state: 'chain',
    reading: 'phase',
    words: `phase ${degrees}° of the crank off nominal${drive === null ? ', pitch, teeth and strand not recorded: degrees per per cent assumed' : ''}`,
    observed: degrees / perPercent,
    likelihood: { kind: 'measured', value: degrees, sd: Math.hypot(noise, doubt) },
    expect: (states, unknowns) =>
      perPercent * chainOf(states, segment, shared.bank) + unknowns[bias] + unknowns[latent.phaseOffset],
    stateOf: (states) => chainOf(states, segment, shared.bank),
  };
}

/** A measured elongation; null without a chain or a number. */
export function elongationEvidence(
  finding: Sourced<Finding>,
  segment: number,
  s: EvidenceSetting,
): Evidence | null {
  const percent = findingNumber(finding.value);
  if (percent === null || percent < 0 || s.chainLimit === null) return null;
  const sd = Math.hypot(
    s.coefficients['evidence.elongation_sd'],
    s.coefficients['evidence.elongation_relative_sd'] * percent,
  );
  const shared = findingBase(finding, segment);
  return {
    ...shared,
    state: 'chain',
    words: `elongation measured: ${percent} %`,
    observed: percent,
    likelihood: { kind: 'measured', value: percent, sd },
    expect: (states) => chainOf(states, segment, shared.bank),
  };
}

/** Start rattle after a soak, of phaser and chain together; null when neither is there. */
export function rattleEvidence(
  finding: Sourced<Finding>,
  segment: number,
  s: EvidenceSetting,
): Evidence | null {
  const seconds = findingNumber(finding.value);
  if (seconds === null || seconds < 0 || (s.chainLimit === null && !s.hasPhaser)) return null;
  const { coefficients: c } = s;
  const soakH = finding.soakH ?? c['evidence.rattle_default_soak_h'];
  const built = -Math.expm1(-soakH / c['evidence.rattle_soak_h']);
  const byPhaser = s.hasPhaser ? built * c['evidence.rattle_phaser_s'] : 0;
  const byChain = s.chainLimit === null ? 0 : (built * c['evidence.rattle_chain_s']) / s.chainLimit.percent;
  const shared = findingBase(finding, segment);
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
