import { isNamed } from './workClauses.ts';
import type { Entry, Segment } from './workSegment.ts';
import { isFaultCode, type Part } from './workSigns.ts';

/** Clauses as ranges of segments: each begins where one opens a clause. */
function clausesOf(segments: readonly Segment[]): Segment[][] {
  const clauses: Segment[][] = [];
  for (const segment of segments)
    if (segment.opensClause || clauses.length === 0) clauses.push([segment]);
    else clauses[clauses.length - 1]?.push(segment);
  return clauses;
}

function dropBackwards(segments: readonly Segment[], at: number): void {
  for (let index = segments.length - 1; index >= 0; index -= 1) {
    const segment = segments[index];
    const before = segment?.entries.filter((entry) => entry.at < at) ?? [];
    if (segment === undefined || before.length === 0) continue;
    for (const entry of before) entry.dropped ??= 'undone';
    // "oil and filter not changed": what has no action of its own goes with it.
    const earlier = segments[index - 1];
    if (segment.opensClause || earlier === undefined || earlier.actions.length > 0) return;
  }
}

/** It was wanted, which does not say that it was not done. */
const isWanted =
  /^(rescheduled|postponed|overdue|past due|due|due at|due in|due by|due on|needed|required|requested|scheduled|planned|recommended|suggested|ordered|on order|denied by warranty|do wymiany|da sostituire|a remplacer|a changer|a cambiar)$/;
const isLeft = /^(left|stays|remains|bleibt|belassen|laisse|conserv|se deja|se queda|mant|lasciat|zosta)/;
const isDone =
  /^(done|performed|complete|completed|carried out|did|did it|did so|so did|went ahead|go ahead|ok d|approved)$/;

const isSentOut = /^(?:sent|out|dropped|taken|went|to|sublet)\b.*\b(?:for|to|out)$/;
const isDid = /^(?:did|did the|performed|completed|carried out|finished)$/;
const isPast = /^(?:was|were|war|etait|era|byl|bylo)$/;
const isDoneThere =
  /^(?:done|performed|performed job|complete|completed|did|did it|did the job|picked up|back today|back|returned|came back|charged|invoice|finished)$/;

/** "Not needed yet per sticker": what follows only says who says so. */
const isReason = /^(per|by|laut|selon|segun|acc|according to)$/;
/** "Postponed til spring": no object of its own. */
const isUntil = /^(til|till|until|bis|hasta)$/;
const doesOther = (part: Part | undefined) =>
  part?.sign.is === 'action' && (part.sign.action === 'mend' || part.sign.action === 'clean');

const saysNothing = new Set(['filler', 'link', 'number', 'bank', 'plain', 'join', 'stop']);

/** A clause of its own that says it was done after all: "done", "installed today". */
const isDoneOnly = (clause: readonly Segment[]) => {
  const said = clause.flatMap(({ parts }) => parts).filter(({ sign }) => sign.is !== 'stop');
  const tells = ({ sign, text }: Part) =>
    isDone.test(text) || (sign.is === 'action' && sign.action === 'renew');
  return said.some(tells) && said.every((part) => tells(part) || saysNothing.has(part.sign.is));
};

const ownSaid = /^(?:not|due|ok|advised|recommended|suggested|offered|pending|needed|required)\b/;
/** "Overhead not due": a word that is not known stands before it, of which it speaks. */
const hasOwnSubject = (places: readonly { readonly part: Part; readonly at: number }[], at: number) =>
  places.some((place) => place.at < at && place.part.sign.is === 'unknown' && place.part.text.length > 3);

/** "Tensioner renewed. Chain reused": it names of what it speaks. */
const ofItself = /^(chains?|belt|guides?|phasers?|tensioner) \w/;

const isRenewal = ({ sign }: Part) => sign.is === 'action' && sign.action === 'renew';
const isOwnDeed = ({ sign }: Part) =>
  (sign.is === 'action' && ['renew', 'clean', 'inspect'].includes(sign.action)) || sign.is === 'amount';
const isNegation = /^(?:not|never|no|without|next|later)\b/;

const hasAction = (clause: readonly Segment[] | undefined, wanted: string) =>
  clause?.some(({ actions }) => actions.some(({ action }) => action === wanted)) === true;

/** "No filter (out of stock)", "no filter wanted": the word says why what stands before it was left out. */
function isLeftOut(parts: readonly Part[], entries: readonly Entry[], at: number): boolean {
  const last = entries.filter((entry) => entry.at < at).at(-1);
  return last !== undefined && last.dropped === 'undone' && parts[last.at - 1]?.sign.is === 'without';
}

/** Only "service": it names nothing. */
const isVague = ({ sign }: Part) => sign.is === 'job' && sign.works.includes('other');

const nothingDone =
  /^(?:no ?shows?|no work(?: done| needed)?|nothing done|nothing was done|did nothing|sent away|turned away|not serviced)$/;
const noParts =
  /^(?:no parts?(?: used| needed| replaced| changed| fitted)?|nothing (?:replaced|changed|fitted|renewed))$/;
const isNext = /^(?:at |for )?(?:next|upcoming)\b/;
const endsList = /^[.;|\n!?]$/;

/** "Declined: LOF, thermostat. Done: brakes": a heading speaks of all up to the full stop or a heading of its own. */
function dropListed(parts: readonly Part[], segments: readonly Segment[]): void {
  const all = segments.flatMap(({ entries }) => entries);
  parts.forEach(({ sign, text }, at) => {
    const mark = parts[at + 1]?.text ?? '';
    const isTelling =
      sign.is === 'refused' || sign.is === 'undone' || (sign.is === 'ahead' && isNext.test(text));
    if (!isTelling || (mark !== ':' && mark !== '(')) return;
    let end = at + 2;
    const isOpen = (text: string) => (mark === '(' ? text !== ')' : !endsList.test(text) && text !== ':');
    while (end < parts.length && isOpen(parts[end]?.text ?? '')) end += 1;
    for (const entry of all) if (entry.at > at && entry.at < end) entry.dropped ??= 'undone';
  });
}

const asks = /^(recommend|quote|declin|advis|suggest|need|request|refus)/;

/** "Recommend LOF, PCV, thermostat. All declined": what opens a sentence speaks of the bare list behind it. */
function dropAsked(parts: readonly Part[], segments: readonly Segment[]): void {
  const all = segments.flatMap(({ entries }) => entries);
  parts.forEach(({ sign, text }, at) => {
    if ((sign.is !== 'refused' && sign.is !== 'undone') || !asks.test(text)) return;
    const before = parts[at - 1];
    if (before !== undefined && !endsList.test(before.text)) return;
    let end = at + 1;
    while (end < parts.length && !endsList.test(parts[end]?.text ?? '')) end += 1;
    const list = parts.slice(at + 1, end);
    if (
      list.some(({ sign: { is } }) => is === 'action' || is === 'fine' || is === 'undone' || is === 'refused')
    )
      return;
    for (const entry of all) if (entry.at > at && entry.at < end) entry.dropped ??= 'undone';
  });
}

/** Drops what a word beside it says was not done: declined, due, next, without. */
export function dropUndone(parts: readonly Part[], segments: readonly Segment[]): void {
  const clauses = clausesOf(segments);
  dropListed(parts, segments);
  dropAsked(parts, segments);
  if (parts.some(({ text }) => nothingDone.test(text)) && !parts.some(isRenewal))
    for (const { entries, actions } of segments)
      if (actions.length === 0) for (const entry of entries) entry.dropped ??= 'undone';
  // "Cam sensor wiring chafed, taped. No parts".
  if (parts.some(({ text }) => noParts.test(text)) && !parts.some(isOwnDeed))
    for (const { entries, actions } of segments)
      for (const entry of entries)
        if (actions.length === 0 && entry.part.sign.is === 'thing') entry.dropped ??= 'undone';
  clauses.forEach((clause, clauseAt) => {
    const all = clause.flatMap(({ entries }) => entries);
    const places = clause.flatMap((segment) =>
      segment.parts.map((part) => ({ part, at: parts.indexOf(part), segment })),
    );
    let isAhead = false;
    const isBare = places.every(({ part }) =>
      ['undone', 'refused', 'filler', 'link', 'unknown', 'plain'].includes(part.sign.is),
    );
    for (const { part, at, segment } of places) {
      const is = part.sign.is;
      const next = parts[at + 1]?.sign.is;
      if (
        is === 'without' &&
        (next === 'action' || next === 'filler') &&
        !segment.entries.some((entry) => entry.at > at)
      )
        dropBackwards(clause, at);
      if (is === 'without')
        for (const entry of segment.entries) if (entry.at > at) entry.dropped ??= 'undone';
      if (is === 'ahead') {
        // "3k since last: new oil": it says since when.
        if (part.text.startsWith('since') && parts[at + 1]?.text === ':') continue;
        isAhead = true;
        const says = places.some(
          (place) => place.at > at && (isNamed(place.part) || place.part.sign.is === 'number'),
        );
        if (!says && !part.text.startsWith('since')) dropBackwards(clause, at);
        for (const entry of all) if (entry.at > at) entry.dropped ??= 'undone';
      }
      if ((is !== 'undone' && is !== 'refused') || isAhead) continue;
      // "LOF as well, was due": it says why.
      if (/^(?:over)?due$/.test(part.text) && isBare && places.some((place) => isPast.test(place.part.text)))
        continue;
      // "Overdue oil change performed".
      if (
        isWanted.test(part.text) &&
        places.some((place) => place.at > at && isDone.test(place.part.text)) &&
        !places.some((place) => place.part.sign.is === 'undone' && !isWanted.test(place.part.text))
      )
        continue;
      // "Did overdue LOF".
      if (isWanted.test(part.text) && isDid.test(parts[at - 1]?.text ?? '')) continue;
      // "Ordered & came in & installed both".
      const behind = places.filter((place) => place.at > at);
      if (
        isWanted.test(part.text) &&
        behind.some((place) => isRenewal(place.part)) &&
        !behind.some((place) => isNamed(place.part) || isNegation.test(place.part.text))
      )
        continue;
      // "Belt due at 100k - done".
      if (isWanted.test(part.text) && isDoneOnly(clauses[clauseAt + 1] ?? [])) continue;
      // "Sent to dealer for timing set. Dealer performed job": it was done there.
      if (isSentOut.test(part.text) && parts.slice(at).some(({ text }) => isDoneThere.test(text))) continue;
      // "Declined flush": it has an object of its own.
      const refusesAnother =
        is === 'refused' && doesOther(parts.slice(at + 1).find(({ sign }) => sign.is !== 'link'));
      if (refusesAnother) continue;
      const isOwn = (place: { readonly part: Part; readonly at: number }) =>
        place.at > at &&
        isNamed(place.part) &&
        !isVague(place.part) &&
        !isReason.test(parts[place.at - 1]?.text ?? '') &&
        !(place.part.sign.is === 'foreign' && isUntil.test(parts[place.at - 1]?.text ?? ''));
      if (places.some(isOwn)) {
        for (const entry of all) if (entry.at > at) entry.dropped ??= 'undone';
      } else if (places.some((place) => place.at < at && isNamed(place.part))) {
        if (!isLeftOut(parts, all, at)) dropBackwards(clause, at);
      }
      // "Chain inspected; replacement declined": the look was had.
      else if (
        // "Bank 1 done, bank 2 scheduled": it speaks of the other bank.
        !places.some((place) => place.at < at && place.part.sign.is === 'bank') &&
        !isLeftOut(parts, clauses[clauseAt - 1]?.flatMap(({ entries }) => entries) ?? [], at) &&
        !ofItself.test(part.text) &&
        (is === 'refused' || (isBare && !(ownSaid.test(part.text) && hasOwnSubject(places, at)))) &&
        !places.some((place) => place.at < at && isFaultCode(place.part.text)) &&
        !(
          (hasAction(clause, 'renew') || isLeft.test(part.text)) &&
          hasAction(clauses[clauseAt - 1], 'inspect')
        )
      )
        dropBackwards(clauses[clauseAt - 1] ?? [], at);
    }
  });
}

/** "LOF without filter": the job is named as a whole, its filter is said not to have been renewed. */
export function dropLackingFilter(parts: readonly Part[], segments: readonly Segment[]): void {
  const isFilter = ({ part: { sign } }: Entry) =>
    sign.is === 'thing' && (sign.thing === 'filter' || sign.thing === 'bare_filter');
  const entries = segments.flatMap((segment) => segment.entries);
  const isLacking = (entry: Entry) =>
    entry.dropped === 'undone' || parts[entry.at - 1]?.sign.is === 'without';
  if (!entries.some((entry) => isFilter(entry) && isLacking(entry))) return;
  for (const entry of entries)
    if (entry.part.sign.is === 'job' && entry.part.sign.works.includes('filter')) entry.lacks = 'filter';
}

/** "O/F changed w/o oil": only the filter was renewed. */
export function dropLackingOil(parts: readonly Part[], segments: readonly Segment[]): void {
  const entries = segments.flatMap((segment) => segment.entries);
  const isLacking = ({ part: { sign }, at }: Entry) =>
    sign.is === 'thing' && sign.thing === 'oil' && parts[at - 1]?.sign.is === 'without';
  if (!entries.some(isLacking)) return;
  for (const entry of entries)
    if (entry.part.sign.is === 'job' && entry.part.sign.works.includes('filter')) entry.lacks = 'oil_change';
}
