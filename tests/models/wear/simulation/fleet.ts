import type { UnitTimeline } from '../../../../models/oil/charge.ts';
import type { Exposure, FuelSystem } from '../../../../models/oil/exposure.ts';
import type { Engine } from '../../../../models/schema/engine.ts';
import { coverViews } from '../../../../models/schema/finding.ts';
import type { Finding } from '../../../../models/schema/finding.ts';
import type { Sourced, UnitHistory } from '../../../../models/schema/history.ts';
import { lifeLawsOf, liveThrough } from './partLives.ts';
import type { LifeLaws, LifeRecords } from './partLives.ts';
import { SeededRandom } from './random.ts';
import { engineRecord, findingRecord, historyOf, serviceRecord, timelineOf } from './records.ts';

/** A simulated unit with what is on record of it and what is true of it. */
export interface SimulatedUnit {
  readonly timeline: UnitTimeline;
  readonly history: UnitHistory;
  readonly truth: { readonly sludge: number; readonly chain: number; readonly phaser: number };
}

/** The laws of one simulated world: other forms than the model's, with numbers drawn anew for every seed. */
interface World {
  readonly idleLoad: number;
  readonly coldLoad: number;
  readonly sludgePower: number;
  readonly sludgeLevel: number;
  readonly chainPower: number;
  readonly chainLevel: number;
  readonly sootBite: number;
  readonly sootPower: number;
  readonly phaserLevel: number;
  readonly startLoad: number;
  readonly viewNoise: number;
  readonly screenNoise: number;
  readonly phaseNoise: number;
}

/** What makes an engine family of that world its own. */
interface Family {
  readonly engine: Sourced<Engine>;
  readonly sludge: number;
  readonly chain: number;
  readonly phaser: number;
  readonly soot: number;
  readonly fuel: number;
}

const duties: readonly (Partial<Exposure> & { kmPerYear: number; idlePer1000Km: number })[] = [
  { speedKmh: 80, tripKm: 60, idlePer1000Km: 1, soakedStartsPerDay: 1.5, ambientC: 14, kmPerYear: 32000 },
  { speedKmh: 45, tripKm: 15, idlePer1000Km: 4, soakedStartsPerDay: 2, ambientC: 12, kmPerYear: 20000 },
  { speedKmh: 28, tripKm: 5, idlePer1000Km: 8, soakedStartsPerDay: 3, ambientC: 2, kmPerYear: 11000 },
  { speedKmh: 25, tripKm: 2, idlePer1000Km: 15, soakedStartsPerDay: 2, ambientC: 10, kmPerYear: 24000 },
  { speedKmh: 40, tripKm: 12, idlePer1000Km: 45, soakedStartsPerDay: 2, ambientC: 15, kmPerYear: 24000 },
];

function worldOf(random: SeededRandom): World {
  return {
    idleLoad: random.between(1.2, 3),
    coldLoad: random.between(1.5, 4),
    sludgePower: random.between(1.5, 2.6),
    sludgeLevel: 1.2e-4 * random.lognormal(0.5),
    chainPower: random.between(0.85, 1.1),
    chainLevel: 4.5e-5 * random.lognormal(0.4),
    sootBite: random.between(0.6, 2.5),
    sootPower: random.between(0.7, 1.3),
    phaserLevel: random.lognormal(0.4),
    startLoad: random.between(0.5, 1.5),
    viewNoise: random.between(0.7, 1),
    screenNoise: random.between(1.3, 1.7),
    phaseNoise: random.between(0.7, 1.1),
  };
}

function familyOf(index: number, random: SeededRandom): Family {
  const fuelSystem = (['PFI', 'GDI', 'TGDI'] as const satisfies readonly FuelSystem[])[index % 3];
  const base = { PFI: 0.0005, GDI: 0.0018, TGDI: 0.003 }[fuelSystem];
  return {
    engine: engineRecord({
      engineFamily: `F${index}`,
      fuelSystem,
      sumpL: random.between(4.5, 6),
      displacementL: random.between(1.6, 3.5),
      tightStrandMm: random.between(260, 420),
    }),
    sludge: random.lognormal(0.4),
    chain: random.lognormal(0.35),
    phaser: random.lognormal(0.4),
    soot: base * random.lognormal(0.4),
    fuel: random.lognormal(0.3),
  };
}

interface TrueState {
  raw: number;
  chainDose: number;
  hours: number;
  phaser: number;
}

function sludgeOf(state: TrueState): number {
  return 10 * (1 - Math.pow(1 + state.raw / 20, -2));
}

function chainOf(state: TrueState, world: World): number {
  return 0.035 * (1 - Math.exp(-state.hours / 150)) + 0.4 * Math.pow(state.chainDose / 0.4, world.chainPower);
}

/** One charge in the simulated world. */
function live(
  state: TrueState,
  e: Exposure,
  family: Family,
  own: { sludge: number; chain: number; soot: number; phaser: number },
  world: World,
): void {
  const sump = family.engine.sumpL ?? 5;
  const driving = e.distanceKm / e.speedKmh;
  const starts = Math.min(e.distanceKm / e.tripKm, e.soakedStartsPerDay * e.days);
  const cold = Math.min(
    driving,
    starts * Math.min(e.tripKm / e.speedKmh, 0.25 + 0.005 * Math.max(0, 20 - e.ambientC)),
  );
  const hours = driving + e.idleHours;
  const load = (driving - cold + world.idleLoad * e.idleHours + world.coldLoad * cold) * (5 / sump);
  const age = load / 420;
  const fuelLiters = (e.distanceKm * 9) / 100 + 0.8 * e.idleHours;
  const soot = (family.soot * own.soot * fuelLiters) / sump;
  const fuel = Math.min(
    8,
    family.fuel * (0.3 + (6 * starts * (1 + 0.02 * Math.max(0, 20 - e.ambientC))) / (hours + 20)),
  );
  state.raw +=
    world.sludgeLevel *
    family.sludge *
    own.sludge *
    hours *
    Math.pow(age, world.sludgePower) *
    (1 + fuel / 10);
  const bite = 1 + world.sootBite * Math.pow(soot / 2, world.sootPower);
  state.chainDose +=
    world.chainLevel *
    family.chain *
    own.chain *
    (driving + 0.4 * e.idleHours) *
    bite *
    (1 + 0.06 * fuel) *
    (1 + 0.3 * age);
  state.phaser +=
    world.phaserLevel *
    family.phaser *
    own.phaser *
    ((world.startLoad * starts) / 50000 + hours / 25000) *
    Math.pow(1 + sludgeOf(state) / 5, 1.4) *
    (1 + 0.2 * soot);
  state.hours += hours;
}

function viewOf(sludge: number): string {
  const merit = 10 - sludge;
  const at = [9, 7.75, 6, 4].findIndex((least) => merit >= least);
  return coverViews[at < 0 ? 4 : at];
}

/** How findings come about in the simulated world. */
export interface FindingPlan {
  /** share of services at which someone looks */
  readonly share: number;
  /** years in service; left out: 3 to 8 */
  readonly years?: { readonly from: number; readonly to: number };
  /** phasers fail, bring codes and are renewed, and the shop writes it down; left out: no */
  readonly lives?: boolean;
}

/**
 * A fleet of `count` units in `families` engine families with findings on a share of its services.
 * @param seed everything is drawn from it: laws, families, duties, care, noise
 */
export function simulateFleet(
  seed: number,
  count: number,
  families: number,
  plan: FindingPlan,
): SimulatedUnit[] {
  const random = new SeededRandom(seed);
  const world = worldOf(random);
  const kinds = Array.from({ length: families }, (_, i) => familyOf(i, random));
  const livesRandom = new SeededRandom(seed + 7000);
  const laws = plan.lives === true ? lifeLawsOf(livesRandom) : null;
  return Array.from({ length: count }, (_, i) =>
    simulateUnit(i, random, world, random.pick(kinds), plan, laws, livesRandom),
  );
}

function simulateUnit(
  index: number,
  random: SeededRandom,
  world: World,
  family: Family,
  plan: FindingPlan,
  laws: LifeLaws | null,
  livesRandom: SeededRandom,
): SimulatedUnit {
  const duty = random.pick(duties);
  const care = 9000 * Math.exp(random.normal(0, 0.45));
  const own = {
    sludge: random.lognormal(0.3),
    chain: random.lognormal(0.25),
    soot: random.lognormal(0.25),
    phaser: random.lognormal(0.25),
  };
  const years = random.between(plan.years?.from ?? 3, plan.years?.to ?? 8);
  const kmPerYear = duty.kmPerYear * random.lognormal(0.2);
  const idlePer1000Km = duty.idlePer1000Km * random.lognormal(0.35);
  const plans: { exposure: Exposure }[] = [];
  const state: TrueState = { raw: 0, chainDose: 0, hours: 0, phaser: 0 };
  const findings: Sourced<Finding>[] = [];
  const lived: LifeRecords = { services: [], codes: [] };
  const bias = random.normal(0, 0.9);
  const startDay = 17000;
  let day = startDay;
  const drive = family.engine;
  const radius = (drive.chainPitchMm ?? 8) / (2 * Math.sin(Math.PI / (drive.camSprocketTeeth ?? 36)));
  const degreesPerPercent = ((2 * 180) / Math.PI) * ((drive.tightStrandMm ?? 300) / 100 / radius);
  while (day < startDay + years * 365) {
    const distanceKm = Math.max(1500, care * random.lognormal(0.2));
    const days = Math.max(10, Math.round((distanceKm / kmPerYear) * 365));
    const exposure: Exposure = {
      distanceKm,
      speedKmh: (duty.speedKmh ?? 45) * random.lognormal(0.08),
      tripKm: (duty.tripKm ?? 15) * random.lognormal(0.15),
      idleHours: (distanceKm / 1000) * idlePer1000Km * random.lognormal(0.2),
      ptoHours: 0,
      days,
      ambientC: (duty.ambientC ?? 12) + random.normal(0, 4),
      towingShare: 0,
      dustShare: 0,
      soakedStartsPerDay: duty.soakedStartsPerDay ?? 2,
      fuelLiters: null,
      litersPer100Km: 9,
    };
    plans.push({ exposure });
    const phaserBefore = state.phaser;
    live(state, exposure, family, own, world);
    day += Math.max(1, days);
    if (laws !== null && liveThrough(phaserBefore, state.phaser, day, laws, livesRandom, lived))
      state.phaser = 0;
    if (!random.chance(plan.share)) continue;
    const sludge = sludgeOf(state);
    findings.push(findingRecord(day, 'cover_view', viewOf(sludge + random.normal(0, world.viewNoise))));
    if (random.chance(0.5)) {
      const seen = Math.max(0, sludge + random.normal(0, world.screenNoise)) / 10;
      findings.push(findingRecord(day, 'screen_blocked_share', Math.min(1, seen * seen).toFixed(2)));
    }
    const chain = chainOf(state, world);
    if (random.chance(0.6)) {
      const degrees = degreesPerPercent * chain + bias + random.normal(0, world.phaseNoise);
      findings.push(findingRecord(day, 'phase_deviation_crank_deg', degrees.toFixed(1)));
    }
    if (random.chance(0.15))
      findings.push(
        findingRecord(
          day,
          'chain_elongation_percent',
          Math.max(0, chain + random.normal(0, 0.03)).toFixed(2),
        ),
      );
  }
  const services = plans.map((_, i) => serviceRecord(startDay + i, ['oil_change']));
  services.push(...lived.services);
  return {
    timeline: { ...timelineOf(plans, startDay), unitNumber: `U${index}` },
    history: historyOf({
      engine: family.engine,
      findings,
      services,
      codes: lived.codes,
      unitFields: { unitNumber: `U${index}`, engineFamily: family.engine.engineFamily },
    }),
    truth: { sludge: sludgeOf(state), chain: chainOf(state, world), phaser: state.phaser },
  };
}
