import type { FamilySpec } from './family.ts';
import type { TrueRates } from './rates.ts';

/** One day of use. */
export interface DayUse {
  km: number;
  speedKmh: number;
  drivingHours: number;
  coldHours: number;
  idleHours: number;
  ptoHours: number;
  soakedStarts: number;
  towingShare: number;
  ambientC: number;
  fuelLiters: number;
}

/** The oil in the sump as it really is. */
export interface TrueOil {
  fuelPercent: number;
  sootPercent: number;
  baseNumber: number;
  additive: number;
  oxidation: number;
  /** contaminants against what the oil can hold, 1 = full */
  load: number;
  hours: number;
  km: number;
  days: number;
  /** of the fill */
  grade: string;
  category: string;
  kv100: number;
  dispersancy: number;
  chainSpec: number;
  liters: number;
}

/** A disturbance of the engine that lasts until someone finds it. */
export interface Disturbance {
  readonly ventilation: boolean;
  readonly thermostat: boolean;
}

/** Fresh oil; an eighth of the old charge's contaminants stays behind in galleries and coolers. */
export function freshOil(
  before: TrueOil | null,
  fill: { grade: string; category: string; kv100: number; dispersancy: number; chainSpec: number },
  liters: number,
): TrueOil {
  const carry = before === null ? 0 : 0.07;
  return {
    fuelPercent: carry * (before?.fuelPercent ?? 0),
    sootPercent: carry * (before?.sootPercent ?? 0),
    baseNumber: 8.2 - carry * (8.2 - (before?.baseNumber ?? 8.2)),
    additive: 1 - carry * (1 - (before?.additive ?? 1)),
    oxidation: carry * (before?.oxidation ?? 0),
    load: carry * (before?.load ?? 0),
    hours: 0,
    km: 0,
    days: 0,
    grade: fill.grade,
    category: fill.category,
    kv100: fill.kv100,
    dispersancy: fill.dispersancy,
    chainSpec: fill.chainSpec,
    liters,
  };
}

interface FuelSystemLaws {
  readonly startFuel: number;
  readonly driveFuel: number;
  readonly idleFuel: number;
  readonly boil: number;
  readonly soot: number;
  readonly thinning: number;
}

const systems: Readonly<Record<FamilySpec['engine']['fuelSystem'], FuelSystemLaws>> = {
  PFI: { startFuel: 0.033, driveFuel: 0.1, idleFuel: 0.07, boil: 0.75, soot: 0.0025, thinning: 0.045 },
  GDI: { startFuel: 0.055, driveFuel: 0.27, idleFuel: 0.14, boil: 0.75, soot: 0.009, thinning: 0.045 },
  TGDI: { startFuel: 0.14, driveFuel: 0.5, idleFuel: 0.24, boil: 0.62, soot: 0.0145, thinning: 0.045 },
  diesel: { startFuel: 0.005, driveFuel: 0.011, idleFuel: 0.006, boil: 0.003, soot: 0.016, thinning: 0.032 },
  gas: { startFuel: 0, driveFuel: 0, idleFuel: 0, boil: 1, soot: 0.0006, thinning: 0.045 },
};

/** Hours at each oil temperature as hours at 100 °C, rate doubling every 11 °C. */
function hotHours(use: DayUse): number {
  const driving = 96 + 0.12 * (use.ambientC - 18) + 14 * use.towingShare + (use.speedKmh > 65 ? 5 : 0);
  const idle = 81 + 0.25 * (use.ambientC - 18);
  const warm = Math.max(0, use.drivingHours - use.coldHours);
  return (
    warm * doubling(driving) +
    use.idleHours * doubling(idle) +
    use.ptoHours * doubling(102) +
    use.coldHours * doubling(58)
  );
}

function doubling(celsius: number): number {
  return Math.exp((Math.LN2 * (celsius - 100)) / 11);
}

/** Ages the oil by one day. */
export function ageOil(
  oil: TrueOil,
  use: DayUse,
  family: FamilySpec,
  rates: TrueRates,
  fault: Disturbance,
): void {
  const laws = systems[family.engine.fuelSystem];
  const perSump = 5 / Math.max(1.5, oil.liters);
  const warm = Math.max(0, use.drivingHours - use.coldHours);
  const hours = use.drivingHours + use.idleHours + use.ptoHours;
  oil.hours += hours;
  oil.km += use.km;
  oil.days += 1;
  const chill = Math.max(0, 18 - use.ambientC);
  const cold = use.coldHours * (fault.thermostat ? 2.6 : 1);

  const gain =
    rates.fuel *
    perSump *
    (use.soakedStarts * laws.startFuel * Math.exp(chill / 38) +
      warm * laws.driveFuel * (1 + 0.4 * use.towingShare) +
      use.idleHours * laws.idleFuel);
  const boil =
    laws.boil * ((warm + use.ptoHours) * (fault.thermostat ? 0.4 : 1) + 0.3 * use.idleHours + 0.05 * cold);
  oil.fuelPercent = Math.max(
    0,
    oil.fuelPercent * Math.exp(-boil) + gain * (boil > 1e-6 ? (1 - Math.exp(-boil)) / boil : 1),
  );

  oil.sootPercent +=
    rates.soot *
    laws.soot *
    (0.2 * perSump) *
    (warm * (1 + 0.5 * use.towingShare) + use.ptoHours + 0.45 * use.idleHours + 1.7 * cold);

  const burned = use.fuelLiters / Math.max(1.5, oil.liters) / rates.base;
  oil.baseNumber = Math.max(
    0.4,
    oil.baseNumber - 0.00156 * burned * Math.exp(1.5 * Math.log(oil.baseNumber)),
  );

  const hot = rates.oxidation * hotHours(use);
  oil.additive = Math.max(0.02, oil.additive - 0.0042 * hot * Math.exp(0.7 * Math.log(oil.additive)));
  oil.oxidation +=
    0.026 *
    hot *
    (1 + 2.4 * (1 - oil.additive)) *
    (hours > 0 ? 1 + (0.5 * (use.idleHours + cold)) / hours : 1);

  const dirt =
    0.0016 * warm * (1 + Math.max(0, (50 - use.speedKmh) / 60)) +
    0.0012 * use.ptoHours +
    0.0038 * use.idleHours +
    0.0052 * cold * Math.exp(chill / 42);
  oil.load +=
    (rates.load *
      dirt *
      Math.exp(0.9 * Math.log(perSump)) *
      (1 + oil.fuelPercent / (oil.fuelPercent + 11)) *
      (fault.ventilation ? 1.6 : 1)) /
    oil.dispersancy;
}

/** Share of the viscosity lost to fuel and shear; what bearings and chain joints feel. */
export function thinning(oil: TrueOil, family: FamilySpec): number {
  return 1 - 0.965 * Math.exp(-systems[family.engine.fuelSystem].thinning * oil.fuelPercent);
}

/** Viscosity as a laboratory would find it, mm²/s at 100 °C. */
export function usedKv100(oil: TrueOil, family: FamilySpec): number {
  return oil.kv100 * (1 - thinning(oil, family)) * (1 + 0.0042 * oil.oxidation + 0.028 * oil.sootPercent);
}
