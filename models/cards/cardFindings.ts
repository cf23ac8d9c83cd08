import type { CardFinding } from '../schema/jobCard.ts';
import type { ShopJob } from '../schema/shopPlan.ts';
import { coverViews, type FindingKind } from '../schema/finding.ts';
import type { EngineAttributes } from './cardSteps.ts';

interface Place {
  readonly finding: FindingKind;
  readonly label: string;
  readonly input: CardFinding['input'];
  readonly unit: string;
  readonly byBank: boolean;
  readonly jobs: readonly ShopJob[];
  readonly needs?: 'phasers' | 'chain';
}

const timing: readonly ShopJob[] = ['timing_set', 'phaser'];

const places: readonly Place[] = [
  {
    finding: 'screen_blocked_share',
    label: 'Screen blocked',
    input: 'percent',
    unit: '%',
    byBank: true,
    needs: 'phasers',
    jobs: ['screen_look', 'oil_control_solenoid', ...timing],
  },
  {
    finding: 'cover_view',
    label: 'View under the cover',
    input: 'choice',
    unit: '',
    byBank: false,
    jobs: ['cover_view', ...timing],
  },
  {
    finding: 'phase_deviation_crank_deg',
    label: 'Phase deviation',
    input: 'number',
    unit: '° crank',
    byBank: true,
    needs: 'phasers',
    jobs: ['phase_reading', ...timing],
  },
  {
    finding: 'chain_elongation_percent',
    label: 'Chain elongation',
    input: 'number',
    unit: '%',
    byBank: true,
    needs: 'chain',
    jobs: timing,
  },
  {
    finding: 'start_rattle_s',
    label: 'Rattle at cold start',
    input: 'number',
    unit: 's',
    byBank: false,
    jobs: ['check', 'phase_reading', ...timing],
  },
  {
    finding: 'hot_idle_pressure_kpa',
    label: 'Hot idle oil pressure, mechanical gauge',
    input: 'number',
    unit: 'kPa',
    byBank: false,
    jobs: ['check', ...timing],
  },
  {
    finding: 'oil_level_low_l',
    label: 'Oil level below the mark',
    input: 'number',
    unit: 'L',
    byBank: false,
    jobs: ['oil_change', 'check', 'sample'],
  },
  {
    finding: 'coolant_in_oil',
    label: 'Coolant in the oil',
    input: 'yesno',
    unit: '',
    byBank: false,
    jobs: ['oil_change', 'check', ...timing],
  },
  {
    finding: 'filter_wrong',
    label: 'Wrong filter was fitted',
    input: 'yesno',
    unit: '',
    byBank: false,
    jobs: ['oil_change'],
  },
  {
    finding: 'ventilation_fault',
    label: 'Crankcase ventilation fault',
    input: 'yesno',
    unit: '',
    byBank: false,
    jobs: ['check', 'cover_view'],
  },
  {
    finding: 'thermostat_open',
    label: 'Thermostat stuck open',
    input: 'yesno',
    unit: '',
    byBank: false,
    jobs: ['check'],
  },
];

const choicesOf = (input: CardFinding['input']): string[] =>
  input === 'choice' ? [...coverViews] : input === 'yesno' ? ['yes', 'no'] : [];

/**
 * Places for what is seen or measured, by bank where the engine has two; what the engine can't have is left out.
 * @example a belt engine without phasers has no place for screen or chain
 */
export function cardFindings(jobs: readonly ShopJob[], engine: EngineAttributes): CardFinding[] {
  const banks = engine.banks !== null && engine.banks >= 2 ? ['1', '2'] : [null];
  return places
    .filter((place) => place.jobs.some((job) => jobs.includes(job)))
    .filter(({ needs }) => needs !== 'phasers' || engine.phasers !== 0)
    .filter(({ needs }) => needs !== 'chain' || engine.drive === null || engine.drive.includes('chain'))
    .flatMap(({ finding, label, input, unit, byBank }) =>
      (byBank ? banks : [null]).map((bank) => ({
        finding,
        label: bank === null ? label : `${label}, bank ${bank}`,
        bank,
        input,
        unit,
        choices: choicesOf(input),
      })),
    );
}
