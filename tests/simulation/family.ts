import type { Engine } from '../../models/schema/engine.ts';

/** An engine family: what the file says of it and what only the simulation knows. */
export interface FamilySpec {
  readonly engine: Partial<Engine> & {
    readonly engineFamily: string;
    readonly displacementL: number;
    readonly fuelSystem: 'PFI' | 'GDI' | 'TGDI' | 'diesel' | 'gas';
    readonly sumpL: number;
    readonly requiredGrade: string;
    readonly requiredCategory: string;
    readonly bookIntervalKm: number;
    readonly bookIntervalMonths: number;
    readonly timingDrive: 'chain' | 'silent_chain' | 'belt' | 'wet_belt' | 'gear';
    readonly phasers: number;
    readonly interference: boolean;
    readonly plannedPartsCostCents: number;
    readonly plannedHours: number;
    readonly unplannedCostCents: number;
    readonly unplannedDowntimeDays: number;
  };
  /** kinematic viscosity of the required grade, mm²/s at 100 °C */
  readonly freshKv100: number;
  /** mean consumption while driving and at idle */
  readonly litersPer100Km: number;
  readonly idleLitersPerHour: number;
  /** elongation at which a sound chain begins to skip, % */
  readonly chainEndPercent: number;
  /** distance at which the shop renews the timing drive without a sign, km */
  readonly renewAtKm: number;
}

const pimmeck: FamilySpec = {
  engine: {
    engineFamily: 'Pimmeck 25',
    displacementL: 2.5,
    fuelSystem: 'PFI',
    sumpL: 5,
    requiredGrade: '5W-30',
    requiredCategory: 'API SP',
    bookIntervalKm: 16000,
    bookIntervalMonths: 12,
    hoursLimitH: 250,
    timingDrive: 'chain',
    chainPitchMm: 8,
    camSprocketTeeth: 36,
    tightStrandMm: 300,
    phasers: 2,
    interference: true,
    plannedHours: 9,
    plannedPartsCostCents: 62000,
    unplannedCostCents: 580000,
    unplannedDowntimeDays: 11,
    bookSevereIntervalKm: 8000,
    bookSevereIntervalMonths: 6,
    crankSprocketTeeth: 18,
    chainLimitPercent: 0.5,
    plannedDowntimeDays: 2,
    downtimeCostPerDayCents: 11000,
  },
  freshKv100: 10.4,
  litersPer100Km: 8.8,
  idleLitersPerHour: 0.78,
  chainEndPercent: 0.52,
  renewAtKm: 330000,
};

const dorrowin: FamilySpec = {
  engine: {
    engineFamily: 'Dorrowin 35',
    displacementL: 3.5,
    fuelSystem: 'GDI',
    sumpL: 5.7,
    requiredGrade: '5W-30',
    requiredCategory: 'API SP',
    bookIntervalKm: 12000,
    bookIntervalMonths: 12,
    hoursLimitH: 250,
    timingDrive: 'silent_chain',
    chainPitchMm: 6.35,
    camSprocketTeeth: 42,
    tightStrandMm: 280,
    phasers: 4,
    interference: true,
    plannedHours: 14,
    plannedPartsCostCents: 118000,
    unplannedCostCents: 890000,
    unplannedDowntimeDays: 14,
    bookSevereIntervalKm: 8000,
    bookSevereIntervalMonths: 6,
    crankSprocketTeeth: 21,
    plannedDowntimeDays: 3,
    downtimeCostPerDayCents: 19000,
  },
  freshKv100: 10.2,
  litersPer100Km: 13,
  idleLitersPerHour: 1.1,
  chainEndPercent: 0.58,
  renewAtKm: 260000,
};

const vessimo: FamilySpec = {
  engine: {
    engineFamily: 'Vessimo 20T',
    displacementL: 2,
    fuelSystem: 'TGDI',
    sumpL: 5,
    requiredGrade: '0W-20',
    requiredCategory: 'API SP',
    bookIntervalKm: 12000,
    bookIntervalMonths: 12,
    hoursLimitH: 250,
    timingDrive: 'chain',
    chainPitchMm: 8,
    camSprocketTeeth: 38,
    tightStrandMm: 340,
    phasers: 2,
    interference: true,
    plannedHours: 11,
    plannedPartsCostCents: 84000,
    unplannedCostCents: 710000,
    unplannedDowntimeDays: 12,
    crankSprocketTeeth: 19,
    chainLimitPercent: 0.5,
    plannedDowntimeDays: 2,
    downtimeCostPerDayCents: 12000,
  },
  freshKv100: 8.3,
  litersPer100Km: 10.2,
  idleLitersPerHour: 0.66,
  chainEndPercent: 0.5,
  renewAtKm: 280000,
};

const quorrin: FamilySpec = {
  engine: {
    engineFamily: 'Quorrin 30D',
    displacementL: 3,
    fuelSystem: 'diesel',
    sumpL: 8.5,
    requiredGrade: '5W-40',
    requiredCategory: 'API CK-4',
    bookIntervalKm: 16000,
    bookIntervalMonths: 12,
    hoursLimitH: 350,
    timingDrive: 'chain',
    chainPitchMm: 9.525,
    camSprocketTeeth: 40,
    tightStrandMm: 330,
    phasers: 0,
    interference: true,
    plannedHours: 12,
    plannedPartsCostCents: 91000,
    unplannedCostCents: 940000,
    unplannedDowntimeDays: 16,
    bookSevereIntervalKm: 10000,
    bookSevereIntervalMonths: 6,
    crankSprocketTeeth: 20,
    chainLimitPercent: 0.5,
    plannedDowntimeDays: 3,
    downtimeCostPerDayCents: 16000,
  },
  freshKv100: 13.8,
  litersPer100Km: 13.5,
  idleLitersPerHour: 0.92,
  chainEndPercent: 0.56,
  renewAtKm: 300000,
};

const brimsel: FamilySpec = {
  engine: {
    engineFamily: 'Brimsel 12T',
    displacementL: 1.2,
    fuelSystem: 'TGDI',
    sumpL: 3.8,
    requiredGrade: '5W-20',
    requiredCategory: 'API SP',
    bookIntervalKm: 12000,
    bookIntervalMonths: 12,
    hoursLimitH: 220,
    timingDrive: 'wet_belt',
    phasers: 1,
    interference: true,
    plannedHours: 7,
    plannedPartsCostCents: 46000,
    unplannedCostCents: 470000,
    unplannedDowntimeDays: 9,
    bookSevereIntervalKm: 6000,
    bookSevereIntervalMonths: 6,
    plannedDowntimeDays: 1,
    downtimeCostPerDayCents: 9000,
  },
  freshKv100: 8.6,
  litersPer100Km: 7.4,
  idleLitersPerHour: 0.42,
  chainEndPercent: 1,
  renewAtKm: 160000,
};

const yarrowen: FamilySpec = {
  engine: {
    engineFamily: 'Yarrowen 54G',
    displacementL: 5.4,
    fuelSystem: 'gas',
    sumpL: 6.6,
    requiredGrade: '5W-30',
    requiredCategory: 'API SP',
    bookIntervalKm: 10000,
    bookIntervalMonths: 12,
    hoursLimitH: 250,
    timingDrive: 'chain',
    chainPitchMm: 9.525,
    camSprocketTeeth: 42,
    tightStrandMm: 420,
    phasers: 1,
    interference: false,
    plannedHours: 13,
    plannedPartsCostCents: 97000,
    unplannedCostCents: 640000,
    unplannedDowntimeDays: 12,
    bookSevereIntervalKm: 6500,
    bookSevereIntervalMonths: 6,
    crankSprocketTeeth: 21,
    chainLimitPercent: 0.6,
    plannedDowntimeDays: 2,
    downtimeCostPerDayCents: 14000,
  },
  freshKv100: 10.3,
  litersPer100Km: 19,
  idleLitersPerHour: 1.7,
  chainEndPercent: 0.65,
  renewAtKm: 350000,
};

/** Six invented families. The file leaves out the severe book interval of Vessimo 20T. */
export const families = { pimmeck, dorrowin, vessimo, quorrin, brimsel, yarrowen } as const;
