import type { Entry, Segment } from './workSegment.ts';

/** "Oil, filter and inspect": a job of its own, not what was done to the things before it. */
const isBidding = (text: string) => /^(inspect|check|chk|ck|test|road test|scan)$/.test(text);
/** "Oil, filter, inspection": the last of a list of jobs. */
const isOwnLook = ({ parts: [only, more] }: Segment) =>
  more === undefined && only !== undefined && /^inspections?$/.test(only.text);

/** It has an object of its own, none of ours: "ck fluids", "connector cleaned"; "stat, hoses renewed" is a list. */
const hasOwnObject = ({ parts, hasForeign }: Segment) => {
  const action = parts.find(({ sign }) => sign.is === 'action');
  if (!hasForeign || action?.sign.is !== 'action') return false;
  return (
    !['renew', 'top_up', 'fill'].includes(action.sign.action) ||
    parts.findIndex(({ sign }) => sign.is === 'foreign' || sign.is === 'oily') > parts.indexOf(action)
  );
};

const isFilter = ({ part: { sign } }: Entry) => sign.is === 'thing' && sign.thing === 'filter';

/** An action of a later clause that does not reach back to the things named before it. */
export const isOfItsOwn = (own: Segment, later: Segment, first: Segment['actions'][number]) =>
  first.action === 'mend' ||
  isBidding(first.text) ||
  isOwnLook(later) ||
  hasOwnObject(later) ||
  // "Filter, brake pads measured": nobody looks at a filter.
  (first.action === 'inspect' && later.hasForeign && own.entries.some(isFilter));
