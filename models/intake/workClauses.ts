import type { Entry, Segment } from './workSegment.ts';
import type { Part } from './workSigns.ts';

/** It names a job or a thing, of ours or not. */
export const isNamed = (part: Part) => ['job', 'thing', 'foreign', 'oily'].includes(part.sign.is);

/** Cuts a text into segments. */
export function segmentsOf(parts: readonly Part[]): Segment[] {
  const segments: Segment[] = [];
  let begin = 0;
  let opens = true;
  const close = (end: number) => {
    const inside = parts.slice(begin, end);
    if (inside.length === 0) return;
    const entries: Entry[] = [];
    const actions: { action: string; at: number; text: string }[] = [];
    inside.forEach((part, offset) => {
      const { sign } = part;
      const at = begin + offset;
      if (sign.is === 'job')
        entries.push({ part, at, dropped: null, sure: sign.sure, given: null, lacks: null });
      if (sign.is === 'thing')
        entries.push({ part, at, dropped: null, sure: 0.94, given: null, lacks: null });
      if (sign.is === 'action') actions.push({ action: sign.action, at, text: part.text });
    });
    const hasForeign = inside.some(({ sign }) => sign.is === 'foreign' || sign.is === 'oily');
    segments.push({ parts: inside, opensClause: opens, entries, actions, hasForeign });
    opens = false;
  };
  let hasAction = false;
  let hasNamed = false;
  parts.forEach((part, at) => {
    const { is } = part.sign;
    // Without a comma: once something was said of a thing, the next action begins anew.
    if (is === 'action' && hasNamed && (hasAction || parts[at - 1]?.sign.is === 'job')) {
      close(at);
      begin = at;
      hasNamed = false;
      hasAction = false;
    }
    if (is === 'action') hasAction = true;
    if (isNamed(part)) hasNamed = true;
    if (is !== 'stop' && is !== 'join') return;
    hasNamed = false;
    hasAction = false;
    close(at);
    if (part.sign.is === 'stop') opens = true;
    begin = at + 1;
  });
  close(parts.length);
  return segments;
}
