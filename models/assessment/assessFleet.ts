import { limitBooked, type CalledUnit } from '../decisions/bookingLimit.ts';
import type { CondemningLimits } from '../oil/condemningLimits.ts';
import type { OilCatalog } from '../oil/oilFill.ts';
import { poolDuty } from '../oil/dutyPool.ts';
import { buildTimeline } from '../oil/usageTimeline.ts';
import { fleetPriorsFrom } from '../reliability/fleet/fleetPriors.ts';
import { fitFleet } from '../reliability/fleet/fitFleet.ts';
import type { FleetFit } from '../reliability/fleet/fleetFit.ts';
import type { Episode } from '../reliability/fleet/episode.ts';
import { seededRandom } from '../reliability/numeric/seededRandom.ts';
import type { Assessment, UnitAssessment } from '../schema/assessment.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { dayFromIso } from '../schema/day.ts';
import type { FleetHistory } from '../schema/history.ts';
import { fleetStates } from '../wear/fleetStates.ts';
import type { FaultCodes } from '../wear/faultCode.ts';
import { fleetAlarms, type FleetAlarms } from './alarmPopulations.ts';
import { inService } from './assembleFleet.ts';
import { unitAssessmentOf, viewUnit } from './assessUnit.ts';
import type { UnitView } from './unitView.ts';
import { fillReader, fillsOfUnit } from './fillsOfUnit.ts';
import { failureCovariateSpecs } from './failureCovariates.ts';
import { failureEpisodes } from './failureEpisodes.ts';
import { forecastUnits, type FleetChances } from './forecastUnits.ts';
import { fleetMessages } from './fleetMessages.ts';
import { modelVersion } from './modelVersion.ts';
import { callMoneySetting } from './renewalPays.ts';
import { capacitiesOf, siteRooms } from './siteRoom.ts';

/** The catalogs that the models work with. */
export interface Models {
  readonly coefficients: Coefficients;
  readonly faultCodes: FaultCodes;
  readonly oilCatalog: OilCatalog;
  readonly condemningLimits: CondemningLimits;
}

/** A fleet worked through: the document, and what each unit's page is made from. */
export interface FleetView {
  readonly assessment: Assessment;
  readonly views: ReadonlyMap<string, UnitView>;
  readonly fit: FleetFit;
  /** every timing set known on the day, those of units that left included */
  readonly episodes: readonly Episode[];
  readonly forecast: FleetChances;
  readonly alarms: FleetAlarms;
}

const seed = 20_260_331;

/** Every unit's timeline and the lives of its timing sets, those that left the fleet included: they teach the model. */
function workThrough(fleet: FleetHistory, models: Models) {
  const { coefficients, faultCodes } = models;
  const asOfDay = dayFromIso(fleet.asOf);
  const pooled = poolDuty(fleet.units, coefficients, fleet.settings, asOfDay);
  const hoursKnown = fleet.units.some(
    ({ readings, services }) =>
      readings.some((reading) => reading.engineHoursH !== null) ||
      services.some((service) => service.engineHoursH !== null),
  );
  const readFill = fillReader(models.oilCatalog, coefficients);
  return fleet.units.map((history) => {
    const timeline = buildTimeline(history, pooled, coefficients, fleet.settings, asOfDay);
    const fillOf = fillsOfUnit(history, readFill, coefficients);
    const episodes: readonly Episode[] = failureEpisodes({
      timeline,
      history,
      fillOf,
      faultCodes,
      coefficients,
      hoursKnown,
    });
    return { history, timeline, fillOf, readFill, episodes };
  });
}

/** Text that changes when the records known or the coefficients change, in any order of records. */
function versionText(fleet: FleetHistory, coefficients: Coefficients): string {
  const values = Object.keys(coefficients)
    .sort()
    .map((id) => `${id}=${coefficients[id]}`);
  return [modelVersion, fleet.asOf, fleet.units.length, ...values].join(' ');
}

/**
 * Assesses a fleet from what was known on a day: duty, oil, wear, chance of failure, call, for every unit in service.
 * The same records give the same document, whatever their order.
 * @param horizonDays horizon of the chance of failure, d
 */
export function assessFleet(fleet: FleetHistory, models: Models, horizonDays: number): FleetView {
  const { coefficients, faultCodes } = models;
  const { settings } = fleet;
  const asOfDay = dayFromIso(fleet.asOf);
  const all = workThrough(fleet, models);
  const states = fleetStates(
    all.map(({ timeline, history, fillOf }) => ({
      timeline,
      history,
      context: { fillOf, coefficients, faultCodes },
    })),
  );
  const random = seededRandom(seed);
  const episodes = all.flatMap((unit) => unit.episodes);
  const fit = fitFleet({
    episodes,
    covariates: failureCovariateSpecs(coefficients),
    priors: fleetPriorsFrom(coefficients),
    random,
    versionText: versionText(fleet, coefficients),
  });
  const active = all
    .map((unit, index) => ({ ...unit, states: states[index] }))
    .filter(({ history }) => inService(history, fleet.asOf));
  const forecast = forecastUnits(fit, active, horizonDays, coefficients, random);
  const alarms = fleetAlarms(all, models.condemningLimits, coefficients);
  const money = callMoneySetting(horizonDays, fit.shape.value);
  const views = active.map(({ history, timeline, fillOf, readFill, states: own }, index) =>
    viewUnit({
      history,
      timeline,
      states: own,
      fillOf,
      oilCatalog: models.oilCatalog,
      readFill,
      limits: models.condemningLimits,
      alarms,
      failure: forecast.units[index],
      failureReason: null,
      money,
      coefficients,
      settings,
    }),
  );
  const rooms = siteRooms(fleet, coefficients);
  const called = limitBooked(
    views.map((view): CalledUnit => ({
      unitNumber: view.history.unit.unitNumber,
      site: view.history.unit.site,
      result: view.call,
      dueDayMedian: view.oil?.due?.dueDay ?? null,
      chancePastNow: view.oil?.due?.chancePastNow ?? 0,
      failureProbability: view.failure?.probability ?? null,
      visitHours: settings.oilServiceHours,
    })),
    rooms,
    settings,
    asOfDay,
    coefficients['shop.default_site_hours'],
  );
  const units = views.map((view, index): UnitAssessment => unitAssessmentOf(view, called[index]));
  const newest = units.reduce<string | null>(
    (latest, unit) =>
      unit.lastRecordOn !== null && (latest === null || unit.lastRecordOn > latest)
        ? unit.lastRecordOn
        : latest,
    null,
  );
  return {
    assessment: {
      asOf: fleet.asOf,
      horizonDays,
      modelVersion: `${modelVersion}-${fit.version}`,
      newestRecordOn: newest,
      messages: fleetMessages(fleet, units, rooms, fit),
      expectedFailures: units.length === 0 ? null : forecast.expected,
      capacities: capacitiesOf(rooms, settings.oilServiceHours),
      units,
    },
    views: new Map(views.map((view) => [view.history.unit.unitNumber, view])),
    fit,
    episodes,
    forecast,
    alarms,
  };
}
