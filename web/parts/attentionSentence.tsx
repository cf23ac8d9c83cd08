import type { FleetList, UnitLine } from '../../models/schema/fleetList.ts';
import { defaultSettings } from '../../models/schema/settings.ts';
import { dueColumn, type FirstDay } from '../charts/dueByWeek.ts';
import { counted } from '../format/words.ts';

/** One sentence: what must stop, what is past or due this week and where, and whether there is room. */
export function attentionSentence(units: readonly UnitLine[], fleet: FleetList, firstDay: FirstDay) {
  const stop = units.filter((unit) => unit.call === 'stop');
  const columns = units.map((unit) => dueColumn(fleet.asOf, unit.oil?.dueOn ?? null, firstDay));
  const past = columns.filter((column) => column === 0).length;
  const week = units.filter((_, index) => columns[index] === 1);
  const bySite = new Map<string, number>();
  for (const unit of week) bySite.set(unit.site ?? 'no site', (bySite.get(unit.site ?? 'no site') ?? 0) + 1);
  const sites = new Set(units.map((unit) => unit.site));
  const room = fleet.capacities
    .filter((capacity) => sites.has(capacity.site))
    .reduce((sum, capacity) => sum + capacity.visitsPerWeek, 0);
  const need = past + week.length;
  const share = Math.round(100 * (fleet.capacities.at(0)?.shopShare ?? 1));
  const assumed = share === Math.round(100 * defaultSettings.oilShareOfShopHours);
  const apart =
    share === 100
      ? ''
      : `, in the ${share} % of shop hours ${assumed ? 'assumed (Settings)' : 'set apart'} for it`;
  return (
    <p class="sentence">
      {stop.length === 0 ? (
        'Nothing must stop. '
      ) : (
        <>
          <strong>
            {counted(stop.length, 'unit')} must stop and be checked:{' '}
            {stop.map((unit) => unit.unitNumber).join(', ')}.
          </strong>{' '}
        </>
      )}
      {past === 0
        ? 'No oil is past due'
        : `${counted(past, 'unit')} ${past === 1 ? 'is' : 'are'} past due for oil`}
      {week.length === 0
        ? ', none falls due this week.'
        : `, ${counted(week.length, 'more falls', 'more fall')} due this week (${[...bySite]
            .sort((a, b) => b[1] - a[1])
            .map(([site, count]) => `${site} ${count}`)
            .join(', ')}).`}{' '}
      {room > 0 &&
        (need <= room
          ? `There is room: up to ${counted(Math.floor(room), 'oil service')} a week${apart}.`
          : `That is more than the ${counted(Math.floor(room), 'oil service')} a week there is room for${apart}: it takes about ${counted(Math.ceil(need / room), 'week')}.`)}
    </p>
  );
}
