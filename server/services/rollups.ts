import type { Assessment, UnitAssessment } from '../../models/schema/assessment.ts';
import type { RollupResponse } from '../../models/schema/endpoints.ts';
import { danfo } from '../files/danfo.ts';

type Group = RollupResponse['groups'][number];

const keys = {
  site: (unit: UnitAssessment) => unit.site,
  duty: (unit: UnitAssessment) => unit.dutyName,
  engineFamily: (unit: UnitAssessment) => unit.engineFamily,
} as const;

const missing = Number.NaN;

/**
 * Counts, means and sums of the fleet by site, duty and engine family, grouped by danfo.js. A mean is over the units
 * for which the value is known; null where none is.
 */
export async function fleetRollups(result: Assessment): Promise<RollupResponse> {
  if (result.units.length === 0) return { groups: [] };
  const { DataFrame } = await danfo();
  const groups: Group[] = [];
  for (const by of ['site', 'duty', 'engineFamily'] as const) {
    const frame = new DataFrame({
      name: result.units.map((unit) => keys[by](unit) ?? 'not known'),
      kmPerDay: result.units.map((unit) => unit.duty.kmPerDay ?? missing),
      idleShare: result.units.map((unit) => unit.duty.idleShare ?? missing),
      past: result.units.map((unit) => ((unit.oil?.usedShare ?? 0) > 1 ? 1 : 0)),
      sludge: result.units.map((unit) => unit.sludge?.index ?? missing),
      failure: result.units.map((unit) => unit.failure?.probability ?? missing),
    });
    const rows: Group['rows'] = [];
    for (const [name, part] of Object.entries(
      frame.groupby(['name']).colDict as Record<string, Record<string, number[]>>,
    )) {
      rows.push({
        name,
        units: part.past.length,
        meanKmPerDay: mean(part.kmPerDay),
        meanIdleShare: mean(part.idleShare),
        pastDue: part.past.reduce((sum, value) => sum + value, 0),
        meanSludge: mean(part.sludge),
        expectedFailures: sumKnown(part.failure),
      });
    }
    rows.sort((a, b) => b.units - a.units || (a.name < b.name ? -1 : 1));
    groups.push({ by, rows });
  }
  return { groups };
}

function known(values: readonly number[]): number[] {
  return values.filter((value) => Number.isFinite(value));
}

function mean(values: readonly number[]): number | null {
  const list = known(values);
  return list.length === 0 ? null : list.reduce((sum, value) => sum + value, 0) / list.length;
}

function sumKnown(values: readonly number[]): number | null {
  const list = known(values);
  return list.length === 0 ? null : list.reduce((sum, value) => sum + value, 0);
}
