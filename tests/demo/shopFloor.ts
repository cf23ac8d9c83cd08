import type { FleetRows } from '../simulation/rows.ts';
import { families } from '../simulation/family.ts';
import { places } from '../simulation/place.ts';

/** People, shelves and days on which units can't be spared. */
export function addShopFloor(rows: FleetRows): void {
  const { north, harbor, valley } = places;
  const person = (
    technician: string,
    site: string,
    skills: string,
    hoursPerDay: number,
    away?: [string, string],
  ) =>
    rows.technicians.push({
      technician,
      site,
      skills,
      hoursPerDay,
      ...(away ? { awayFrom: away[0], awayTo: away[1] } : {}),
    });
  person('Ines R.', harbor.name, 'oil;timing;electrical', 8, ['2026-11-09', '2026-11-13']);
  person('Tobin K.', harbor.name, 'oil;timing', 8);
  person('Petra L.', harbor.name, 'oil', 6);
  person('Juno A.', harbor.name, 'oil;electrical', 8, ['2026-12-21', '2027-01-01']);
  person('Maud S.', north.name, 'oil;timing;diesel', 8, ['2026-11-23', '2026-11-27']);
  person('Oskar V.', north.name, 'oil;diesel', 8);
  person('Wim D.', north.name, 'oil', 8, ['2026-11-02', '2026-11-20']);
  person('Lena M.', valley.name, 'oil;timing;diesel', 8, ['2026-12-24', '2026-12-31']);
  person('Raf T.', valley.name, 'oil', 8);

  const item = (name: string, site: string, onHand: number, leadTimeDays: number, unitCostCents: number) =>
    rows.stock.push({ item: name, site, onHand, leadTimeDays, unitCostCents });
  item('oil 5W-30', harbor.name, 180, 4, 520);
  item('oil 5W-20', harbor.name, 60, 4, 540);
  item('oil 5W-30', north.name, 90, 6, 520);
  item('oil 0W-20', north.name, 40, 6, 690);
  item('oil 5W-40', north.name, 120, 6, 610);
  item('oil 5W-30', valley.name, 50, 7, 520);
  item('oil 0W-20', valley.name, 15, 7, 690);
  item('oil 5W-40', valley.name, 60, 7, 610);
  for (const { engine } of Object.values(families)) {
    const site =
      engine.engineFamily === 'Quorrin 30D' || engine.engineFamily === 'Vessimo 20T' ? north : harbor;
    item(`filter ${engine.engineFamily}`, site.name, engine.engineFamily === 'Dorrowin 35' ? 22 : 9, 3, 1150);
    item(
      `${engine.timingDrive === 'wet_belt' ? 'belt' : 'timing_set'} ${engine.engineFamily}`,
      site.name,
      engine.engineFamily === 'Dorrowin 35' ? 1 : 0,
      18,
      engine.plannedPartsCostCents,
    );
    if (engine.phasers > 0) item(`phaser ${engine.engineFamily}`, site.name, 0, 21, 31500);
  }

  const blocked = (unitNumber: string, from: string, to: string | null, reason: string) =>
    rows.blackouts.push({ unitNumber, from, to, reason });
  blocked('2204', '2026-11-20', '2026-11-24', 'harvest parade');
  blocked('2206', '2026-11-20', '2026-11-24', 'harvest parade');
  blocked('2208', '2026-11-20', '2026-11-24', 'harvest parade');
  blocked('2211', '2026-12-31', '2027-01-01', 'new year duty');
  blocked('4404', '2026-12-01', '2027-02-28', 'first plow on the pass road');
  blocked('4405', '2026-12-01', '2027-02-28', 'first plow on the pass road');
  for (const unit of ['3302', '3303', '3304', '3305'])
    blocked(unit, 'mon,tue', null, 'full routes on Monday and Tuesday');
  blocked('3302', '2026-12-10', '2026-12-24', 'parcel season');
  blocked('3307', '2026-12-10', '2026-12-24', 'parcel season');
  blocked('6661', '2026-11-03', '2026-11-06', 'line work booked');
}
