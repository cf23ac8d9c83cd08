/** The duties that are recognised by their words, each with starting values in the catalog. */
export const dutyClasses = [
  'patrol',
  'parcel',
  'highway',
  'taxi',
  'towing',
  'short_trip',
  'works',
  'mixed',
] as const;
export type DutyClass = (typeof dutyClasses)[number];

/** Words by duty in several languages, without accents; the first duty that matches is taken, so "plow" comes before "winter". */
const words: readonly (readonly [DutyClass, RegExp])[] = [
  [
    'towing',
    /\b(tow|tows|towing|towtruck|trailers?|plow\w*|plough\w*|snow\w*|recovery|wrecker|heavy haul\w*|anhanger\w*|schlepp\w*|raumdienst|winterdienst|remorqu\w*|deneigement|grua|remolque\w*|rimorchi\w*|reboque|sleep\w*dienst)\b/,
  ],
  [
    'patrol',
    /\b(patrol\w*|police|sheriff|pursuit|squad|security|enforcement|ambulance|ems|fire|rescue|rettung\w*|feuerwehr|pompiers?|bomberos|polizei\w*|streife\w*|patrouill\w*|policia\w*|patrulla\w*|polizia|pattugli\w*|politie)\b/,
  ],
  [
    'taxi',
    /\b(taxis?|cabs?|ride ?hail\w*|ride ?share|chauffeur\w*|limo\w*|shuttle\w*|bus|buses|transit|private hire|fahrdienst|vtc|remise\w*)\b/,
  ],
  [
    'parcel',
    /\b(parcels?|deliver\w*|couriers?|last ?mile|mail|post|postal|stop ?(and|&|n)? ?go|route van|paket\w*|kurier\w*|zustell\w*|liefer\w*|livraison\w*|colis|coursier\w*|messagerie|entregas?|reparto|paqueter\w*|mensajer\w*|consegn\w*|corriere|bezorg\w*|pakket\w*)\b/,
  ],
  [
    'short_trip',
    /\b(short\w*|campus|winter|cold start\w*|kurzstrecke\w*|stadtfahrt\w*|courts? trajets?|petits trajets|trayectos? cortos?|corto recorrido|brevi tragitti|korte ritten)\b/,
  ],
  [
    'highway',
    /\b(high ?way\w*|motorway\w*|free ?way\w*|interstate|long ?distance|long ?haul|line ?haul|otr|over the road|autobahn\w*|fernverkehr|langstrecke\w*|autoroute\w*|longue distance|autopista\w*|larga distancia|autostrad\w*|snelweg\w*|lange afstand)\b/,
  ],
  [
    'works',
    /\b(works?|municipal\w*|construction|job ?sites?|utility|utilities|refuse|garbage|waste|sanitation|sweeper|crane|bucket|quarry|mine|mining|farm\w*|landscap\w*|parks?|bauhof\w*|baustelle\w*|kommunal\w*|chantiers?|travaux|voirie|obras?|municipio|cantier\w*|bouw\w*|gemeente\w*)\b/,
  ],
  ['mixed', /\b(mixed|general|pool|admin\w*|office|gemischt\w*|mixte|mixto|misto|gemengd)\b/],
];

/** Lower case, without accents, with blanks for `_`, `-` and `/`. */
export function plainWords(text: string): string {
  return text
    .normalize('NFD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .replace(/[_\-/.,;:+]+/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();
}

/**
 * Which duty a text names.
 * @param text free text of the fleet, e.g. `Streifendienst` or `last-mile delivery`
 * @returns the duty, or null when no word is known; `last-mile delivery` → `parcel`
 */
export function dutyClassOf(text: string | null): DutyClass | null {
  if (text === null) return null;
  const plain = plainWords(text);
  for (const [dutyClass, pattern] of words) if (pattern.test(plain)) return dutyClass;
  return null;
}
