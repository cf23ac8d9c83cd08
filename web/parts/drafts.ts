/** What is kept on this device under a name; the fallback where there is nothing, or nothing can be read. */
export function readPlace<T>(place: string, fallback: T): T {
  try {
    const text = localStorage.getItem(place);
    return text === null ? fallback : (JSON.parse(text) as T);
  } catch {
    return fallback;
  }
}

/** @returns false where the device keeps nothing (private window, full) */
export function writePlace(place: string, value: unknown): boolean {
  try {
    if (value === null) localStorage.removeItem(place);
    else localStorage.setItem(place, JSON.stringify(value));
    return true;
  } catch {
    return false;
  }
}

const draftPlace = (name: string): string => `sumpwise.draft.${name}`;

/** What was typed and not sent yet, from this device. */
export function draftOf<T>(name: string, fallback: T): T {
  return readPlace(draftPlace(name), fallback);
}

/** Keeps what is typed on this device; null forgets it. */
export function keepDraft(name: string, value: unknown): boolean {
  return writePlace(draftPlace(name), value);
}

/** A form by field; fields may stand in groups. */
export type Typed = Readonly<Record<string, unknown>>;

const isGroup = (value: unknown): value is Typed =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** What was typed after a form was sent: its fields but for those that still say what was sent. */
export function typedSince<T extends object>(now: T, sent: object): Partial<T> {
  const before = sent as Typed;
  const left = Object.entries(now).flatMap(([name, value]: [string, unknown]) => {
    const earlier = before[name];
    if (JSON.stringify(value) === JSON.stringify(earlier)) return [];
    if (!isGroup(value) || !isGroup(earlier)) return [[name, value] as const];
    const within = typedSince(value, earlier);
    return Object.keys(within).length === 0 ? [] : [[name, within] as const];
  });
  return Object.fromEntries(left) as Partial<T>;
}
