import { useEffect, useState } from 'preact/hooks';
import type { Settings } from '../../models/schema/settings.ts';
import { RequestError, write } from '../api.ts';
import { oneIn } from '../format/chance.ts';
import { kmPerMile } from '../format/measures.ts';
import { distanceUnit, typedKm } from '../format/typedMeasures.ts';
import { typedSince } from '../parts/drafts.ts';
import { useFleetState } from '../parts/fleetState.tsx';
import { Loading, Notice } from '../parts/notice.tsx';

const numbers: readonly [keyof Settings, string, string, number, number, number][] = [
  ['horizonDays', 'Horizon of the chance of failure', 'days', 7, 1825, 1],
  ['bookWithinDays', '“Book now” when due within', 'days', 0, 90, 1],
  ['bookFailureProbability', '“Book now” from a chance of failure of', '0 to 1', 0, 1, 0.01],
  ['bookWeeksOfCapacity', "“Book now” at most this many weeks of the site's room", 'weeks', 0, 52, 0.5],
  ['bookPastChance', '“Book now” whatever the room, past the limit with a chance of', '0 to 1', 0, 1, 0.05],
  ['planWithinWeeks', '“Plan in” when due within', 'weeks', 1, 52, 1],
  ['planFailureProbability', '“Plan in” from a chance of failure of', '0 to 1', 0, 1, 0.01],
  ['watchFailureProbability', '“Watch” from a chance of failure of', '0 to 1', 0, 1, 0.01],
  ['watchRecordQuality', '“Watch” below a record quality of', '0 to 1', 0, 1, 0.05],
  ['oilServiceHours', 'Bay time of an oil service', 'hours', 0.1, 24, 0.1],
  [
    'oilShareOfShopHours',
    'Share of shop hours that is there for oil and timing work (an assumption; your shop knows better)',
    '0 to 1',
    0.01,
    1,
    0.01,
  ],
];

const chances: readonly (keyof Settings)[] = [
  'bookFailureProbability',
  'bookPastChance',
  'planFailureProbability',
  'watchFailureProbability',
];

const asFrequency = (chance: number): string => (chance > 0 && chance < 1 ? `; ${oneIn(chance)}` : '');

interface IdleProps {
  readonly km: number;
  readonly measures: Settings['measures'];
  readonly change: (km: number) => void;
}

/** What an idle hour counts for, typed in the unit of distance that is chosen above. */
function IdleDistance({ km, measures, change }: IdleProps) {
  const usual = measures === 'us' ? '25 to 33' : '40 to 53';
  const perUnit = measures === 'us' ? kmPerMile : 1;
  const inUnit = (value: number): number => Number((value / perUnit).toFixed(1));
  return (
    <label>
      Distance that one idle hour stands for ({usual} is common practice) ({distanceUnit(measures)})
      <input
        type="number"
        min={Math.ceil(inUnit(10))}
        max={Math.floor(inUnit(100))}
        step="any"
        required
        value={inUnit(km)}
        onChange={(event) => change(typedKm(event.currentTarget.valueAsNumber, measures))}
      />
    </label>
  );
}

/** Codes of ISO 4217 that the browser knows, with the one in use. */
function currencies(used: string): readonly string[] {
  return [...new Set([...Intl.supportedValuesOf('currency'), used])].sort();
}

const currencyNames = new Intl.DisplayNames(undefined, { type: 'currency' });

/** The shop's rules and measures. */
export function SettingsPage() {
  const state = useFleetState();
  const [draft, setDraft] = useState<Partial<Settings>>({});
  // what was saved stands until the state has been read again
  const [kept, setKept] = useState<Settings | null>(null);
  const [outcome, setOutcome] = useState<{ kind: 'done' | 'fault'; words: string } | null>(null);
  const [saving, setSaving] = useState(false);
  useEffect(() => {
    document.title = 'Settings · Sumpwise';
  }, []);
  useEffect(() => setKept(null), [state.data]);
  const saved = kept ?? state.data?.settings;
  if (saved === undefined)
    return (
      <main id="page">
        <h1>Settings</h1>
        <Loading what="the settings" />
      </main>
    );
  const shown: Settings = { ...saved, ...draft };
  const save = (event: Event): void => {
    event.preventDefault();
    setSaving(true);
    setOutcome(null);
    write<'saveSettings'>('/api/settings', draft, 'PUT')
      .then((settings) => {
        setKept(settings);
        setDraft((now) => typedSince(now, draft));
        setOutcome({ kind: 'done', words: 'Saved. Calls and dates follow these rules from now on.' });
        state.again();
      })
      .catch((reason: unknown) =>
        setOutcome({
          kind: 'fault',
          words: reason instanceof RequestError ? reason.message : String(reason),
        }),
      )
      .finally(() => setSaving(false));
  };
  return (
    <main id="page">
      <h1>Settings</h1>
      <form onSubmit={save} class="settings">
        <h2>On screen</h2>
        <label>
          Units of measure
          <select
            value={shown.measures}
            onChange={(event) =>
              setDraft({ ...draft, measures: event.currentTarget.value as Settings['measures'] })
            }
          >
            <option value="metric">kilometres, litres, °C, kPa</option>
            <option value="us">miles, quarts, °F, psi</option>
          </select>
        </label>
        <label>
          Currency
          <select
            value={shown.currency}
            onChange={(event) => setDraft({ ...draft, currency: event.currentTarget.value })}
          >
            {currencies(shown.currency).map((code) => (
              <option key={code} value={code}>
                {code} {currencyNames.of(code)}
              </option>
            ))}
          </select>
        </label>
        <label>
          First day of the week
          <select
            value={shown.firstDayOfWeek}
            onChange={(event) =>
              setDraft({ ...draft, firstDayOfWeek: event.currentTarget.value as Settings['firstDayOfWeek'] })
            }
          >
            <option value="monday">Monday</option>
            <option value="sunday">Sunday</option>
          </select>
        </label>
        <h2>When a unit gets which call</h2>
        <p>
          “Stop and check” comes from direct evidence alone and is ended by a technician's finding; no setting
          changes that.
        </p>
        {numbers.map(([name, title, unit, low, high, step]) => (
          <label key={name}>
            <span>
              {title} ({unit}
              {chances.includes(name) && asFrequency(Number(shown[name]))})
            </span>
            <input
              type="number"
              min={low}
              max={high}
              step={step}
              required
              value={shown[name]}
              onInput={(event) => setDraft({ ...draft, [name]: event.currentTarget.valueAsNumber })}
            />
          </label>
        ))}
        <IdleDistance
          key={shown.measures}
          km={shown.idleEquivalentKm}
          measures={shown.measures}
          change={(idleEquivalentKm) => setDraft({ ...draft, idleEquivalentKm })}
        />
        <p>
          <button type="submit" class="main" disabled={saving || Object.keys(draft).length === 0}>
            {saving ? 'Saving …' : 'Save'}
          </button>{' '}
          {Object.keys(draft).length > 0 && (
            <button type="button" onClick={() => setDraft({})}>
              Leave as it was
            </button>
          )}
        </p>
        {outcome !== null && <Notice kind={outcome.kind} words={outcome.words} />}
      </form>
    </main>
  );
}
