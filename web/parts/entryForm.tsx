import { useState } from 'preact/hooks';
import { typedSince } from './drafts.ts';
import { Notice } from './notice.tsx';

/** One field of a short form. */
export interface EntryField {
  readonly name: string;
  readonly label: string;
  readonly kind?: 'text' | 'date' | 'number' | 'tick';
  readonly choices?: readonly (readonly [value: string, words: string])[];
  readonly optional?: boolean;
  readonly preset?: string;
}

interface EntryFormProps {
  readonly title: string;
  readonly fields: readonly EntryField[];
  readonly button: string;
  /** under two letters nothing can be written */
  readonly by: string;
  readonly send: (values: Readonly<Record<string, string>>) => Promise<string>;
}

/** A short form that writes one thing and says what it did; what was typed stays until it worked. */
export function EntryForm({ title, fields, button, by, send }: EntryFormProps) {
  const blank = Object.fromEntries(fields.map(({ name, preset }) => [name, preset ?? '']));
  const [values, setValues] = useState<Record<string, string>>(blank);
  const [outcome, setOutcome] = useState<{ kind: 'done' | 'fault'; words: string } | null>(null);
  const [busy, setBusy] = useState(false);
  const set = (name: string, value: string): void => setValues((now) => ({ ...now, [name]: value }));
  return (
    <form
      class="entry-form no-print"
      aria-label={title}
      onSubmit={(event) => {
        event.preventDefault();
        setBusy(true);
        setOutcome(null);
        send(values)
          .then((words) => {
            setValues((now) => ({ ...blank, ...(typedSince(now, values) as Record<string, string>) }));
            setOutcome({ kind: 'done', words });
          })
          .catch((error: unknown) =>
            setOutcome({
              kind: 'fault',
              words: error instanceof Error ? error.message : String(error),
            }),
          )
          .finally(() => setBusy(false));
      }}
    >
      {fields.map(({ name, label, kind = 'text', choices, optional }) =>
        kind === 'tick' ? (
          <label key={name} class="entry-tick">
            <input
              type="checkbox"
              checked={values[name] === 'yes'}
              onChange={(event) => set(name, event.currentTarget.checked ? 'yes' : '')}
            />
            {label}
          </label>
        ) : (
          <label key={name}>
            {label}
            {choices === undefined ? (
              <EntryInput
                kind={kind}
                value={values[name]}
                required={optional !== true}
                set={(value) => set(name, value)}
              />
            ) : (
              <select
                value={values[name]}
                required={optional !== true}
                onChange={(event) => set(name, event.currentTarget.value)}
              >
                {values[name] === '' && <option value="">{optional === true ? 'any' : 'choose'}</option>}
                {choices.map(([value, words]) => (
                  <option key={value} value={value}>
                    {words}
                  </option>
                ))}
              </select>
            )}
          </label>
        ),
      )}
      <button type="submit" disabled={busy || by.trim().length < 2}>
        {button}
      </button>
      {outcome !== null && <Notice kind={outcome.kind} words={outcome.words} />}
    </form>
  );
}

interface InputProps {
  readonly kind: 'text' | 'date' | 'number';
  readonly value: string;
  readonly required: boolean;
  readonly set: (value: string) => void;
}

function EntryInput({ kind, value, required, set }: InputProps) {
  const shared = {
    value,
    required,
    onInput: (event: { currentTarget: HTMLInputElement }): void => set(event.currentTarget.value),
  };
  if (kind === 'date') return <input type="date" {...shared} />;
  return kind === 'number' ? (
    <input type="number" step="any" {...shared} />
  ) : (
    <input type="text" {...shared} />
  );
}

/** Cents of an amount as it is typed; null where none is. */
export function typedCents(text: string): number | null {
  const value = Number(text.replace(',', '.'));
  return text.trim() === '' || !Number.isFinite(value) ? null : Math.round(100 * value);
}

/** A typed text, or null where none is. */
export const typedText = (text: string): string | null => (text.trim() === '' ? null : text.trim());

/** A typed number, or null where none is. */
export const typedNumber = (text: string): number | null => {
  const cents = typedCents(text);
  return cents === null ? null : Number(text.replace(',', '.'));
};
