import type { ComponentChildren } from 'preact';

interface DeskChoiceProps<T extends string> {
  readonly title: string;
  readonly name: string;
  readonly value: T;
  readonly choices: readonly (readonly [T, string])[];
  readonly choose: (value: T) => void;
  readonly children?: ComponentChildren;
}

/** A question with a few large answers for a thumb; the first answer is "not checked". */
export function DeskChoice<T extends string>({
  title,
  name,
  value,
  choices,
  choose,
  children,
}: DeskChoiceProps<T>) {
  return (
    <fieldset class="desk-choice">
      <legend>{title}</legend>
      <div class="desk-answers">
        {choices.map(([choice, words]) => (
          <label key={choice}>
            <input type="radio" name={name} checked={choice === value} onChange={() => choose(choice)} />
            <span>{words}</span>
          </label>
        ))}
      </div>
      {children}
    </fieldset>
  );
}

interface DeskNumberProps {
  readonly title: string;
  readonly unit: string;
  readonly value: string;
  readonly enter: (value: string) => void;
  readonly hint?: string;
}

/** A measured value as typed, its unit beside it. */
export function DeskNumber({ title, unit, value, enter, hint }: DeskNumberProps) {
  return (
    <label class="desk-number">
      <span>
        {title} <span class="muted">({unit})</span>
      </span>
      <input
        type="text"
        inputMode="decimal"
        autoComplete="off"
        value={value}
        onInput={(event) => enter(event.currentTarget.value)}
      />
      {hint !== undefined && <span class="muted">{hint}</span>}
    </label>
  );
}
