import type { MoneyView } from '../../../models/assessment/moneyUnitOf.ts';
import { dayFromIso } from '../../../models/schema/day.ts';
import { engine } from '../../../models/schema/engine.ts';
import { site } from '../../../models/schema/site.ts';
import { unit } from '../../../models/schema/unit.ts';

const source = { id: 1, kind: 'units' as const, batch: 'b', file: 'f', line: 2 };
/** A record of nothing but what is given. */
const record = (shape: { readonly shape: object }, fields: object) => ({
  ...Object.fromEntries(Object.keys(shape.shape).map((name) => [name, null])),
  ...fields,
  source,
});

export interface MoneyViewFields {
  readonly unit?: object;
  readonly engine?: object | null;
  readonly site?: object | null;
  readonly failure?: Partial<NonNullable<MoneyView['failure']>> | null;
  readonly renewals?: MoneyView['states']['renewals'];
}

/** A unit seen on 2026-03-31: five years in service, 50 km a day, chance of failure 12 % a year. */
export function moneyView(over: MoneyViewFields = {}): MoneyView {
  return {
    history: {
      unit: record(unit, { unitNumber: 'A', inServiceOdometerKm: 0, ...over.unit }),
      engine: over.engine === null ? null : record(engine, { engineFamily: 'F1', ...over.engine }),
      site: over.site === null ? null : record(site, { site: 'S', ...over.site }),
    } as unknown as MoneyView['history'],
    timeline: {
      asOfDay: dayFromIso('2026-03-31'),
      firstDay: dayFromIso('2021-03-31'),
      odometerKm: 91_000,
      duty: { kmPerDay: 50 },
    },
    states: { renewals: over.renewals ?? [] },
    failure:
      over.failure === null
        ? null
        : {
            probability: 0.12,
            low: 0.05,
            high: 0.2,
            ownDataShare: 0.3,
            basis: 'test',
            components: { chain: null, phaser: null },
            contributions: [],
            ...over.failure,
          },
  };
}
