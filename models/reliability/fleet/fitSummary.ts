import type { FamilyScale, FleetFit, LearnedEffect, Ranged } from './fleetFit.ts';

/** What is kept of a fit once its draws are gone: enough to say what the next one changed. */
export interface FitSummary {
  readonly version: string;
  readonly episodes: number;
  readonly failures: number;
  readonly exposureDays: number;
  readonly ownDataShare: number;
  readonly shape: Ranged;
  readonly life: Ranged & { readonly unit: 'h' | 'km' };
  readonly familyScales: readonly FamilyScale[];
  readonly effects: readonly LearnedEffect[];
  readonly structures: readonly { readonly clock: { readonly name: string }; readonly weight: number }[];
}

export function fitSummary(fit: FleetFit): FitSummary {
  const { version, episodes, failures, exposureDays, ownDataShare, shape, life, familyScales, effects } = fit;
  return {
    version,
    episodes,
    failures,
    exposureDays,
    ownDataShare,
    shape,
    life,
    familyScales,
    effects,
    structures: fit.structures.map(({ clock, weight }) => ({ clock: { name: clock.name }, weight })),
  };
}
