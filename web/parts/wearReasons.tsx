import type { UnitLooks } from '../../models/schema/looksEndpoint.ts';
import type { UnitStory } from '../../models/schema/story.ts';
import { rounded } from '../format/measures.ts';
import { modelWords } from '../format/modelWords.ts';

const names = {
  sludge: { title: 'Sludge', unit: 'of 10' },
  chain: { title: 'Chain elongation', unit: '%' },
  phaser: { title: 'Phaser wear', unit: 'of its median life' },
} as const;
type Named = keyof typeof names;

/** What made each state, the parts adding up to the whole, and what would have changed it most. */
export function WearReasons({ story, looks }: { story: UnitStory; looks: UnitLooks }) {
  const states = (Object.keys(names) as Named[]).filter((state) =>
    looks.causes.some((cause) => cause.state === state),
  );
  if (states.length === 0) return null;
  return (
    <section aria-labelledby="wear-reasons-title">
      <h2 id="wear-reasons-title">Why the wear is so</h2>
      {looks.wearSentences.map((words) => (
        <p key={words}>{modelWords(words)}</p>
      ))}
      <div class="columns">
        {states.map((state) => (
          <Parts
            key={state}
            state={state}
            looks={looks}
            whole={story[state][story[state].length - 1]?.value ?? null}
          />
        ))}
      </div>
      {looks.remedies.length > 0 && (
        <>
          <h3>What would have changed this most</h3>
          <ul>
            {looks.remedies.map((words) => (
              <li key={words}>{modelWords(words)}</li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

function Parts({ state, looks, whole }: { state: Named; looks: UnitLooks; whole: number | null }) {
  const parts = looks.causes.filter((cause) => cause.state === state).sort((a, b) => b.amount - a.amount);
  const largest = Math.max(1e-9, ...parts.map(({ amount }) => Math.abs(amount)));
  const total = whole ?? parts.reduce((sum, { amount }) => sum + amount, 0);
  // what is too small to matter is summed, so that the column still adds up
  const shown = parts.filter(({ amount }) => Math.abs(amount) >= 0.02 * Math.abs(total));
  const rest = parts.filter((part) => !shown.includes(part)).reduce((sum, { amount }) => sum + amount, 0);
  const { title, unit } = names[state];
  return (
    <div class="table-frame" tabIndex={0} role="region" aria-label={`What made ${title.toLowerCase()}`}>
      <table>
        <caption>
          {title}: {rounded(total)} {unit}
        </caption>
        <tbody>
          {shown.map(({ cause, amount }) => (
            <tr key={cause}>
              <th scope="row" class="wear-cause">
                {cause}
              </th>
              <td class="number">
                {amount < 0 ? '−' : ''}
                {rounded(Math.abs(amount))}
              </td>
              <td class="bar-cell">
                <svg viewBox="-50 0 100 8" preserveAspectRatio="none" aria-hidden="true">
                  <line x1="0" x2="0" y1="0" y2="8" class="axis" />
                  <rect
                    x={Math.min(0, (amount / largest) * 48)}
                    width={(Math.abs(amount) / largest) * 48}
                    y="1.5"
                    height="5"
                    class={amount > 0 ? 'more' : 'less'}
                  />
                </svg>
              </td>
            </tr>
          ))}
          {parts.length > shown.length && (
            <tr>
              <th scope="row" class="wear-cause">
                everything else
              </th>
              <td class="number">{rounded(rest)}</td>
              <td class="bar-cell" />
            </tr>
          )}
        </tbody>
      </table>
    </div>
  );
}
