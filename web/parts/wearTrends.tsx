import { useMemo } from 'preact/hooks';
import type { StatePoint, UnitStory } from '../../models/schema/story.ts';
import { ChartCanvas } from '../charts/chart.tsx';
import { trendChart } from '../charts/trend.ts';
import { rounded } from '../format/measures.ts';

interface TrendProps {
  readonly title: string;
  readonly unit: string;
  readonly points: readonly StatePoint[];
  readonly measured: readonly { on: string; value: number }[];
  readonly missing: string | null;
  readonly hint: string;
}

function Trend({ title, unit, points, measured, missing, hint }: TrendProps) {
  const configure = useMemo(() => trendChart(points, measured, unit), [points, measured, unit]);
  const now = points[points.length - 1];
  return (
    <section>
      <h3>{title}</h3>
      {now === undefined ? (
        <p class="muted">{missing ?? 'Not known.'}</p>
      ) : (
        <>
          <p>
            {rounded(now.low)} to {rounded(now.high)} {unit}, most likely {rounded(now.value)}. {hint}
          </p>
          <ChartCanvas
            configure={configure}
            height={190}
            summary={`${title}: ${rounded(now.value)} ${unit} now, range ${rounded(now.low)} to ${rounded(now.high)}, ${measured.length} measured points`}
          />
        </>
      )}
    </section>
  );
}

/** Sludge, chain and phaser over time: band with line, measured points on top. */
export function WearTrends({ story }: { story: UnitStory }) {
  const { notKnown } = story.assessment;
  const measuredOf = (state: 'sludge' | 'chain' | 'phaser') =>
    story.evidence
      .filter((entry) => entry.state === state && entry.value !== null)
      .map((entry) => ({ on: entry.on, value: entry.value as number }));
  return (
    <section aria-labelledby="wear-title">
      <h2 id="wear-title">Wear inside, with its range</h2>
      <div class="columns">
        <Trend
          title="Sludge"
          unit="(0 clean to 10)"
          points={story.sludge}
          measured={measuredOf('sludge')}
          missing={notKnown.sludge ?? null}
          hint="10 minus the merit rating."
        />
        <Trend
          title="Chain elongation"
          unit="%"
          points={story.chain}
          measured={measuredOf('chain')}
          missing={notKnown.chain ?? null}
          hint="The maker's limit comes first."
        />
        <Trend
          title="Phaser wear"
          unit="(1 = median end of life)"
          points={story.phaser}
          measured={measuredOf('phaser')}
          missing={notKnown.phaser ?? null}
          hint=""
        />
      </div>
    </section>
  );
}
