/** A unit on a list of what must or must not be done, with the action where one is named. */
export interface ListedUnit {
  readonly unitNumber: string;
  readonly action?: (typeof listedActions)[number];
}

const listedActions = ['renew', 'look', 'clean'] as const;

/**
 * Reads an entry of a list: a unit number, or a unit number, a colon and what is to be done on it.
 * @returns '12:look' → { unitNumber: '12', action: 'look' }; a colon before anything else belongs to the number
 */
export function listedUnit(text: string): ListedUnit {
  const [, unitNumber, word] = /^(.*):\s*(\w+)$/.exec(text.trim()) ?? [];
  const action = listedActions.find((name) => name === word?.toLowerCase());
  return unitNumber === undefined || action === undefined
    ? { unitNumber: text.trim() }
    : { unitNumber: unitNumber.trim(), action };
}
