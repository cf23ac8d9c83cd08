import { z } from 'zod';

/** The ladder of service categories as `data/catalog/service-categories.json` holds it. */
export const categoryFile = z.object({
  title: z.string(),
  source: z.string(),
  kind: z.string(),
  assumedGasoline: z.string().describe('category assumed for a petrol engine when none is known'),
  assumedDiesel: z.string(),
  categories: z.array(
    z.object({
      id: z.string(),
      title: z.string(),
      year: z.number().int(),
      covers: z.array(z.string()).describe('categories it stands in for, next lower ones only'),
      aliases: z.array(z.string()),
      use: z.enum(['gasoline', 'diesel', 'both']),
      current: z.boolean(),
      dispersancyFactor: z.number().positive(),
      chainWearFactor: z.number().positive(),
      baseNumber: z.number().positive(),
      acidNumber: z.number().positive(),
      phosphorusPpm: z.tuple([z.number(), z.number()]).describe('range of fresh and used oil'),
      gradesOnly: z.array(z.string()).optional(),
      note: z.string().optional(),
    }),
  ),
});
export type CategoryTable = z.infer<typeof categoryFile>;
export type ServiceCategory = CategoryTable['categories'][number];

/** Letters, digits and plus only, in capitals: "api sn plus" and "SN+" read alike. */
const plain = (text: string): string =>
  text
    .toUpperCase()
    .replace(/\bPLUS\b/g, '+')
    .replace(/[^A-Z0-9+]/g, '');

/** Ways a category is written: in full, without the body's name, and its aliases. */
function spellings(category: ServiceCategory): string[] {
  const bodies = /^(API|ILSAC|ACEA)\s+/;
  return [category.id, ...category.aliases].flatMap((name) => [plain(name), plain(name.replace(bodies, ''))]);
}

/**
 * The categories that a text names: "API SP/CK-4, ILSAC GF-6A", "sn plus", "C3". Longer names are taken first, so that
 * SN PLUS is not read as SN. Single letters and parts of other words are not read.
 * @returns in the order of the text's parts; empty when none
 */
export function categoriesIn(text: string | null, table: CategoryTable): readonly ServiceCategory[] {
  if (text === null) return [];
  const byName = namesOf(table);
  const words = text
    .toUpperCase()
    .replace(/\+/g, ' PLUS ')
    .split(/[\s,;|()]+/)
    .flatMap((word) => (byName.has(plain(word)) ? [word] : word.split('/')))
    .filter((word) => word !== '');
  const found: ServiceCategory[] = [];
  for (let at = 0; at < words.length; at++)
    for (let length = Math.min(3, words.length - at); length > 0; length--) {
      const category = byName.get(plain(words.slice(at, at + length).join(' ')));
      if (category === undefined) continue;
      if (!found.includes(category)) found.push(category);
      at += length - 1;
      break;
    }
  return found;
}

const namesByTable = new WeakMap<CategoryTable, ReadonlyMap<string, ServiceCategory>>();

/** Categories by every spelling, laid out once for a table. */
function namesOf(table: CategoryTable): ReadonlyMap<string, ServiceCategory> {
  const known = namesByTable.get(table);
  if (known !== undefined) return known;
  const names = new Map<string, ServiceCategory>();
  for (const category of table.categories)
    for (const spelling of spellings(category)) if (!names.has(spelling)) names.set(spelling, category);
  namesByTable.set(table, names);
  return names;
}

/** True when an oil of category `offered` stands in for `required`: the same, or one it covers at any depth. */
export function categoryCovers(
  offered: ServiceCategory,
  required: ServiceCategory,
  table: CategoryTable,
): boolean {
  if (offered.id === required.id) return true;
  return offered.covers.some((id) => {
    const lower = table.categories.find((entry) => entry.id === id);
    return lower !== undefined && categoryCovers(lower, required, table);
  });
}
