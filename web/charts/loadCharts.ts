/** Loads the drawing library; asked for early by pages that will draw, so that it comes beside their figures. */
export function loadCharts(): Promise<typeof import('./register.ts')> {
  return import('./register.ts');
}
