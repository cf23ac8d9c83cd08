import { useLocation } from 'preact-iso';
import { useEffect, useMemo } from 'preact/hooks';
import { searchUnits, unitOfCode } from '../../models/intake/unitSearch.ts';
import type { FoundUnit } from '../../models/schema/unitEndpoints.ts';
import { counted } from '../format/words.ts';
import { useFleetState } from '../parts/fleetState.tsx';
import { Loading } from '../parts/notice.tsx';
import { ReadFault } from '../parts/readFault.tsx';
import { ScanUnit } from '../parts/scanUnit.tsx';
import { TakeAlong } from '../parts/takeAlong.tsx';
import { useRead } from '../parts/useRead.ts';
import '../styles/find.css';

const shown = 12;

/** A unit by its number or VIN, scanned or typed, and from there to its page, the desk, a card: with one thumb. */
export function FindPage() {
  const { query, route } = useLocation();
  const state = useFleetState();
  const { data, error, again } = useRead<'find'>('/api/find', {}, state.data?.revision);
  const typed = query.unit ?? '';
  const found = useMemo(() => searchUnits(typed, data?.units ?? []), [typed, data]);
  useEffect(() => {
    document.title = 'Find a unit · Sumpwise';
  }, []);
  const type = (text: string): void =>
    route(text === '' ? '/find' : `/find?unit=${encodeURIComponent(text)}`, true);
  const scanned = (text: string): boolean => {
    const unit = unitOfCode(text, data?.units ?? []);
    if (unit !== null) type(unit.unitNumber);
    return unit !== null;
  };
  return (
    <main id="page" class="find">
      <h1>Find a unit</h1>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          if (found.length > 0) route(pageOf(found[0]));
        }}
      >
        <label class="find-number">
          <span>Number, or the last characters of the VIN</span>
          <input
            type="search"
            autoCapitalize="characters"
            autoComplete="off"
            spellcheck={false}
            enterKeyHint="go"
            value={typed}
            onInput={(event) => type(event.currentTarget.value)}
          />
        </label>
      </form>
      {data === null ? (
        error === null ? (
          <Loading what="the units" />
        ) : (
          <ReadFault error={error} again={again} />
        )
      ) : (
        <>
          <ScanUnit onRead={scanned} />
          <p class="muted" role="status">
            {data.units.length === 0
              ? 'No unit is in service yet. Bring the units in on the page Intake.'
              : typed.trim() === ''
                ? `${counted(data.units.length, 'unit')} in service.`
                : found.length === 0
                  ? `No unit in service answers to “${typed.trim()}”. Check the number, or bring the unit in on the page Intake.`
                  : found.length > shown
                    ? `${counted(found.length, 'unit')} answer; the first ${shown} are shown.`
                    : `${counted(found.length, 'unit answers', 'units answer')}.`}
          </p>
          <ul class="find-units">
            {found.slice(0, shown).map((unit) => (
              <Found unit={unit} key={unit.unitNumber} />
            ))}
          </ul>
          <TakeAlong asOf={data.asOf} />
        </>
      )}
    </main>
  );
}

const pageOf = ({ unitNumber }: FoundUnit): string => `/units/${encodeURIComponent(unitNumber)}`;

function Found({ unit }: { unit: FoundUnit }) {
  const number = encodeURIComponent(unit.unitNumber);
  const told = [unit.description, unit.engineFamily, unit.site].filter((part) => part !== null);
  return (
    <li>
      <a class="find-unit" href={pageOf(unit)}>
        <strong>{unit.unitNumber}</strong> <span>{told.join(', ')}</span>
        {unit.vin !== null && <span class="muted">VIN {unit.vin}</span>}
      </a>
      <nav class="find-actions" aria-label={`Unit ${unit.unitNumber}`}>
        <a href={`/desk?unit=${number}`}>Symptom desk</a>
        <a href={`/card/new?unit=${number}`}>Job card</a>
        <a href={`/units/${number}/history`}>Service history</a>
      </nav>
    </li>
  );
}
