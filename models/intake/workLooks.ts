import type { Segment } from './workSegment.ts';
import type { Part } from './workSigns.ts';
import { is } from './workThings.ts';

/** "Diagnosed, replaced …": looking for the fault belongs to the repair. */
export function isBareDiagnosis({ entries, hasForeign, actions, parts }: Segment): boolean {
  return (
    (entries.length === 0 || (parts.some(({ sign }) => sign.is === 'symptom') && actions.length > 0)) &&
    !hasForeign &&
    actions.every(({ text }) => /^(diag|test|verif|scan|road ?test|investigat|confirm)/.test(text))
  );
}

/** "Scan only", "road test for rattle": it reads codes or drives, and looks at no part. */
export const isDriveOrScan = ({ actions, entries }: Segment) =>
  entries.every(
    ({ part: { sign } }) =>
      sign.is === 'thing' &&
      (sign.thing === 'engine' ||
        (sign.thing === 'oil_leak' &&
          actions.every(({ text }) => /^(road ?test|test driv|drove|test drove)/.test(text)))),
  ) &&
  actions.length > 0 &&
  actions.every(({ text }) => /^(scan|diag|road ?test|test driv|drove|test drove|probefahrt)/.test(text));

const ofLevels =
  /\b(fluids|levels|lvls|niveaux|niveles|livelli|niveis|flussigkeitsstande|flussigkeiten|vloeistoffen|plyny|poziomy|nivaer|vatskor)\b/;

/** "Changed oil, checked levels": a check without an object of its own belongs to the job. */
export const isOwnCheck = ({ entries, actions, parts }: Segment) =>
  (actions.length > 0 || entries.some(({ part: { text } }) => ofLevels.test(text))) &&
  actions.every(({ text }) =>
    /^(re)?(check|chk|ck|controll|kontrol|revisad|verif|sprawdz|gepruft)/.test(text),
  ) &&
  entries.every(
    ({ part: { sign, text }, dropped }) =>
      ofLevels.test(text) ||
      (sign.is === 'thing' && (sign.thing === 'oil_level' || (sign.thing === 'oil' && dropped !== null))),
  ) &&
  !parts.some(({ text }) => /pressure|sample|gauge|inspection/.test(text));

const drive: ReadonlySet<string> = new Set([
  'timing_set',
  'bare_chain',
  'tensioner_guides',
  'phaser',
  'belt',
]);
const sawWord =
  /found|look|inspect|check|scope|cover|pulled|measur|confirm|heard|quot|declin|stretch|broke|worn|approv/;

/** "Chain stretched, quoted": what was found worn was looked at. */
export const isFoundWorn = (parts: readonly Part[], segments: readonly Segment[]) =>
  segments.some(
    (segment) =>
      is(segment, 'symptom') &&
      segment.entries.some(
        ({ part: { sign }, dropped }) =>
          sign.is === 'thing' && drive.has(sign.thing) && dropped !== 'foreign',
      ),
  ) && parts.some(({ text }) => sawWord.test(text));
