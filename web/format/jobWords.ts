import type { Visit } from '../../models/schema/visit.ts';

const words: Readonly<Record<Visit['jobs'][number], string>> = {
  check: 'check before it runs again',
  oil_change: 'oil and filter',
  timing_set: 'timing set',
  phaser: 'phasers',
  oil_control_solenoid: 'oil control solenoids',
  screen_look: 'look at the oil control screen',
  cover_view: 'view under the cover',
  phase_reading: 'read the phase deviation',
  sample: 'draw an oil sample',
};

/** The jobs of a visit in the shop's words. */
export function jobWords(jobs: Visit['jobs']): string {
  return jobs.map((job) => words[job]).join(', ');
}
