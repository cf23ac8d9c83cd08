import type { Locator, Page } from 'playwright-core';

/** The row of a batch in the list of intakes; it is there once the list has been read after that intake. */
export function batchRow(page: Page, batch: string): Locator {
  const cell = page.getByRole('cell', { name: batch, exact: true });
  return page.getByRole('region', { name: 'Intakes' }).getByRole('row').filter({ has: cell });
}
