import type { ChargeStory, RecordLink, UnitStory } from '../../models/schema/story.ts';
import type { LifeAxis, PlacedMark } from '../charts/lifeLanes.ts';
import { date } from '../format/dates.ts';
import { distance } from '../format/measures.ts';
import { modelWords } from '../format/modelWords.ts';
import { limitName } from '../format/words.ts';
import { useSettings } from './fleetState.tsx';

/** Heights of the lanes, px at scale 1; the label column uses the same. */
export const lanes = { oil: 66, meter: 44, marks: 52, years: 20 } as const;
const blockHeight = 42;
/** Room that a letter of the lanes takes, px; words that do not fit their block are left to its details. */
const letterWidth = 7.5;

const pressed = (event: KeyboardEvent, act: () => void): void => {
  if (event.key !== 'Enter' && event.key !== ' ') return;
  event.preventDefault();
  act();
};

/** Whether the records leave open that the oil was changed in between. */
const isDoubtful = (charge: ChargeStory): boolean =>
  !charge.startKnown || charge.notes.some((note) => note.includes('unrecorded'));

interface ChargeBlockProps {
  readonly charge: ChargeStory;
  readonly axis: LifeAxis;
  readonly chosen: boolean;
  readonly choose: () => void;
}

/** A charge as a block filled to the share of its interval that was used; past it solid, in doubt hatched. */
export function ChargeBlock({ charge, axis, chosen, choose }: ChargeBlockProps) {
  const x = axis.place(charge.from);
  const span = Math.max(3, axis.place(charge.to) - x - 1);
  const used = charge.usedShare ?? 0;
  const filled = Math.min(1, used) * blockHeight;
  const doubtful = isDoubtful(charge);
  const { measures } = useSettings();
  const run = distance(charge.distanceKm, measures);
  const limit = charge.governingLimit === null ? '' : limitName(charge.governingLimit);
  const fits = (words: string): boolean => words.length * letterWidth < span;
  return (
    <>
      <g
        role="button"
        tabindex={0}
        class={chosen ? 'charge chosen' : 'charge'}
        aria-label={`Oil from ${date(charge.from)}: ${run}${charge.intervalKm === null ? '' : ` of ${distance(charge.intervalKm, measures, true)}`}${limit === '' ? '' : `, governed by ${limit}`}${doubtful ? ', drains may be missing from the records' : ''}`}
        aria-pressed={chosen}
        onClick={choose}
        onKeyDown={(event) => pressed(event, choose)}
      >
        <rect
          x={x}
          y={4 + blockHeight - filled}
          width={span}
          height={filled}
          class={doubtful ? 'doubt' : used > 1 ? 'past' : 'fill'}
        />
        <rect x={x} y="4" width={span} height={blockHeight} class={doubtful ? 'frame unsure' : 'frame'} />
      </g>
      <g class="lane-words" aria-hidden="true">
        {fits(run) && !doubtful && (
          <text x={x + 4} y="18" class={used > 0.75 ? 'on-ink' : undefined}>
            {run}
          </text>
        )}
        {fits(limit) && (
          <text x={x} y={blockHeight + 18}>
            {limit}
          </text>
        )}
      </g>
    </>
  );
}

/** The odometer's course over the axis. */
export function MeterLane({
  meters,
  axis,
  top,
}: {
  meters: UnitStory['meters'];
  axis: LifeAxis;
  top: number;
}) {
  const known = meters.flatMap(({ on, odometerKm }) => (odometerKm === null ? [] : [{ on, odometerKm }]));
  const most = Math.max(1, ...known.map((point) => point.odometerKm));
  const path = known.map((point) => `${axis.place(point.on)} ${top + 36 - (point.odometerKm / most) * 30}`);
  return path.length < 2 ? null : (
    <polyline points={path.join(', ')} class="meter">
      <title>Odometer</title>
    </polyline>
  );
}

const shapes: Readonly<Record<string, string>> = {
  codes: 'M0 -6l7 12h-14z',
  findings: 'M0 -7l7 7l-7 7l-7 -7z',
  samples: 'M-5 -5h10v10h-10z',
  service: 'M-6 -3h12v6h-12z',
};

interface MarkProps {
  readonly mark: PlacedMark;
  readonly top: number;
  readonly right: number;
  readonly open: (link: RecordLink) => void;
}

/** A record that speaks of the inside of the engine; opens it. */
export function Mark({ mark, top, right, open }: MarkProps) {
  const words = `${date(mark.on)}: ${modelWords(mark.words.join('; '))}`;
  const act = (): void => {
    if (mark.link !== null) open(mark.link);
  };
  const x = Math.max(8, Math.min(right - 8, mark.x));
  return (
    <g
      role="button"
      tabindex={0}
      class={`mark mark-${mark.kind}`}
      aria-label={words}
      transform={`translate(${x} ${top + 9 + mark.row * 16})`}
      onClick={act}
      onKeyDown={(event) => pressed(event, act)}
    >
      <title>{words}</title>
      <path d={shapes[mark.kind] ?? shapes.findings} />
    </g>
  );
}
