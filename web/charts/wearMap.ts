import type { ChartConfiguration } from 'chart.js';
import { calls, type Call, type UnitAssessment } from '../../models/schema/assessment.ts';
import { oneIn } from '../format/chance.ts';
import { rounded } from '../format/measures.ts';
import { callWords } from '../format/words.ts';
import type { Theme } from './ink.ts';

/** A unit with both states known. */
export interface MappedUnit {
  readonly unitNumber: string;
  readonly call: Call;
  readonly sludge: { readonly index: number; readonly low: number; readonly high: number };
  readonly chain: { readonly elongationPercent: number; readonly low: number; readonly high: number };
  /** null: not known, drawn small */
  readonly failureProbability: number | null;
}

/** The units that can be placed, and why the others can not, with how many. */
export function placeable(units: readonly UnitAssessment[]): {
  readonly mapped: readonly MappedUnit[];
  readonly left: readonly (readonly [reason: string, count: number])[];
} {
  const mapped: MappedUnit[] = [];
  const left = new Map<string, number>();
  for (const { unitNumber, call, sludge, chain, failure, notKnown } of units) {
    if (sludge !== null && chain !== null) {
      mapped.push({ unitNumber, call, sludge, chain, failureProbability: failure?.probability ?? null });
      continue;
    }
    const reason =
      sludge === null ? `sludge ${notKnown.sludge ?? 'not known'}` : `chain ${notKnown.chain ?? 'not known'}`;
    left.set(reason, (left.get(reason) ?? 0) + 1);
  }
  return { mapped, left: [...left].sort((a, b) => b[1] - a[1]) };
}

/** Shape of a call; with its ink an order that survives greyscale and photocopies. */
export const callShapes = {
  stop: 'rect',
  book: 'rectRot',
  plan: 'triangle',
  watch: 'circle',
  clear: 'circle',
} as const satisfies Record<Call, string>;

/** Radius whose area grows with the chance of failure, px at scale 1; 1 in 2 and above are largest. */
export function chanceRadius(probability: number | null): number {
  return 4 + 10 * Math.sqrt(Math.min(0.5, probability ?? 0) / 0.5);
}

/** Units of each call that is there, in the order in which they are drawn: the least urgent first, so that the rest lies on top. */
export function byCall(mapped: readonly MappedUnit[]): readonly (readonly [Call, readonly MappedUnit[]])[] {
  return calls
    .map((call) => [call, mapped.filter((unit) => unit.call === call)] as const)
    .filter(([, units]) => units.length > 0);
}

/**
 * Sludge against elongation: one shape and ink per call, size by the chance of failure, the ranges of the chosen unit as
 * bars under its point.
 */
export function wearMap(mapped: readonly MappedUnit[], chosen: MappedUnit | null) {
  const groups = byCall(mapped);
  return (theme: Theme): ChartConfiguration<'line'> => {
    const size = 13 * theme.scale;
    const fill: Record<Call, string> = {
      stop: theme.ink,
      book: theme.ink,
      plan: theme.muted,
      watch: theme.line,
      clear: theme.paper,
    };
    const bar = (from: readonly [number, number], to: readonly [number, number]) => ({
      label: 'range of the chosen unit',
      data: [
        { x: from[0], y: from[1] },
        { x: to[0], y: to[1] },
      ],
      borderColor: theme.accent,
      borderWidth: 4 * theme.scale,
      pointRadius: 0,
      order: 10,
    });
    return {
      type: 'line',
      data: {
        datasets: [
          ...groups.map(([call, units], index) => ({
            label: callWords[call],
            data: units.map(({ chain, sludge }) => ({ x: chain.elongationPercent, y: sludge.index })),
            showLine: false,
            pointStyle: callShapes[call],
            pointRadius: units.map((unit) => chanceRadius(unit.failureProbability) * theme.scale),
            pointHoverRadius: units.map((unit) => (2 + chanceRadius(unit.failureProbability)) * theme.scale),
            backgroundColor: fill[call],
            borderColor: theme.ink,
            borderWidth: 1,
            pointBorderWidth: 1,
            clip: false as const,
            order: index,
          })),
          ...(chosen === null
            ? []
            : [
                bar([chosen.chain.low, chosen.sludge.index], [chosen.chain.high, chosen.sludge.index]),
                bar(
                  [chosen.chain.elongationPercent, chosen.sludge.low],
                  [chosen.chain.elongationPercent, chosen.sludge.high],
                ),
              ]),
        ],
      },
      options: {
        interaction: { mode: 'nearest', intersect: true },
        scales: {
          x: axis(theme, size, 'chain elongation, %'),
          y: { ...axis(theme, size, 'sludge, 0 clean to 10'), max: 10 },
        },
        plugins: {
          legend: {
            position: 'bottom',
            labels: {
              color: theme.ink,
              usePointStyle: true,
              font: { size },
              filter: (item) => (item.datasetIndex ?? 0) <= groups.length,
            },
          },
          tooltip: {
            filter: (item) => item.datasetIndex < groups.length,
            callbacks: {
              title: (items) => {
                const unit = items[0] && groups[items[0].datasetIndex]?.[1][items[0].dataIndex];
                return unit ? `unit ${unit.unitNumber}, ${callWords[unit.call]}` : '';
              },
              label: (item) => {
                const unit = groups[item.datasetIndex]?.[1][item.dataIndex];
                return unit === undefined ? '' : rangeWords(unit);
              },
            },
          },
        },
      },
    };
  };
}

function axis(theme: Theme, size: number, text: string) {
  return {
    type: 'linear' as const,
    beginAtZero: true,
    grid: { color: theme.line },
    border: { display: false },
    ticks: { color: theme.ink, font: { size } },
    title: { display: true, text, color: theme.muted, font: { size } },
  };
}

/** A unit's states with their ranges and its chance, in one line. */
export function rangeWords({ sludge, chain, failureProbability }: MappedUnit): string {
  const chance =
    failureProbability === null ? 'chance of failure not known' : `fails ${oneIn(failureProbability)}`;
  return `sludge ${rounded(sludge.low)} to ${rounded(sludge.high)}, elongation ${rounded(chain.low)} to ${rounded(chain.high)} %, ${chance}`;
}
