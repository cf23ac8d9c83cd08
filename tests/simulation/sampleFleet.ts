import { simulateFleet, type SimulatedFleet, type SimulationOptions } from './simulateFleet.ts';

/** Ready-made options for tests that need a fleet; spread them and change what matters. */
export const sampleFleets = {
  /** 8 units, 2 years: for tests of plumbing, well below half a second */
  tiny: { seed: 1, units: 8, years: 2, startOn: '2023-01-01', newShare: 0.6 },
  /** 40 units with hours, idle, samples, findings and codes */
  rich: { seed: 2, units: 40, years: 4, startOn: '2021-01-01', recording: { rich: 1 } },
  /** 120 units, records from rich to odometers, all kinds of care */
  mixed: { seed: 3, units: 120, years: 6, startOn: '2019-01-01' },
  /** 40 units with odometers and work texts alone */
  odometerOnly: { seed: 4, units: 40, years: 5, startOn: '2020-01-01', recording: { odometerOnly: 1 } },
  /** badly kept: many failures to learn from */
  neglected: { seed: 5, units: 120, years: 6, startOn: '2019-01-01', care: { sticker: 1, neglect: 2 } },
} as const satisfies Record<string, SimulationOptions>;

const made = new Map<string, SimulatedFleet>();

/** A fleet by options, simulated once per test file. */
export function sampleFleet(options: SimulationOptions): SimulatedFleet {
  const key = JSON.stringify(options);
  let fleet = made.get(key);
  if (!fleet) {
    fleet = simulateFleet(options);
    made.set(key, fleet);
  }
  return fleet;
}

/** The same fleet under several seeds. */
export function seedsOf(options: SimulationOptions, count: number): readonly SimulationOptions[] {
  return Array.from({ length: count }, (_, i) => ({ ...options, seed: options.seed + 101 * i }));
}
