import type { z } from 'zod';
import type { coefficientFile } from '../models/schema/coefficient.ts';

type CatalogFile = z.input<typeof coefficientFile>;

/** Every file of coefficients in data/catalog, in order of name. */
export const catalogFiles: readonly CatalogFile[] = Object.entries(
  import.meta.glob<CatalogFile>(['../data/catalog/*-coefficients.json', '../data/catalog/*-priors.json'], {
    eager: true,
    import: 'default',
  }),
)
  .sort(([a], [b]) => (a < b ? -1 : 1))
  .map(([, file]) => file);

/** Published sources that coefficients and checks name. */
export interface CatalogSource {
  readonly id: string;
  readonly title: string;
  readonly kind: string;
  readonly note?: string;
}

const sourceFiles = import.meta.glob<{ sources: CatalogSource[] } | CatalogSource[]>(
  '../data/catalog/sources.json',
  {
    eager: true,
    import: 'default',
  },
);
export const sources: readonly CatalogSource[] = Object.values(sourceFiles).flatMap((file) =>
  Array.isArray(file) ? file : file.sources,
);
