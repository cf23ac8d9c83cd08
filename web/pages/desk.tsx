import { useLocation } from 'preact-iso';
import { useEffect, useMemo, useState } from 'preact/hooks';
import { entryQuestions } from '../../models/assessment/symptomCheck.ts';
import { codesInOrder, typedCodes } from '../../models/assessment/symptomCodes.ts';
import {
  emptyForm,
  entryOfForm,
  symptomInputs,
  type SymptomForm,
} from '../../models/assessment/symptomForm.ts';
import { symptomGain } from '../../models/assessment/symptomGain.ts';
import { drawnTables, symptomRanges } from '../../models/assessment/symptomRanges.ts';
import { bareUnit } from '../../models/assessment/symptomBareUnit.ts';
import type { DeskUnit } from '../../models/schema/deskEndpoints.ts';
import type { FaultCode, FaultCodes } from '../../models/wear/faultCode.ts';
import { differential } from '../../models/wear/symptomDesk.ts';
import type { SymptomTable } from '../../models/wear/symptomTable.ts';
import type { Answer } from '../api.ts';
import { oneIn } from '../format/chance.ts';
import { typedSigns } from '../format/typedMeasures.ts';
import { CallMark } from '../parts/callMark.tsx';
import { DeskAnswer, DeskCautions, type DeskResult } from '../parts/deskAnswer.tsx';
import { DeskForm } from '../parts/deskForm.tsx';
import { DeskAskIn } from '../parts/deskAskIn.tsx';
import { DeskKeep, Questions } from '../parts/deskKeep.tsx';
import { WaitingEntries } from '../parts/deskWaiting.tsx';
import { draftOf, keepDraft, typedSince } from '../parts/drafts.ts';
import { useFleetState, useSettings } from '../parts/fleetState.tsx';
import { Loading, Notice } from '../parts/notice.tsx';
import { PageTerms } from '../parts/term.tsx';
import { useRead } from '../parts/useRead.ts';
import '../styles/desk.css';

const nameDraft = 'technician';
const shownChecks = 4;
/** Questions about what was typed; those about name and day wait until it is to be kept. */
const asked = new Set([
  'share_or_percent',
  'phase_geometry',
  'phase_no_chain',
  'code_form',
  'out_of_range',
  'not_a_number',
  'unknown_unit',
]);

/** From signs to causes: what to check next, with cautions first, and the findings kept with the unit. */
export function DeskPage() {
  const { query, route } = useLocation();
  const state = useFleetState();
  const desk = useRead<'desk'>('/api/desk', {}, state.data?.revision);
  useEffect(() => {
    document.title = 'Symptom desk · Sumpwise';
  }, []);
  const typed = query.unit ?? '';
  const listed = desk.data?.units.find(
    ({ unitNumber }) => unitNumber.toLowerCase() === typed.trim().toLowerCase(),
  );
  const unit = useRead<'deskUnit'>(
    listed === undefined ? null : `/api/units/${encodeURIComponent(listed.unitNumber)}/desk`,
    {},
    state.data?.revision,
  );
  return (
    <main id="page" class="desk">
      <h1>Symptom desk</h1>
      <label class="desk-number desk-unit">
        <span>Unit</span>
        <input
          type="text"
          list="desk-units"
          autoComplete="off"
          value={typed}
          onInput={(event) => route(`/desk?unit=${encodeURIComponent(event.currentTarget.value)}`, true)}
        />
        <datalist id="desk-units">
          {(desk.data?.units ?? []).map(({ unitNumber, site, engineFamily }) => (
            <option key={unitNumber} value={unitNumber}>
              {[site, engineFamily].filter((word) => word !== null).join(', ')}
            </option>
          ))}
        </datalist>
      </label>
      {desk.data === null ? (
        desk.error === null ? (
          <Loading what="the desk" />
        ) : (
          <Notice kind="fault" words={desk.error.message} action="Try again" onAction={desk.again} />
        )
      ) : (
        <Desk
          key={listed?.unitNumber ?? ''}
          unitNumber={listed?.unitNumber ?? ''}
          desk={desk.data}
          unit={listed === undefined ? null : unit.data}
          unknown={typed.trim() !== '' && listed === undefined ? typed.trim() : null}
          again={state.again}
        />
      )}
      <PageTerms ids={['correlation', 'screen', 'phaser', 'chain_elongation', 'sludge', 'fuel_dilution']} />
    </main>
  );
}

/** What was typed for a unit before; what was typed without a unit goes to the one that is chosen then. */
function begunForm(draft: string): SymptomForm {
  const loose = draftOf<Partial<SymptomForm> | null>(draftName(''), null);
  const own = draftOf<Partial<SymptomForm> | null>(draft, null);
  if (own === null && loose !== null) {
    keepDraft(draftName(''), null);
    keepDraft(draft, loose);
  }
  return { ...emptyForm, ...(own ?? loose), technician: draftOf(nameDraft, '') };
}

const draftName = (unitNumber: string): string => `desk.${unitNumber}`;

interface DeskProps {
  readonly unitNumber: string;
  readonly desk: Answer<'desk'>;
  readonly unit: DeskUnit | null;
  /** a number that is not on record */
  readonly unknown: string | null;
  readonly again: () => void;
}

function Desk({ desk, unitNumber, unit, unknown, again }: DeskProps) {
  const draft = draftName(unitNumber);
  const [form, setForm] = useState<SymptomForm>(() => begunForm(draft));
  const change = (part: Partial<SymptomForm>): void => {
    const next = { ...form, ...part };
    setForm(next);
    keepDraft(draft, { ...next, technician: '' });
    if (part.technician !== undefined) keepDraft(nameDraft, part.technician);
  };
  const clear = (): void => {
    setForm({ ...emptyForm, technician: form.technician });
    keepDraft(draft, null);
  };
  /** what has reached the store goes; what was typed since stays */
  const settle = (sent: object): void => {
    setForm((now) => ({ ...emptyForm, ...typedSince(now, sent), technician: now.technician }));
    again();
  };
  const table = desk.table as SymptomTable;
  const { coefficients } = desk;
  const drawn = useMemo(() => drawnTables(table), [table]);
  const faultCodes: FaultCodes = useMemo(
    () => new Map((desk.faultCodes as FaultCode[]).map((code) => [code.code, code])),
    [desk],
  );
  const { measures } = useSettings();
  const signs = useMemo(() => typedSigns(form, measures), [form, measures]);
  const facts = unit ?? bareUnit(desk.asOf, coefficients);
  const result = useMemo((): DeskResult => {
    const setting = {
      table,
      engine: { interference: facts.interference, drive: facts.drive, chainLimit: facts.chainLimit },
      faultCodes,
      coefficients,
      states: unit,
    };
    const inputs = symptomInputs(signs, facts);
    const answer = differential(inputs, setting);
    return {
      answer,
      ranges: symptomRanges(inputs, setting, drawn),
      gains: symptomGain(answer, table, shownChecks),
      codes: codesInOrder(typedCodes(signs.codes), faultCodes),
      begun: Object.values(inputs).some((value) => value !== null),
    };
  }, [signs, unit, table, drawn, faultCodes, coefficients]);
  const entry = entryOfForm(signs);
  const open = entryQuestions(entry, facts, coefficients).filter(({ code }) => asked.has(code));
  const [likeliest] = result.answer.causes;
  const [next] = result.gains;
  return (
    <>
      <WaitingEntries
        under="/api/units/"
        onSent={(entry) => settle(entry.draft?.name === draft ? entry.draft.typed : {})}
      />
      {unit !== null && (
        <p>
          <CallMark call={unit.call} />{' '}
          <a href={`/units/${encodeURIComponent(unit.unitNumber)}`}>Unit {unit.unitNumber}</a>{' '}
          <span class="muted">
            {[unit.site, unit.engineFamily].filter((word) => word !== null).join(', ')}; its own wear is
            weighed
          </span>
        </p>
      )}
      {unknown !== null && (
        <Notice
          kind="hint"
          words={`There is no unit ${unknown} on record: the signs are weighed without its history, and nothing can be kept with it.`}
        />
      )}
      {unit === null && unknown === null && (
        <p class="muted">
          Without a unit the signs are weighed for any engine with a timing chain; choose one to weigh its own
          wear and keep what you find.
        </p>
      )}
      <DeskCautions cautions={result.answer.cautions} />
      <div class="desk-columns">
        <div>
          <DeskForm form={form} change={change} />
          <Questions questions={open} form={form} change={change} />
          <p class="no-print">
            <button type="button" onClick={clear}>
              Begin again
            </button>
          </p>
        </div>
        <DeskAnswer result={result} />
      </div>
      {unit !== null && (
        <DeskKeep
          unit={unit}
          coefficients={coefficients}
          form={form}
          change={change}
          draft={draft}
          onStore={settle}
        />
      )}
      {unit !== null && result.begun && <DeskAskIn unit={unit} next={next} />}
      {result.begun && (
        <a class="desk-strip no-print" href="#desk-answer">
          <strong>{likeliest.label}</strong>, {oneIn(likeliest.probability)}
          {next !== undefined && <span>. Next: {next.label}</span>}
        </a>
      )}
    </>
  );
}
