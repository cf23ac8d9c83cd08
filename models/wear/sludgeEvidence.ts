import type { Coefficients } from '../schema/coefficient.ts';
import { coverViews } from '../schema/finding.ts';
import type { CoverView, Finding } from '../schema/finding.ts';
import type { Sourced } from '../schema/history.ts';
import type { Evidence, WordTrust } from './evidence.ts';
import { phaserOf } from './evidenceSetting.ts';
import type { EvidenceSetting } from './evidenceSetting.ts';
import { findingBase } from './findingBase.ts';
import { findingNumber, findingShare } from './findingValue.ts';

/** A view under the cover as a span of sludge; null when the word is not one of the views. */
export function coverEvidence(
  finding: Sourced<Finding>,
  segment: number,
  s: EvidenceSetting,
): Evidence | null {
  const word = coverViews.find((view) => view === finding.value?.trim().toLowerCase());
  if (word === undefined) return null;
  const observed = 10 - s.coefficients[`evidence.cover_merit.${word}`];
  return {
    ...findingBase(finding, segment),
    state: 'sludge',
    words: `view under the cover: ${word}`,
    observed,
    likelihood: {
      kind: 'between',
      ...coverBounds(word, s.coefficients),
      sd: s.coefficients['evidence.cover_sd'],
      trust: wordTrust(s.coefficients),
    },
    expect: (states) => states.sludge[segment],
  };
}

/** How far the catalog trusts a word. */
export function wordTrust(c: Coefficients): WordTrust {
  return {
    glanceShare: c['evidence.word_glance_share'],
    glanceWidth: c['evidence.word_glance_width'],
    mistaken: c['evidence.word_mistaken'],
    anyWord: c['evidence.word_any'],
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

/** A screen's blocked share as sludge since it was cleaned; null when the value is no share. */
export function screenEvidence(
  finding: Sourced<Finding>,
  segment: number,
  s: EvidenceSetting,
): Evidence | null {
  const share = findingShare(finding.value);
  if (share === null) return null;
  const { coefficients: c } = s;
  const sludgeAt = (blocked: number): number =>
    c['evidence.screen_scale'] * Math.pow(blocked, c['evidence.screen_exponent']);
  const observed = sludgeAt(share);
  const least = c['evidence.screen_least_share'];
  return {
    ...findingBase(finding, segment),
    state: 'sludge',
    reading: 'screen',
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
            trust: wordTrust(c),
          }
        : { kind: 'measured', value: observed, sd: c['evidence.screen_sd'] },
    expect: (states) => states.screen[segment],
    stateOf: (states) => states.screen[segment],
  };
}

/** Hot idle pressure as weak evidence on a blocked pickup and a leaking phaser; null when the value is no pressure. */
export function pressureEvidence(
  finding: Sourced<Finding>,
  segment: number,
  s: EvidenceSetting,
): Evidence | null {
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
    ...findingBase(finding, segment),
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
