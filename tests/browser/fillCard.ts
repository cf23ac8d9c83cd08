import type { Page } from 'playwright-core';
import type { JobCard } from '../../models/schema/jobCard.ts';

/** Fills the card of an oil service on the page as a careful technician would; it is not sent yet. */
export async function fillOilCard(page: Page, card: JobCard, liters: number): Promise<void> {
  for (const tick of await page.locator('.card-steps input[type=checkbox]').all()) await tick.check();
  await page.getByLabel(/^Your name/).fill('Ines Farrow');
  await page.getByLabel(/^Odometer/).fill(String((card.lastOdometerKm ?? 1000) + 40));
  await page.getByLabel('Oil grade filled').fill(card.oil?.grade ?? '5W-30');
  await page.getByLabel('Oil filled, L').fill(String(liters));
  await page.getByLabel(/^Used oil collected/).fill('4.6');
  await page.getByLabel('Filter changed').check();
  await page.getByLabel('reminder said').fill('due');
}
