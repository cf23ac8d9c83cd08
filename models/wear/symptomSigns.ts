import type { Coefficients } from '../schema/coefficient.ts';
import type { ChainDrive, ChainLimit } from './phaseGeometry.ts';
import { crankDegreesPerPercent } from './phaseGeometry.ts';
import { codeText } from './faultCode.ts';
import type { FaultCodes, FaultGroup } from './faultCode.ts';
import type { SymptomSign } from './symptomTable.ts';

/** What is known at the desk; null = not asked or not measured yet. */
export interface SymptomInputs {
  /** fault codes read; null: no reader was connected */
  readonly codes: readonly string[] | null;
  readonly rattleS: number | null;
  readonly soakH: number | null;
  readonly hotIdlePressureKpa: number | null;
  readonly engineRpm: number | null;
  readonly oilTemperatureC: number | null;
  readonly screenBlockedShare: number | null;
  readonly levelLow: boolean | null;
  readonly gradeOk: boolean | null;
  readonly ventilationFault: boolean | null;
  readonly thermostatOpen: boolean | null;
  readonly phaseDeviationCrankDeg: number | null;
  readonly coolantInOil: boolean | null;
  /** connectors, wiring and sensors checked: true = one was found faulty */
  readonly wiringFault: boolean | null;
}

/** Nothing known yet. */
export const noSymptoms: SymptomInputs = {
  codes: null,
  rattleS: null,
  soakH: null,
  hotIdlePressureKpa: null,
  engineRpm: null,
  oilTemperatureC: null,
  screenBlockedShare: null,
  levelLow: null,
  gradeOk: null,
  ventilationFault: null,
  thermostatOpen: null,
  phaseDeviationCrankDeg: null,
  coolantInOil: null,
  wiringFault: null,
};

/** The engine behind the signs, as far as they depend on it. */
export interface SymptomEngine {
  readonly interference: boolean | null;
  readonly drive: ChainDrive | null;
  readonly chainLimit: ChainLimit | null;
}

/**
 * Hot idle pressure that a sound engine has at a speed and oil temperature.
 * Formula: nominal · speed/nominal speed · e^(−k (T − nominal T)). Source: engineering judgement (catalog evidence.pressure_*).
 * @returns kPa; at nominal speed and temperature → 170
 */
export function soundPressureKpa(engineRpm: number, oilTemperatureC: number, c: Coefficients): number {
  return (
    c['evidence.pressure_nominal_kpa'] *
    Math.max(0.3, engineRpm / c['evidence.pressure_rpm']) *
    Math.exp(
      -c['evidence.pressure_temperature_effect'] * (oilTemperatureC - c['evidence.pressure_temperature']),
    )
  );
}

/** The groups of the codes read; codes that the catalog does not know are left out. */
export function codeGroups(codes: readonly string[], faultCodes: FaultCodes): ReadonlySet<FaultGroup> {
  const groups = new Set<FaultGroup>();
  for (const code of codes) {
    const entry = faultCodes.get(codeText(code) ?? '');
    if (entry !== undefined) groups.add(entry.group);
  }
  return groups;
}

/** Which signs are there, which are not, and which are not known (left out). */
export function signsOf(
  inputs: SymptomInputs,
  engine: SymptomEngine,
  faultCodes: FaultCodes,
  c: Coefficients,
): ReadonlyMap<SymptomSign, boolean> {
  const signs = new Map<SymptomSign, boolean>();
  const put = (sign: SymptomSign, present: boolean | null): void => {
    if (present !== null) signs.set(sign, present);
  };
  if (inputs.codes !== null) {
    const groups = codeGroups(inputs.codes, faultCodes);
    // the crank sensor is ruled out first: until then a correlation code says nothing of the chain
    const correlation = groups.has('chain_phase');
    put('correlation_code', correlation && groups.has('crank_sensor') ? null : correlation);
    put('phaser_code', groups.has('phaser'));
    put(
      'circuit_code',
      groups.has('cam_sensor') || groups.has('actuator_circuit') || groups.has('pressure_circuit'),
    );
    put('crank_code', groups.has('crank_sensor'));
    put('pressure_code', groups.has('pressure_low'));
  }
  const { rattleS, soakH } = inputs;
  if (rattleS !== null) {
    const long = rattleS > c['evidence.rattle_long_s'];
    const soaked = soakH === null || soakH >= c['evidence.rattle_soak_h'];
    put('rattle_long', long);
    // no rattle after a short soak says nothing: the oil had not drained from the phaser
    put('rattle_short', long ? null : rattleS > 0 ? true : soaked ? false : null);
  }
  const { hotIdlePressureKpa } = inputs;
  if (hotIdlePressureKpa !== null) {
    const rpm = inputs.engineRpm ?? c['evidence.pressure_rpm'];
    const oilC = inputs.oilTemperatureC ?? c['evidence.pressure_temperature'];
    put(
      'pressure_low',
      hotIdlePressureKpa < c['evidence.pressure_low_share'] * soundPressureKpa(rpm, oilC, c),
    );
  }
  put(
    'screen_blocked',
    inputs.screenBlockedShare === null
      ? null
      : inputs.screenBlockedShare >= c['evidence.screen_restricted_share'],
  );
  put('level_low', inputs.levelLow);
  put('grade_wrong', inputs.gradeOk === null ? null : !inputs.gradeOk);
  put('ventilation_fault', inputs.ventilationFault);
  put('thermostat_open', inputs.thermostatOpen);
  put('wiring_fault', inputs.wiringFault);
  if (inputs.phaseDeviationCrankDeg !== null && engine.chainLimit !== null) {
    const perPercent =
      engine.drive === null ? c['evidence.phase_default'] : crankDegreesPerPercent(engine.drive);
    put('phase_high', Math.abs(inputs.phaseDeviationCrankDeg) > perPercent * engine.chainLimit.percent * 0.7);
  }
  return signs;
}
