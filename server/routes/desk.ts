import type { Express } from 'express';
import { symptomUnit } from '../../models/assessment/symptomUnit.ts';
import { symptomTable } from '../../models/wear/symptomTable.ts';
import table from '../../data/catalog/symptom-desk.json';
import type { Context } from '../context.ts';
import { fleetModels } from '../fleetModels.ts';
import type { FleetList } from '../../models/schema/fleetList.ts';
import { askFleet } from '../services/askFleet.ts';
import { unitViewOf } from '../services/unitNow.ts';
import { keepFindings } from '../services/deskKeep.ts';
import { unitLooksOf } from '../services/deskLooks.ts';
import { serveEndpoint } from './endpoint.ts';
import { noUnitInService, Problem } from './problem.ts';

/** The symptom desk: its tables, one unit as it weighs it, and what is kept with the unit. */
export function deskRoutes(app: Express, context: Context): void {
  const parsed = symptomTable.parse(table);
  const evidence = Object.fromEntries(
    Object.entries(context.coefficients).filter(([id]) => id.startsWith('evidence.')),
  );
  serveEndpoint(app, 'desk', async () => {
    const store = await context.current();
    const { text } = await askFleet(context, store, { name: 'list' });
    const { units, asOf } = JSON.parse(text) as FleetList;
    return {
      asOf,
      table: parsed,
      faultCodes: [...fleetModels(context.coefficients).faultCodes.values()],
      coefficients: evidence,
      units: units.map(({ unitNumber, site, engineFamily, call }) => ({
        unitNumber,
        site,
        engineFamily,
        call,
      })),
    };
  });
  serveEndpoint(app, 'deskUnit', async ({ params, query }) => {
    const view = await unitViewOf(context, await context.current(), params.unitNumber, query.asOf);
    if (view === null) throw noUnitInService(params.unitNumber);
    return symptomUnit(view, context.coefficients);
  });
  serveEndpoint(app, 'looks', async ({ params, query }) => {
    const looks = await unitLooksOf(
      context,
      await context.current(),
      params.unitNumber,
      query.asOf,
      query.horizonDays,
    );
    if (looks === null) throw noUnitInService(params.unitNumber);
    return looks;
  });
  serveEndpoint(app, 'keepFindings', async ({ params, body }) => {
    const result = await keepFindings(context, await context.current(), params.unitNumber, body);
    if ('noUnit' in result) throw noUnitInService(params.unitNumber);
    if ('questions' in result)
      throw new Problem(422, 'questions', result.questions.map(({ message }) => message).join(' '), {
        questions: result.questions,
      });
    return result;
  });
}
