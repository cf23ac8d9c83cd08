import type { CardForm } from './cardForm.ts';

/** What every part of the card needs: what is typed, how it changes, what was refused by field. */
export interface CardFilling {
  readonly form: CardForm;
  readonly faults: Readonly<Record<string, string>>;
  readonly type: (field: string, value: string) => void;
  readonly tick: (field: string, value: boolean) => void;
}

/** What was refused about a field, beside it. */
export function CardFault({ filling, field }: { filling: CardFilling; field: string }) {
  const words = filling.faults[field];
  return words === undefined ? null : (
    <strong class="card-fault" role="alert">
      {words}
    </strong>
  );
}

interface FieldProps {
  readonly filling: CardFilling;
  readonly field: string;
  readonly label: string;
  readonly kind?: 'text' | 'decimal' | 'date';
  readonly choices?: readonly (readonly [value: string, words: string])[];
}

/** One labelled field of the card. */
export function CardField({ filling, field, label, kind = 'text', choices }: FieldProps) {
  const value = filling.form.text[field] ?? '';
  const invalid = filling.faults[field] !== undefined;
  return (
    <label class="card-field">
      <span>{label}</span>
      {choices === undefined && kind === 'date' && (
        <input
          type="date"
          value={value}
          aria-invalid={invalid}
          onInput={(event) => filling.type(field, event.currentTarget.value)}
        />
      )}
      {choices === undefined && kind !== 'date' && (
        <input
          type="text"
          inputMode={kind === 'decimal' ? 'decimal' : 'text'}
          autoComplete="off"
          value={value}
          aria-invalid={invalid}
          onInput={(event) => filling.type(field, event.currentTarget.value)}
        />
      )}
      {choices !== undefined && (
        <select
          value={value}
          aria-invalid={invalid}
          onChange={(event) => filling.type(field, event.currentTarget.value)}
        >
          <option value="">not noted</option>
          {choices.map(([choice, words]) => (
            <option key={choice} value={choice}>
              {words}
            </option>
          ))}
        </select>
      )}
      <CardFault filling={filling} field={field} />
    </label>
  );
}

/** One tick of the card; the whole line is the target. */
export function CardTick({
  filling,
  field,
  label,
  preset = false,
}: {
  filling: CardFilling;
  field: string;
  label: string;
  preset?: boolean;
}) {
  return (
    <label class="card-tick">
      <input
        type="checkbox"
        checked={filling.form.ticks[field] ?? preset}
        onChange={(event) => filling.tick(field, event.currentTarget.checked)}
      />
      <span>{label}</span>
    </label>
  );
}
