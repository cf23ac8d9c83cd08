import type { FleetSamples } from '../../models/schema/sampleView.ts';
import { plain } from '../format/measures.ts';
import { modelWords } from '../format/modelWords.ts';
import { counted } from '../format/words.ts';
import { ColumnHeads } from './columnHeads.tsx';

const limits = ['caution above', 'alert above', 'condemn above', 'samples'];

/** The alarm limits that the fleet's own samples give, by engine family. */
export function SampleLimits({ fleet, family }: { fleet: FleetSamples; family: string }) {
  const populations = fleet.populations.filter((entry) => family === '' || entry.engineFamily === family);
  return (
    <details>
      <summary>Alarm limits of the fleet's own samples</summary>
      <p class="muted">
        By cumulative distribution (ASTM D7720), from {fleet.leastSamples} like samples on, provisional below
        100. They are never looser than the absolute limits, which judge beside them; the first two drains
        after engine or cover work stand apart.
      </p>
      {populations.map((population) => (
        <div
          class="table-frame"
          key={population.name}
          tabIndex={0}
          role="region"
          aria-label={population.name}
        >
          <table class="stacking">
            <caption>
              {population.name}: {counted(population.samples, 'sample')}
              {population.limits.length === 0 && `, too few for limits of its own`}
            </caption>
            {population.limits.length > 0 && (
              <>
                <ColumnHeads titles={['measured', ...limits]} numbers={limits} />
                <tbody>
                  {population.limits.map((limit) => (
                    <tr key={limit.measurand}>
                      <th scope="row">
                        {limit.label}, {modelWords(limit.unit)}
                      </th>
                      <td class="number" data-name="caution above">
                        {plain(limit.caution, 2)}
                      </td>
                      <td class="number" data-name="alert above">
                        {plain(limit.alert, 2)}
                      </td>
                      <td class="number" data-name="condemn above">
                        {plain(limit.condemn, 2)}
                      </td>
                      <td class="number" data-name="samples">
                        {plain(limit.samples)}
                        {limit.provisional && ', provisional'}
                      </td>
                    </tr>
                  ))}
                </tbody>
              </>
            )}
          </table>
        </div>
      ))}
    </details>
  );
}
