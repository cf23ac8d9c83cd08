import type { Segment } from './workSegment.ts';
import { is, type TextAround } from './workThings.ts';

const isOilText = (segments: readonly Segment[]) =>
  segments.some(({ entries }) =>
    entries.some(
      ({ part: { sign }, dropped }) =>
        dropped === null &&
        ((sign.is === 'thing' && (sign.thing === 'oil' || sign.thing === 'filter')) ||
          (sign.is === 'job' && sign.works.some((work) => work === 'oil_change' || work === 'filter'))),
    ),
  );

/** What the whole of a text names, beside which each of its things is read. */
export interface Mentions extends Omit<TextAround, 'amount'> {
  /** a filter is named, be it only to say that it stays */
  readonly namesFilter: boolean;
}

/** Finds what the segments of a text name. */
export function mentionsOf(segments: readonly Segment[]): Mentions {
  const mentionsOil = isOilText(segments);
  const mentionsOily =
    segments.some((segment) => is(segment, 'oily')) &&
    !segments.some(
      (segment) =>
        is(segment, 'grade') ||
        segment.entries.some(({ part: { sign } }) =>
          sign.is === 'job' ? sign.works.includes('oil_change') : sign.is === 'thing' && sign.thing === 'oil',
        ),
    );
  const named = segments.flatMap(({ entries }) =>
    entries.flatMap(({ part: { sign, text }, dropped }) =>
      dropped === null && sign.is === 'thing' ? [`${sign.thing} ${text}`] : [],
    ),
  );
  const mentionsTiming = named.some((name) =>
    /^(timing_set|tensioner_guides|phaser|bare_timing) /.test(name),
  );
  const mentionsVariableTiming =
    mentionsTiming ||
    // codes of the cam timing's circuits and angles, SAE J2012
    segments.some(({ parts }) => parts.some(({ text }) => /^p00[12][0-9a-f]$/.test(text))) ||
    named.some((name) => /^(timing_check vvt|timing_check vct|screen |bare_screen |cam_sensor )/.test(name));
  const mentionsSolenoid = named.some((name) => name.startsWith('oil_control_solenoid '));
  const isOilAndFilter =
    named.some((name) => name.startsWith('filter') || name.startsWith('bare_filter')) ||
    (named.includes('oil lube') && named.length > 1);
  const namesFilter =
    isOilAndFilter ||
    segments.some(({ entries }) =>
      entries.some(
        ({ part: { sign }, dropped }) =>
          dropped === 'undone' &&
          sign.is === 'thing' &&
          (sign.thing === 'filter' || sign.thing === 'bare_filter'),
      ),
    );
  return {
    mentionsOil,
    mentionsOily,
    mentionsTiming,
    mentionsSolenoid,
    mentionsVariableTiming,
    isOilAndFilter,
    namesFilter,
  };
}
