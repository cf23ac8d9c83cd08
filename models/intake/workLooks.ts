import type { Segment } from './workSegment.ts';
import type { Part } from './workSigns.ts';
import type { Job } from './workThings.ts';

/** "Diagnosed, replaced …": looking for the fault belongs to the repair. */
export function isBareDiagnosis({ entries, hasForeign, actions, parts }: Segment): boolean {
  return (
    (entries.length === 0 || (parts.some(({ sign }) => sign.is === 'symptom') && actions.length > 0)) &&
    !hasForeign &&
    actions.every(({ text }) => /^(diag|test|verif|scan|road ?test|investigat|confirm)/.test(text))
  );
}

/** A look that is always work of its own: "LOF, insp". */
const ofItsOwn = /pressure|sample|muestra|echantillon|probe\b|\binsp(ect|ection)?s?$|^revis(ion|ao|ione)$/;

/** "Tensioner renewed, rechecked for leaks; chain ok": beside a repair a look without an object of ours belongs to it. */
export const isLookAlone = ({ entries, actions, parts }: Segment) =>
  entries.every(
    ({ dropped, part: { sign, text } }) =>
      sign.is === 'thing' &&
      (dropped === 'fine' || (sign.thing === 'timing_check' && /mark|sync/.test(text))),
  ) &&
  !(
    entries.some(({ dropped }) => dropped === 'fine') && actions.some(({ action }) => action === 'inspect')
  ) &&
  !parts.some(({ text }) => ofItsOwn.test(text));

/** "Consumption test start: oil and filter changed": what it is done for. */
export const isConsumption = ({ parts }: Segment) =>
  parts.some(({ text }) => /consumption|verbrauch/.test(text));

/** "Tested CKP, dead. Replaced CKP": the look was at what was renewed. */
export const isOfRenewed = ({ entries, parts }: Segment, jobs: readonly Job[]) =>
  entries.length > 0 &&
  !parts.some(({ text }) => /^(?:also|other|separate|separately|second)\b/.test(text)) &&
  entries.every(
    ({ part: { sign } }) =>
      sign.is === 'thing' &&
      sign.thing !== 'filter' &&
      jobs.some(({ work }) => work === sign.thing || (work === 'timing_set' && sign.thing === 'bare_chain')),
  );

const driveWord =
  /^(road ?test|test driv|test drove|test ran|test rode|drove|took (?:it )?for|rode along|ride along|spin around|probefahrt|essai routier|prueba de ruta)/;
const scanWord =
  /^(scan|diag|codes? (?:read|pull|scan|retrieved|checked)|read (?:out )?codes?|pulled codes?|retrieved codes|checked codes|computer scan|hooked (?:up )?(?:the )?scanner|plugged in (?:the )?scanner)/;

/** "Scan only", "road test for rattle": it reads codes or drives, and looks at no part. */
export const isDriveOrScan = ({ actions, entries }: Segment) =>
  entries.every(
    ({ part: { sign } }) =>
      sign.is === 'thing' &&
      (sign.thing === 'engine' ||
        sign.thing === 'timing_check' ||
        (sign.thing === 'oil_leak' && actions.every(({ text }) => driveWord.test(text)))),
  ) &&
  actions.length > 0 &&
  actions.every(({ text }) => driveWord.test(text) || scanWord.test(text));

const ofLevels =
  /\b(fluids|levels|lvls|niveaux|niveles|livelli|niveis|flussigkeitsstande|flussigkeiten|vloeistoffen|plyny|poziomy|nivaer|vatskor)\b/;

/** "Changed oil, checked levels": a check without an object of its own belongs to the job. */
export const isOwnCheck = ({ entries, actions, parts }: Segment) =>
  (actions.length > 0 || entries.some(({ part: { text } }) => ofLevels.test(text))) &&
  actions.every(({ text }) =>
    /^(re)?(check|chk|ck|controll|kontrol|revisad|verif|sprawdz|gepruft)/.test(text),
  ) &&
  entries.every(
    ({ part: { sign, text } }) =>
      ofLevels.test(text) || (sign.is === 'thing' && (sign.thing === 'oil_level' || sign.thing === 'oil')),
  ) &&
  !parts.some(({ text }) => /pressure|sample|gauge|inspection/.test(text));

const drive: ReadonlySet<string> = new Set([
  'timing_set',
  'bare_chain',
  'tensioner_guides',
  'phaser',
  'belt',
]);
/** It names a piece of the timing drive, which is looked at for its own sake. */
export const isOfDrive = ({ entries, parts }: Segment) =>
  entries.some(({ part: { sign } }) => sign.is === 'thing' && drive.has(sign.thing)) ||
  parts.some(({ text }) => /pass(?:ed)?|cover/.test(text));
const sawWord =
  /found|look|inspect|check|scope|cover|pulled|measur|confirm|heard|quot|declin|stretch|broke|worn|approv|cotiz|devis|angebot|kostenvor|preventivo|orcamento|wycen|offerte|autoriz|presupuest/;

/** "Chain stretched, quoted", "belt looked at, small cracks": what was found worn, and not renewed, was looked at. */
export const isFoundWorn = (parts: readonly Part[], segments: readonly Segment[]) =>
  parts.some(({ sign }) => sign.is === 'symptom') &&
  segments.some(({ entries }) =>
    entries.some(
      ({ part: { sign }, dropped }) => sign.is === 'thing' && drive.has(sign.thing) && dropped !== 'foreign',
    ),
  ) &&
  parts.some(({ text }) => sawWord.test(text));

const leakSeen = /\b(?:leak|leaks|leaking|loss|seep|seeps|seepage|seeping|weep|damp)\b/;
const leakSought =
  /\b(?:looked|look|looking|search|searched|hunt|traced?|dye|inspect|inspected|check|checked|source)\b/;

const lookPlace =
  /\b(?:dipstick|stick|oil cap|filler cap|fill cap|filler neck|fill neck|filler hole|fill hole|filler|valve cover|rocker cover|cam cover|timing cover|front cover|cover off|covers off|drain plug magnet|oil (?:color|colour|smell)|old filter|filter open)\b/;
const lookVerb =
  /\b(?:pulled|opened|popped|cracked open|removed|off|dipped|looked?|peek|peeked|saw|seen|borescoped?|boroscoped?|scoped|camera|smelled|wiped|fished|thru|through|cut|inspect|check|checked|inspected|compared|measured)\b/;
const lookFound =
  /\b(?:full|clean|black|milky|sludg\w*|varnish\w*|slack|extended|worn|chipped|cracked|broken|tight|gritty|grit|metal|glitter|flakes|swarf|fuzz|debris|ok|okay|good|fine|none|level|in range|dirty|dark|thick|diluted|coked?|coking|tar|moderate|heavy|light|missing|intact)\b/;

/** "Pulled dipstick, level good", "cover off, guides chipped, quoted": something was opened for a look, and nothing done. */
export function isOpenedToLook(parts: readonly Part[]): boolean {
  if (parts.some(({ sign }) => sign.is === 'action' && !['inspect', 'move', 'clean'].includes(sign.action)))
    return false;
  const said = parts.map(({ text }) => text).join(' ');
  const isOil = /\boil\b/.test(said) && !parts.some(({ sign }) => sign.is === 'oily');
  if (isOil && leakSeen.test(said) && leakSought.test(said)) return true;
  return lookPlace.test(said) && lookVerb.test(said) && lookFound.test(said);
}
